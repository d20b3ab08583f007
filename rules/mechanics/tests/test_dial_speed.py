"""`drive:dial-speed`: a wheel that runs out before the ring does."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import LENS

CODE = "drive:dial-speed"
WHEEL = "controls: {wheel: {sends: rate, axis: focus, turn: 330 deg}}"
SPEEDS = "speeds: {1: 0.4, 2: 0.8, 3: 1.2, 4: 2.0}"


def at_speed(value: str) -> str:
    """The rig at a dial speed."""
    return edit_text(LENS, ("    who:", f"    set: {{desk.dial_speed: {value}}}  # here\n    who:"))


def test_finds_a_speed_that_does_not_cover_the_ring_and_the_lowest_that_does() -> None:
    """0.8 x 330 / 360 = 73 %. At 1.2 a ring length takes 300 deg: 30 left; 1000 x 3.25 x 270 / 360 = 2437.5 steps to a
    ring length, x 1.2 / 360 = 8.125 a degree."""
    rig = at_speed("2")

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause="desk.set.dial_speed",
        grade=Grade.THIN,
    )  # fmt: skip
    assert finding.says == "desk.wheel ends after 330 deg, and at desk.dial_speed 2 that takes lens.focus through 73 % of its turn."  # fmt: skip
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(0.8 * 330 / 360)
    assert finding.fixes[0].says == (
        "Set desk.dial_speed to 3, the lowest that covers the ring: it leaves 30 deg of wheel over, 8.12 motor steps to a"
        " degree of wheel."
    )
    assert finding.fixes[0].edits[0].value == "3"
    assert finding.path[0] == "desk.wheel"


@pytest.mark.parametrize("value", ["3", "4"])
def test_is_silent_where_the_wheel_covers_the_ring(value: str) -> None:
    assert_silent(check_text(at_speed(value), PARTS), CODE)


def test_is_silent_where_the_turn_just_covers_the_ring() -> None:
    """330 deg at 360 / 330 ring lengths a turn."""
    parts = edit_text(PARTS, ("2: 0.8", f"2: {360 / 330!r}"))

    assert_silent(check_text(at_speed("2"), parts), CODE)


def test_is_silent_on_a_wheel_without_stops() -> None:
    parts = edit_text(PARTS, (WHEEL, "controls: {wheel: {sends: rate, axis: focus}}"))

    assert_silent(check_text(at_speed("1"), parts), CODE)


def test_is_silent_on_a_wheel_that_arrives_as_position() -> None:
    parts = edit_text(PARTS, (WHEEL, "controls: {wheel: {sends: absolute, axis: focus, turn: 330 deg}}"))

    assert_silent(check_text(at_speed("1"), parts), CODE)


def test_is_silent_on_a_wheel_that_nobody_is_meant_to_use() -> None:
    rig = edit_text(at_speed("1"), ("who: {focus: operator}", "who: {focus: nobody}"))
    codes = [finding.code for finding in check_text(rig, PARTS).findings]

    assert CODE not in codes


def test_offers_another_wheel_where_no_speed_covers() -> None:
    parts = edit_text(PARTS, (SPEEDS, "speeds: {1: 0.4, 2: 0.5, 3: 0.6, 4: 0.9}"))
    rig = at_speed("2")

    finding = assert_finds(
        check_text(rig, parts), CODE, line=find_line(rig), at="lens.focus", cause="desk.set.dial_speed"
    )
    assert finding.fixes[0].says == (
        "No speed of desk covers lens.focus: use a wheel that acts by position, or without stops."
    )
    assert finding.fixes[0].edits == ()


@pytest.mark.parametrize(
    ("change", "needs", "at"),
    [
        ((SPEEDS, "notes: without speeds"), "speeds", "desk"),
        (("values: [1, 2, 3, 4], default: 3", "values: [1, 2, 3, 4]"), "dial_speed", "desk.set.dial_speed"),
        ((SPEEDS, "speeds: {1: 0.4, 2: 0.8}"), "speeds.3", "desk"),
    ],
)
def test_does_not_know_without_the_speed(change: tuple[str, str], needs: str, at: str) -> None:
    report = check_text(LENS, edit_text(PARTS, change))

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [(needs, at)]
