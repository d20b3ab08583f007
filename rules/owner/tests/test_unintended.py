"""`owner:unintended`: the wrong person has an axis."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import TWO_UP

CODE = "owner:unintended"
FAULT = edit_text(TWO_UP, ("lens_control: off", "lens_control: on  # here")) + "    out: [hand]\n"


def test_finds_the_desk_on_the_focus_of_another() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="lens.focus", cause="desk.set.lens_control",
        grade=Grade.FIGHT,
    )  # fmt: skip
    assert finding.says == (
        "lens.focus answers to operator on desk.lens_wheel (absolute). first_ac is meant to have it."
    )


def test_is_silent_where_the_one_who_has_it_is_meant() -> None:
    assert_silent(check_text(edit_text(FAULT, ("focus: first_ac", "focus: operator")), PARTS), CODE)


def test_is_silent_where_the_rig_does_not_say_who() -> None:
    assert_silent(check_text(edit_text(FAULT, ("      focus: first_ac\n", "")), PARTS), CODE)


def test_finds_an_axis_meant_for_nobody_that_somebody_has() -> None:
    rig = edit_text(TWO_UP, ("focus: first_ac", "focus: nobody"), ("hand.radio]}", "hand.radio]}  # here"))

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause="link:lens_control"
    )
    assert finding.says == "lens.focus answers to first_ac on hand.knob (absolute). Nobody is meant to have it."


def test_is_silent_where_nobody_has_what_is_meant_for_nobody() -> None:
    rig = edit_text(TWO_UP, ("focus: first_ac", "focus: nobody")) + "    out: [hand]\n"

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_on_a_control_of_an_item_that_is_off() -> None:
    rig = edit_text(TWO_UP, ("focus: first_ac", "focus: nobody")) + "    off: [hand]\n"

    assert_silent(check_text(rig, PARTS), CODE)


def test_finds_a_desk_in_nobodys_crew() -> None:
    rig = edit_text(FAULT, ("operator: [desk], ", "operator: [], "))

    finding = assert_finds(
        check_text(edit_text(rig, ("      pan: operator\n", "")), PARTS), CODE,
        line=find_line(rig), at="lens.focus", cause="desk.set.lens_control",
    )  # fmt: skip
    assert "somebody on desk.lens_wheel" in finding.says


WITH_FINDER = (
    edit_text(
        TWO_UP,
        ("  lens: house/lens\n", "  lens: house/lens\n  finder: house/finder\n"),
        ("  D3:", "  D4: {part: house/lead-data, from: finder.bus, to: motor.bus_2}\n  D3:"),
    )
    + "    out: [hand]\n"
)


def test_finds_an_automatic_control_on_an_axis_meant_for_nobody() -> None:
    rig = edit_text(WITH_FINDER, ("focus: first_ac", "focus: nobody"), ("to: motor.bus_2}", "to: motor.bus_2}  # here"))

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause="D4")


def test_is_silent_on_automatic_where_that_is_meant() -> None:
    rig = edit_text(WITH_FINDER, ("focus: first_ac", "focus: automatic"))

    assert_silent(check_text(rig, PARTS), CODE, "owner:nobody")
