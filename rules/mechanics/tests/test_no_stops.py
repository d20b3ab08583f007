"""`drive:no-stops`: a motor seeks stops that the ring does not have."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import LENS

CODE = "drive:no-stops"
MARKED = edit_text(LENS, ("set: {axis: focus}}", "set: {axis: focus}}  # here"))
ENDLESS = edit_text(
    PARTS, ("torque: 0.2 N*m, stops: true, stands: 1.5 N*m", "torque: 0.2 N*m, stops: false, stands: 0.2 N*m")
)


def test_finds_automatic_calibration_on_a_ring_without_stops() -> None:
    report = check_text(MARKED, ENDLESS)

    finding = assert_finds(report, CODE, line=find_line(MARKED), at="lens.focus", cause="motor", grade=Grade.BURN)
    assert finding.fixes[0].says == "Set motor.calibration to manual, and set the ends of lens.focus by hand."
    assert [one.code for one in report.findings] == [CODE]


def test_is_silent_where_it_is_calibrated_by_hand() -> None:
    rig = edit_text(LENS, ("set: {axis: focus}", "set: {axis: focus, calibration: manual}"))

    assert_silent(check_text(rig, ENDLESS), CODE, "drive:too-strong")


def test_is_silent_on_the_other_ring() -> None:
    """Looks like it: the lens has a ring without stops, and the motor sits on the one that has them."""
    rig = edit_text(
        LENS, ("set: {axis: focus}", "set: {axis: iris}"), ("motor: lens.focus", "motor: lens.iris"),
        ("who: {focus: operator}", "who: {}"),
    )  # fmt: skip

    assert_silent(check_text(rig, ENDLESS), CODE)


def test_does_not_know_of_a_ring_that_does_not_say() -> None:
    report = check_text(LENS, edit_text(PARTS, ("stops: true, stands: 1.5 N*m", "stands: 1.5 N*m")))

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("stops", "lens.focus")]
