"""Runtime and change-over volts, against integrals of the test's own."""

from __future__ import annotations

import itertools
import math

import pytest

from rigmint.rig.house import House, PowerFigures
from rigmint.rig.rig import PortRef
from tests.builders import make_studies, read_rig_text
from tests.study.power_parts import CONTACT, ONE_CAMERA, PACK_OHMS, PARTS, lead, pair

LOOP = PACK_OHMS + 2 * 2.0 * 33.309e-3 * 1.02 + 4 * CONTACT
"""ohm: a pack, 2 m of 20 AWG both ways, four contacts."""
CURVE = [(0.0, 3.00), (0.05, 3.30), (0.15, 3.50), (0.3, 3.62), (0.5, 3.73), (0.7, 3.87), (0.9, 4.05), (1.0, 4.20)]
"""Fraction left and V of one lithium-ion cell (common practice)."""


def volts_left(fraction: float) -> float:
    """Open-circuit V of the house's pack."""
    for (low, at_low), (high, at_high) in itertools.pairwise(CURVE):
        if fraction <= high:
            cell = at_low + (at_high - at_low) * (fraction - low) / (high - low)
            return 12.0 + 4.8 * (cell - 3.0) / 1.2
    raise AssertionError(fraction)


def volts_at_load(fraction: float, watts: float, ohms: float) -> float:
    """V of a constant-power load on the pack behind `ohms`: the higher root of V (E - V) = P R."""
    source = volts_left(fraction)
    return (source + math.sqrt(source**2 - 4 * ohms * watts)) / 2


def integrate_runtime(watts: float, ohms: float, until: float, lowest: float = 0.0) -> float:
    """s from full to `until` left or to `lowest` V at the load, by 40,000 slices taken at their middles."""
    slices = 40_000
    mean = sum(volts_left((k + 0.5) / slices) for k in range(slices)) / slices
    charge = 98 * 3600 / mean
    seconds, width = 0.0, (1.0 - until) / slices
    for k in range(slices):
        volts = volts_at_load(1.0 - (k + 0.5) * width, watts, ohms)
        if volts < lowest:
            break
        seconds += width * charge * volts / watts
    return seconds


def test_runtime_and_change_over_volts_of_one_load_of_constant_power() -> None:
    studies, setup = make_studies(ONE_CAMERA, PARTS + lead(pair("gauge: 20 AWG")))
    runtime = studies.runtime(setup)

    assert runtime.seconds["pack"] == pytest.approx(0.85 * integrate_runtime(40, LOOP, 0.15), rel=1e-3)
    assert runtime.left["pack"] == pytest.approx(0.15, abs=1e-9)
    assert runtime.change_volts == {PortRef("camera", "dc_in"): pytest.approx(volts_at_load(0.15, 40, LOOP), rel=1e-5)}
    assert runtime.failed is None


def test_a_runtime_ends_where_a_loaded_port_leaves_its_window() -> None:
    parts = lead(pair("gauge: 20 AWG")) + PARTS.replace("works: 11 to 17 V", "works: 14 to 17 V")
    studies, setup = make_studies(ONE_CAMERA, parts)
    runtime = studies.runtime(setup)

    assert runtime.failed == PortRef("camera", "dc_in")
    assert runtime.seconds["pack"] == pytest.approx(0.85 * integrate_runtime(40, LOOP, 0.15, lowest=14.0), rel=2e-3)
    assert runtime.left["pack"] > 0.15
    assert runtime.change_volts[PortRef("camera", "dc_in")] == pytest.approx(14.0, abs=1e-3)


@pytest.mark.parametrize(("temperature", "factor"), [("-4 degC", 0.9), ("-5 degC", 0.9), ("-6 degC", 0.9 * 0.5)])
def test_age_always_counts_and_cold_below_minus_five(temperature: str, factor: float) -> None:
    parts = PARTS + lead(pair("gauge: 20 AWG"))
    house = House(power=PowerFigures(age=0.9, cold=0.5))
    studies, setup = make_studies(f"{ONE_CAMERA}needs: {{temperature: {temperature}}}", parts, house)
    plain, first = make_studies(ONE_CAMERA, parts, House(power=PowerFigures(age=1.0)))

    assert studies.runtime(setup).seconds["pack"] == pytest.approx(factor * (plain.runtime(first).seconds["pack"] or 0))


def test_batteries_empty_together_each_by_its_own_current() -> None:
    kit = "kit: {pack: house/pack, a: house/motor, b: house/motor, other: house/pack, c: house/motor, idle: house/pack}"
    docks = "docks: [pack.out > a.dc_in, pack.out_2 > b.dc_in, other.out > c.dc_in]"
    studies, setup = make_studies(f"{kit}\n{docks}", PARTS)
    runtime = studies.runtime(setup)
    # At constant currents of 4 A and 2 A the second pack has given half of what the first has: 100 - 85 / 2 %.

    assert runtime.left == {"pack": pytest.approx(0.15), "other": pytest.approx(0.575), "idle": pytest.approx(1.0)}
    assert runtime.seconds["idle"] is None


@pytest.mark.parametrize(
    ("curve", "says"),
    [
        ("{1.0: 12 V, 0.5: 14 V, 0.0: 16 V}", "`curve`: a battery's volts fall as it empties"),
        (
            "{1.0: 16 V, 0.5: 14 V}",
            "`curve`: a discharge curve runs from 0 to 1 left, with one voltage at each fraction",
        ),
    ],
)
def test_a_curve_that_no_battery_has_is_a_fault_of_its_file(curve: str, says: str) -> None:
    parts = f"house/odd: {{kind: battery, cells: {{pack: {{volts: 12 to 16.8 V, energy: 98 Wh, curve: {curve}}}}}}}\n"
    read = read_rig_text("kit: {odd: house/odd}", parts)

    assert [(fault.code, fault.says) for fault in read.faults] == [("file:bad-value", says)]
