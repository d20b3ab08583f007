"""`voltage:collapse` at its limit: a constant power behind a resistance has no operating point above V^2 / 4R (maximum
power transfer; any circuits text). A thousandth above it collapses, a thousandth below does not."""

from __future__ import annotations

import math

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, find_line

CODE = "voltage:collapse"
VOLTS = 14.4
CELL_OHMS = 0.5
METRES = 30.0
RIG = f"""\
rigmint: 1
rig: Saltmarsh, at the limit
kit: {{mains: house/supply, heater: house/heater}}
leads:
  P1: {{part: house/lead, from: mains.out, to: heater.dc_in, length: {METRES} m}}  # here
"""


def write_parts(watts: float) -> str:
    """A supply of one voltage, a heater that works from 1 V, and a lead of 18 AWG."""
    return f"""
parts:
  - rigmint_part: 1
    id: house/supply
    kind: supply
    ports: {{out: {{connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -0.3 to 20 V}}}}
    cells: {{supply: {{rail: main, volts: {VOLTS} to {VOLTS} V, nominal: {VOLTS} V, resistance: {CELL_OHMS} ohm, trips: 20 A}}}}
  - rigmint_part: 1
    id: house/heater
    kind: accessory
    ports: {{dc_in: {{connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 1 to 17 V, survives: -0.3 to 20 V}}}}
    rails: {{main: {{load: {watts:.9f} W, peak: {watts:.9f} W}}}}
  - rigmint_part: 1
    id: house/lead
    kind: lead
    ends: {{a: {{connector: 0b-2, sex: plug}}, b: {{connector: 0b-2, sex: plug}}}}
    conductors: [{{from: a.1, to: b.1, gauge: 18 AWG}}, {{from: a.2, to: b.2, gauge: 18 AWG}}]
"""


def find_limit(cell_ohms: float) -> float:
    """W: V^2 / 4R behind the supply, two conductors and four mates of 5 mohm.

    18 AWG: ASTM B258 diameter, IACS copper at 20 °C, 2 % for the stranding (common practice)."""
    diameter = 0.127 * math.pow(92.0, (36 - 18) / 39)
    conductor = METRES / 58.0 / (math.pi * diameter**2 / 4) * 1.02
    return VOLTS**2 / (4 * (cell_ohms + 2 * conductor + 4 * 0.005))


@pytest.mark.parametrize("share", [1.001, 1.01, 1.9])
def test_finds_what_is_just_too_much(share: float) -> None:
    parts = write_parts(share * find_limit(CELL_OHMS))

    finding = assert_finds(check_text(RIG, parts), CODE, line=find_line(RIG), at="heater", cause="P1", grade=Grade.DEAD)
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(1 / share, abs=2e-4)
    assert f"it can give {math.floor(100 / share)} % of the power" in finding.says
    assert "even with full batteries" in finding.says


def test_is_silent_just_below_the_limit_of_the_change() -> None:
    """At the change the supply's own resistance counts one and a half times, so that is where the limit is lowest."""
    assert_silent(check_text(RIG, write_parts(0.999 * find_limit(1.5 * CELL_OHMS))), CODE)


def test_speaks_of_the_change_where_only_that_collapses() -> None:
    parts = write_parts(1.001 * find_limit(1.5 * CELL_OHMS))

    finding = assert_finds(check_text(RIG, parts), CODE, line=find_line(RIG), at="heater", cause="P1")
    assert "at the battery change, with peaks" in finding.says


def test_a_hopeless_feed_gives_less_than_a_hundredth() -> None:
    finding = assert_finds(check_text(RIG, write_parts(1e6)), CODE, line=find_line(RIG), at="heater", cause="P1")

    assert "it can give less than 1 % of the power" in finding.says
