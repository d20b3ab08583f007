"""`drive:slow`: the motor takes long from end to end."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import LENS

CODE = "drive:slow"
MARKED = edit_text(LENS, ("set: {axis: focus}}", "set: {axis: focus}}  # here"))
SLOW = edit_text(PARTS, ("speed: 900 deg/s", "speed: 400 deg/s"))


def test_finds_a_slow_motor() -> None:
    """270 deg of the ring are 877.5 deg of the motor: at 400 deg/s 2.19 s."""
    finding = assert_finds(
        check_text(MARKED, SLOW), CODE, line=find_line(MARKED), at="lens.focus", cause="motor", grade=Grade.THIN
    )
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(877.5 / 400)
    assert finding.fixes[0].says.startswith("Fit a gear of 44 teeth or more to motor instead of 40")


def test_is_silent_where_it_is_quick() -> None:
    assert_silent(check_text(LENS, PARTS), CODE)


def test_is_silent_where_the_ring_has_a_short_turn() -> None:
    """Looks slow by its figures, and sits on an iris of 80 deg."""
    rig = edit_text(
        LENS, ("set: {axis: focus}", "set: {axis: iris}"), ("motor: lens.focus", "motor: lens.iris"),
        ("who: {focus: operator}", "who: {}"),
    )  # fmt: skip

    assert_silent(check_text(rig, SLOW), CODE)


def test_takes_the_limit_from_the_library() -> None:
    library = "rigmint_library: 1\nparts: [parts]\nrules: {drive:slow: {focus: 3 s}}\n"

    assert_silent(check_text(LENS, SLOW, library_yaml=library), CODE)
