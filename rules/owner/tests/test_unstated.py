"""`settings:unstated`: what nobody wrote down and can go wrong."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import TWO_UP
from .test_wrong_ring import TWO_MOTORS

CODE = "settings:unstated"
FAULT = edit_text(
    TWO_UP, ("      desk.lens_control: off\n", ""), ("  desk: house/desk\n", "  desk: house/desk  # here\n")
)


def test_finds_a_desk_whose_lens_control_is_not_written_down() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="desk.set.lens_control",
        cause="desk.set.lens_control", grade=Grade.THIN,
    )  # fmt: skip
    assert finding.says == (
        "Nobody wrote down desk.lens_control. With desk.lens_control set to on, lens.focus answers to operator on"
        " desk.lens_wheel (absolute). Rented gear arrives as the last job left it."
    )


def test_is_silent_where_it_is_written_down() -> None:
    assert_silent(check_text(TWO_UP, PARTS), CODE)


def test_is_silent_on_a_setting_that_can_do_no_harm() -> None:
    """Without a path from the desk to the lens, its lens control decides nothing."""
    rig = edit_text(FAULT, ("  D1: {part: house/lead-data, from: driver.head, to: head.accessory}\n", ""))

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_where_the_part_has_a_default() -> None:
    parts = edit_text(PARTS, ("lens_control: {values: [on, off]}", "lens_control: {values: [on, off], default: off}"))

    assert_silent(check_text(FAULT, parts), CODE)


def test_rolls_up_a_setup() -> None:
    rig = edit_text(FAULT, ("    set:\n      head.dial: none\n", ""))

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="desk.set.lens_control", cause="desk.set.lens_control"
    )
    assert finding.also == ("head.set.dial",)
    assert "With head.dial set to focus, lens.focus answers to carrier on head.dial (rate)." in finding.says


def test_finds_a_motor_of_which_nobody_wrote_the_axis() -> None:
    rig = edit_text(TWO_UP, ("motor: {part: house/motor, set: {axis: focus}}", "motor: house/motor  # here"))

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="motor.set.axis", cause="motor.set.axis"
    )
    assert "nobody has lens.focus" in finding.says


def test_finds_a_follow_mode_that_nobody_wrote_down() -> None:
    parts = edit_text(
        PARTS, ("mode: {values: [locked, pan_follow], default: locked}", "mode: {values: [locked, pan_follow]}")
    )
    rig = edit_text(TWO_UP, ("  head: house/head\n", "  head: house/head  # here\n"))

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="head.set.mode", cause="head.set.mode")
    assert "With head.mode set to pan_follow, head.pan follows whoever carries it." in finding.says


def test_is_not_said_where_every_value_is_wrong() -> None:
    """Then the worse finding speaks for all of them."""
    rig = edit_text(TWO_UP, ("head.dial: none", "head.dial: focus"), ("      desk.lens_control: off\n", ""))
    report = check_text(rig, PARTS)

    assert [finding.code for finding in report.findings] == ["owner:mixed"]


def test_finds_a_motor_that_some_control_reaches_whatever_it_is_set_to() -> None:
    """The hand unit has a knob for focus and a slider for iris, both the first AC's: at focus the knob turns both."""
    rig = edit_text(TWO_MOTORS, ("motor_i: {part: house/motor, set: {axis: iris}}", "motor_i: house/motor  # here"))

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="motor_i.set.axis", cause="motor_i.set.axis"
    )
    assert "With motor_i.axis set to focus, hand.knob sends focus and turns lens.iris." in finding.says


def test_is_silent_where_each_motor_has_its_axis() -> None:
    assert_silent(check_text(TWO_MOTORS, PARTS), CODE)
