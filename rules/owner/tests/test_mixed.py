"""`owner:mixed`: position and speed on one axis."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import TWO_UP

CODE = "owner:mixed"
FAULT = edit_text(TWO_UP, ("head.dial: none", "head.dial: focus  # here"))


def test_finds_a_dial_and_a_hand_unit_on_one_ring() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="lens.focus", cause="head.set.dial", grade=Grade.FIGHT
    )
    assert finding.path[0] == "head.dial"
    assert finding.says == (
        "lens.focus answers to first_ac on hand.knob (absolute) and carrier on head.dial (rate): one sends a position"
        " and the other a speed, so it snaps back from wherever it is driven. first_ac is meant to have it."
    )
    assert finding.fixes[0].says == "Set head.dial to none: the other hands stay."


def test_is_silent_where_the_dial_is_off() -> None:
    assert_silent(check_text(TWO_UP, PARTS), CODE)


def test_is_silent_where_the_dial_has_another_ring() -> None:
    rig = edit_text(
        FAULT,
        ("head.dial: focus", "head.dial: iris"),
        ("  lens: house/lens\n", "  lens: house/lens\n  motor_i: {part: house/motor, set: {axis: iris}}\n"),
        ("  D3:", "  D4: {part: house/lead-data, from: motor.bus_2, to: motor_i.bus_1}\n  D3:"),
        ("fitted: {motor: lens.focus}", "fitted: {motor: lens.focus, motor_i: lens.iris}"),
        ("      focus: first_ac\n", "      focus: first_ac\n      iris: carrier\n"),
    )
    parts = edit_text(
        PARTS, ("{from: [knob, slider], to: radio, axes: [focus, iris]}", "{from: knob, to: radio, axes: focus}")
    )

    assert_silent(check_text(rig, parts), CODE)


def test_takes_every_unwanted_hand_off_at_once() -> None:
    rig = edit_text(
        FAULT, ("head.dial: focus  # here", "head.dial: focus"), ("lens_control: off", "lens_control: on  # here")
    )

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause="desk.set.lens_control"
    )
    assert finding.fixes[0].says == "Set desk.lens_control to off and head.dial to none: the other hands stay."


def test_is_silent_where_the_hand_unit_takes_over() -> None:
    rig = edit_text(FAULT, ("hand: house/hand\n", "hand: house/hand-touch\n"))

    assert_silent(check_text(rig, PARTS), CODE)
