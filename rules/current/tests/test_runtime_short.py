"""`runtime:short`: a battery does not last as long as the job asks."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD

CODE = "runtime:short"
FAULT = (
    edit_text(HAND_HELD, ("battery: house/battery", "battery: house/battery  # here")) + "needs: {runtime: 150 min}\n"
)
LIBRARY = "rigmint_library: 1\nparts: [parts]\nrules: {runtime:short: {at_least: 150 min}}\n"


def test_finds_a_battery_that_is_too_small() -> None:
    """98 Wh, 36 W and about 2 % in the leads and the battery, to 15 % left, aged to 85 %: just under two hours."""
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="battery", cause="battery", grade=Grade.THIN
    )
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(98 / 36.7 * 0.87 * 0.85 * 3600, rel=0.03)
    assert finding.measured.limit == 150 * 60.0


def test_is_silent_where_it_lasts() -> None:
    assert_silent(check_text(edit_text(FAULT, ("runtime: 150 min", "runtime: 100 min")), PARTS), CODE)


def test_is_silent_where_nobody_asks() -> None:
    assert_silent(check_text(HAND_HELD, PARTS), CODE)


def test_the_library_asks_where_the_rig_does_not() -> None:
    rig = edit_text(HAND_HELD, ("battery: house/battery", "battery: house/battery  # here"))
    report = check_text(rig, PARTS, library_yaml=LIBRARY)

    assert_finds(report, CODE, line=find_line(rig), at="battery", cause="battery")


def test_the_rig_wins_over_the_library() -> None:
    report = check_text(edit_text(FAULT, ("runtime: 150 min", "runtime: 60 min")), PARTS, library_yaml=LIBRARY)

    assert_silent(report, CODE)


def test_cold_takes_its_part() -> None:
    """100 min are there at 5 degC; at -10 degC the battery gives 60 %."""
    cold = edit_text(FAULT, ("{runtime: 150 min}", "{runtime: 100 min, temperature: -10 degC}"))
    mild = edit_text(FAULT, ("{runtime: 150 min}", "{runtime: 100 min, temperature: 5 degC}"))

    finding = assert_finds(check_text(cold, PARTS), CODE, line=find_line(cold), at="battery", cause="battery")
    assert_silent(check_text(mild, PARTS), CODE)
    whole = assert_finds(check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="battery", cause="battery")
    assert finding.measured is not None
    assert whole.measured is not None
    assert finding.measured.value == pytest.approx(0.6 * whole.measured.value)


def test_names_the_port_that_leaves_its_window_first() -> None:
    parts = edit_text(PARTS, ("role: in, works: 11 to 17 V", "role: in, works: 14.2 to 17 V"))

    finding = assert_finds(
        check_text(FAULT, parts), CODE, line=find_line(FAULT), at="battery", cause="battery", worst=Grade.BURN
    )
    assert "until camera.dc_in leaves its window" in finding.says
