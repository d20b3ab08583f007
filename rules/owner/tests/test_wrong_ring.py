"""`owner:wrong-ring`: a control that turns another ring than it is set to."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import TWO_UP

CODE = "owner:wrong-ring"
TWO_MOTORS = edit_text(
    TWO_UP,
    (
        "  motor: {part: house/motor, set: {axis: focus}}\n",
        "  motor_f: {part: house/motor, set: {axis: focus}}\n  motor_i: {part: house/motor, set: {axis: iris}}\n",
    ),
    ("to: motor.bus_1}", "to: motor_f.bus_1}\n  D4: {part: house/lead-data, from: motor_f.bus_2, to: motor_i.bus_1}"),
    ("fitted: {motor: lens.focus}", "fitted:\n  motor_f: lens.focus\n  motor_i: lens.iris"),
    ("focus: first_ac", "focus: first_ac\n      iris: first_ac"),
)
EXCHANGED = (
    ("fitted:\n  motor_f: lens.focus\n  motor_i: lens.iris", "fitted:\n  motor_f: lens.iris\n  motor_i: lens.focus"),
)
FAULT = edit_text(
    TWO_MOTORS, *EXCHANGED, ("motor_f: {part: house/motor, set:", "motor_f:  # here\n    {part: house/motor, set:")
)


def test_finds_two_motors_that_changed_places() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=_find_axis_line(FAULT), at="lens.focus", cause="motor_i.set.axis",
        grade=Grade.FIGHT,
    )  # fmt: skip
    assert finding.says == (
        "hand.slider sends iris and turns lens.focus: motor_i, which answers to iris, sits on that ring;"
        " hand.knob (focus) turns lens.iris."
    )
    assert finding.also == ("lens.iris",)
    assert finding.fixes[0].says == "Set motor_i.axis to focus and motor_f.axis to iris, as they are fitted."
    assert [edit.value for edit in finding.fixes[0].edits] == ["focus", "iris"]


def test_is_silent_where_each_sits_on_its_own_ring() -> None:
    assert_silent(check_text(TWO_MOTORS, PARTS), CODE)


def test_is_silent_where_the_motors_are_set_as_they_are_fitted() -> None:
    rig = edit_text(TWO_MOTORS, *EXCHANGED, ("motor_f: {part: house/motor, set: {axis: focus}}", "motor_f: {part: house/motor, set: {axis: iris}}"),
                    ("motor_i: {part: house/motor, set: {axis: iris}}", "motor_i: {part: house/motor, set: {axis: focus}}"))  # fmt: skip

    assert_silent(check_text(rig, PARTS), CODE)


def test_finds_one_knob_that_turns_two_rings() -> None:
    rig = edit_text(
        TWO_MOTORS,
        ("motor_i: {part: house/motor, set: {axis: iris}}", "motor_i: {part: house/motor, set: {axis: focus}}  # here"),
    )

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.iris", cause="motor_i.set.axis")
    assert finding.says == (
        "hand.knob sends focus and turns lens.iris: motor_i, which answers to focus, sits on that ring."
    )


def test_finds_a_focus_motor_on_the_ring_of_somebody_else() -> None:
    """The one motor is set to focus and sits on the iris ring, and the first AC is meant to have focus alone."""
    rig = edit_text(TWO_UP, ("set: {axis: focus}}", "set: {axis: focus}}  # here"),
                    ("fitted: {motor: lens.focus}", "fitted: {motor: lens.iris}"),
                    ("focus: first_ac", "focus: first_ac\n      iris: nobody"))  # fmt: skip

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.iris", cause="motor.set.axis")


def test_is_silent_where_who_says_so() -> None:
    """The first AC's focus knob is to turn the iris ring, and focus is nobody's."""
    rig = edit_text(TWO_UP, ("fitted: {motor: lens.focus}", "fitted: {motor: lens.iris}"),
                    ("focus: first_ac", "focus: nobody\n      iris: first_ac"))  # fmt: skip

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_on_rings_that_who_leaves_out() -> None:
    rig = edit_text(TWO_MOTORS, *EXCHANGED, ("      focus: first_ac\n      iris: first_ac\n", ""))

    assert_silent(check_text(rig, PARTS), CODE)


def _find_axis_line(rig: str) -> int:
    return next(number for number, line in enumerate(rig.splitlines(), start=1) if "motor_i: {part" in line)
