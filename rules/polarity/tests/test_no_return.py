"""`polarity:no-return`: plus without a minus of its own."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD, WITH_PICTURE

CODE = "polarity:no-return"
CUT = (
    "P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}",
    "P1: {part: house/lead-2pin-no-minus, from: plate.out_1, to: camera.dc_in}  # here",
)
FAULT = edit_text(HAND_HELD, CUT)


def test_finds_a_cut_minus() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="camera.dc_in", cause="P1", grade=Grade.DEAD
    )
    assert finding.says == "camera gets plus through P1, but its minus leads nowhere, so it does not switch on."


def test_is_silent_where_the_minus_is_whole() -> None:
    assert_silent(check_text(HAND_HELD, PARTS), CODE)


def test_is_silent_where_a_second_feed_brings_the_minus() -> None:
    """The cut lead is not the only one into the camera: another power lead returns its current."""
    parts = edit_text(
        PARTS,
        (
            "dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 11 to 17 V, survives: -0.3 to 18 V}",
            "dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 11 to 17 V, survives: -0.3 to 18 V}\n"
            "      dc_in_2: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 11 to 17 V}",
        ),
    )
    rig = FAULT + "  P3: {part: house/lead-tap, from: plate.tap, to: camera.dc_in_2}\n"

    assert_silent(check_text(rig, parts), CODE)


def test_burns_where_the_return_runs_through_a_picture_shield() -> None:
    rig = edit_text(WITH_PICTURE, CUT)

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.dc_in", cause="P1", grade=Grade.BURN
    )
    assert finding.says == (
        "camera gets plus through P1, but no minus: its whole current returns through the shield of S1."
    )


def test_is_silent_where_a_shield_lies_beside_a_whole_minus() -> None:
    assert_silent(check_text(WITH_PICTURE, PARTS), CODE)


def test_speaks_once_for_all_behind_a_trunk() -> None:
    """The leads behind the cut one are whole: none of them is to blame."""
    rig = edit_text(
        HAND_HELD,
        ("  monitor: house/monitor\n", "  monitor: house/monitor\n  breakout: house/breakout\n"),
        ("  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}\n",
         "  P1: {part: house/lead-2pin-no-minus, from: plate.out_1, to: breakout.in}  # here\n"
         "  P3: {part: house/lead-2pin, from: breakout.out_1, to: camera.dc_in}\n"),
        ("from: plate.out_2, to: monitor.dc_in", "from: breakout.out_2, to: monitor.dc_in"),
    )  # fmt: skip

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="breakout.in", cause="P1")
    assert finding.says == (
        "camera gets plus through P1, but its minus leads nowhere, so it does not switch on. monitor lacks it too."
    )
    assert finding.also == ("camera", "monitor")
