"""`tidy:idle-control`: a control that was packed for an axis and reaches nothing, while nobody has the axis."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import TRIPOD

CODE = "tidy:idle-control"
LINK = "links:\n  lens_control: {between: [motor.radio, hand.radio], distance: 10 m, channel: 1}\n"
FAULT = edit_text(TRIPOD, (LINK, ""), ("  hand: house/hand\n", "  hand: house/hand  # here\n"))


def test_finds_a_hand_unit_without_a_link() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="lens.focus", cause="hand", grade=Grade.TIDY
    )
    assert finding.says.startswith("Nobody has lens.focus: hand.knob would reach it, but ")


def test_is_silent_where_it_reaches_the_axis() -> None:
    assert_silent(check_text(TRIPOD, PARTS), CODE)


def test_is_silent_where_who_says_so() -> None:
    """Nobody is meant to have it, or somebody is and the owner rules speak."""
    nobody = FAULT + "setups: {locked: {who: {focus: nobody}}}\n"
    meant = FAULT + "setups: {pull: {who: {focus: first_ac}}}\n"

    assert_silent(check_text(nobody, PARTS), CODE)
    assert_finds(
        check_text(meant, PARTS), "owner:nobody", line=find_line(meant), at="lens.focus", cause="hand"
    )  # fmt: skip
    assert_silent(check_text(meant, PARTS), CODE, worst=Grade.BURN)


def test_is_silent_where_a_setting_keeps_it_away_or_it_is_off() -> None:
    away = edit_text(FAULT, ("hand: house/hand  # here", "hand: {part: house/hand, set: {knob: off}}"))

    assert_silent(check_text(away, PARTS), CODE)
    assert_silent(check_text(FAULT + "setups: {rest: {off: [hand]}}\n", PARTS), CODE)


def test_is_silent_where_nothing_drives_the_axis() -> None:
    assert_silent(check_text(edit_text(FAULT, ("fitted: {motor: lens.focus}\n", "")), PARTS), CODE)


def test_is_silent_where_the_control_has_another_axis() -> None:
    rig = edit_text(
        TRIPOD,
        ("  motor: house/motor\n", "  motor: house/motor\n  lens_b: house/lens\n  motor_b: house/motor\n"),
        ("fitted: {motor: lens.focus}", "fitted: {motor: lens.focus, motor_b: lens_b.focus}"),
    )

    assert_silent(check_text(rig, PARTS), CODE)
