"""`polarity:shorted`: plus and minus of one source joined, with the ring of contacts."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD, WITH_PICTURE

CODE = "polarity:shorted"
CROSSED = (
    "P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}",
    "P1: {part: house/lead-2pin-crossed, from: plate.out_1, to: camera.dc_in}  # here",
)
FAULT = edit_text(WITH_PICTURE, CROSSED)


def test_finds_a_crossed_feed_whose_return_closes_over_a_shield() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="battery.pack", cause="P1", grade=Grade.BURN
    )
    assert finding.path == (
        "battery", "plate.out_1", "P1", "camera.dc_in", "camera.sdi", "S1", "monitor.sdi", "monitor.dc_in", "P2",
        "plate.out_2", "battery.mount",
    )  # fmt: skip
    assert finding.says == (
        "Plus and minus of battery are joined: P1 takes contact 2 of plate.out_1 to contact 1 of camera.dc_in,"
        " and 16.8 V meets its own return."
    )


def test_is_silent_where_the_lead_is_straight() -> None:
    assert_silent(check_text(WITH_PICTURE, PARTS), CODE)


def test_is_silent_where_nothing_closes_the_ring() -> None:
    """Without the picture lead the same crossed lead reverses the camera and shorts nothing."""
    report = check_text(edit_text(HAND_HELD, CROSSED), PARTS)

    assert_silent(report, CODE, worst=Grade.HURT)
    assert [finding.code for finding in report.findings] == ["polarity:reversed"]


def test_finds_a_lead_soldered_across() -> None:
    rig = (
        HAND_HELD
        + """\
  P3:  # here
    from: plate.tap
    to: loose
    lead:
      ends: {a: {connector: d-tap}, b: {connector: 0b-2}}
      conductors: [{from: a.1, to: b.1}, {from: b.1, to: a.2}]
"""
    )
    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="battery.pack", cause="P3")


def test_holds_in_each_setup_in_which_the_ring_closes() -> None:
    rig = FAULT + "setups:\n  one: {}\n  two: {out: [camera]}\n  three: {off: [monitor]}\n"

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="battery.pack", cause="P1")
    assert finding.setups == ("one", "three")
