"""`drive:turned-round`: a motor's direction was changed after its marks were set."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import LENS

CODE = "drive:turned-round"
RING = "  motor: lens.focus"


def fitted(extra: str) -> str:
    """The rig with more said of how the motor is fitted."""
    return edit_text(LENS, (RING, f"  motor: {{ring: lens.focus, {extra}}}  # here"))


def test_finds_a_direction_that_was_changed() -> None:
    rig = fitted("direction: reversed, marked: normal")

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause="motor.fitted", grade=Grade.THIN
    )
    assert finding.says == (
        "motor runs reversed on lens.focus, and its marks were set when it ran normal: the marks are back to front."
    )
    values = [fix.edits[0].value for fix in finding.fixes]
    assert values == [
        {"ring": "lens.focus", "direction": "normal", "marked": "normal"},
        {"ring": "lens.focus", "direction": "reversed", "marked": "reversed"},
    ]


@pytest.mark.parametrize("extra", ["direction: reversed, marked: reversed", "direction: reversed", "marked: normal"])
def test_is_silent_where_the_marks_are_of_this_direction_or_nobody_set_any(extra: str) -> None:
    assert_silent(check_text(fitted(extra), PARTS), CODE)


def test_finds_a_setting_that_was_changed_in_one_setup() -> None:
    rig = edit_text(
        LENS,
        (RING, "  motor: {ring: lens.focus, direction: normal, marked: normal}"),
        (
            "    who: {focus: operator}",
            "    who: {focus: operator}\n  solo:\n    set: {motor.direction: reversed}  # here",
        ),
    )

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause="motor.set.direction"
    )
    assert finding.setups == ("solo",)
    assert finding.fixes[0].edits[0].path == ("setups", "solo", "set", "motor.direction")


def test_is_silent_where_the_setting_says_what_the_marks_say() -> None:
    """Looks like it: `fitted` still names the old direction, and the motor's own setting is what it runs by."""
    rig = edit_text(
        fitted("direction: reversed, marked: normal"), ("set: {axis: focus}", "set: {axis: focus, direction: normal}")
    )

    assert_silent(check_text(rig, PARTS), CODE)
