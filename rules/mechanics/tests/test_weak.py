"""`drive:weak`: the motor does not turn the ring, or only just."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import LENS

CODE = "drive:weak"
MARKED = edit_text(LENS, ("set: {axis: focus}}", "set: {axis: focus}}  # here"))
TORQUE = "torque: 0.2 N*m, speed"


def with_torque(text: str) -> str:
    """The parts with another torque of the motor."""
    return edit_text(PARTS, (TORQUE, f"torque: {text}, speed"))


@pytest.mark.parametrize(
    ("torque", "grade", "brought"),
    [("0.06 N*m", Grade.DEAD, 0.195), ("0.1 N*m", Grade.THIN, 0.325)],  # times 130 / 40 = 3.25
)
def test_finds_a_weak_motor(torque: str, grade: Grade, brought: float) -> None:
    finding = assert_finds(
        check_text(MARKED, with_torque(torque)), CODE, line=find_line(MARKED), at="lens.focus", cause="motor",
        grade=grade,
    )  # fmt: skip
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(brought)
    assert "0.2 N*m" in finding.says


def test_suggests_the_largest_gear_that_is_strong_enough() -> None:
    """0.1 N*m x 130 / 32 = 0.41, twice 0.2; with 33 teeth it would be 0.39."""
    finding = assert_finds(
        check_text(MARKED, with_torque("0.1 N*m")), CODE, line=find_line(MARKED), at="lens.focus", cause="motor"
    )
    assert finding.fixes[0].says == (
        "Fit a gear of 32 teeth or fewer to motor instead of 40: it then brings 0.41 N*m to the ring and takes 1.2 s"
        " from end to end."
    )


def test_is_silent_where_it_is_strong_enough() -> None:
    assert_silent(check_text(LENS, PARTS), CODE)


def test_is_silent_on_twice_the_torque_to_the_digit() -> None:
    """Looks weak: the motor alone has just the ring's torque, and the teeth bring it to 3.25 times that."""
    assert_silent(check_text(LENS, with_torque("0.12308 N*m")), CODE)


def test_takes_the_margin_from_the_library() -> None:
    library = "rigmint_library: 1\nparts: [parts]\nrules: {drive:weak: {margin: 4}}\n"
    report = check_text(MARKED, PARTS, library_yaml=library)

    assert_finds(report, CODE, line=find_line(MARKED), at="lens.focus", cause="motor", grade=Grade.THIN)


def test_names_the_figure_that_is_missing() -> None:
    report = check_text(LENS, edit_text(PARTS, ("torque: 0.2 N*m, stops", "stops")))

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("torque", "lens.focus")]
