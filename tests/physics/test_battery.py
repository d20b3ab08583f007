"""Discharge curves and runtimes."""

import math

import pytest

from rigmint.physics.battery import Battery, Draw, Stop, discharge, stretch_curve

HOUR = 3600.0


@pytest.mark.parametrize(
    ("fraction", "volts"),
    # Common practice for a lithium-ion cell, four in series: 12.0 to 16.8 V.
    [
        (1.0, 16.8),
        (0.9, 16.2),
        (0.7, 15.48),
        (0.5, 14.92),
        (0.3, 14.48),
        (0.15, 14.0),
        (0.05, 13.2),
        (0.0, 12.0),
        (0.6, 15.2),
    ],
)
def test_curve_of_four_cells(fraction: float, volts: float) -> None:
    curve = stretch_curve(12.0, 16.8)

    assert curve.find_volts(fraction) == pytest.approx(volts, abs=1e-9)
    assert curve.find_fraction(volts) == pytest.approx(fraction, abs=1e-9)


def test_curve_beyond_its_ends() -> None:
    curve = stretch_curve(12.0, 16.8)

    assert (curve.find_volts(1.5), curve.find_volts(-1.0)) == (16.8, 12.0)
    assert (curve.find_fraction(20.0), curve.find_fraction(0.0)) == (1.0, 0.0)


def test_mean_by_fine_summation() -> None:
    curve = stretch_curve(12.0, 16.8)
    summed = sum(curve.find_volts((step + 0.5) / 20000) for step in range(20000)) / 20000

    assert curve.compute_mean() == pytest.approx(summed, rel=1e-7)
    assert curve.compute_charge(98.0 * HOUR) == pytest.approx(98.0 * HOUR / summed, rel=1e-7)


def test_own_curve_is_stretched_by_its_shape() -> None:
    curve = stretch_curve(10.0, 20.0, [(1.0, 3.6), (0.5, 3.3), (0.0, 3.0)])

    assert curve.find_volts(0.25) == pytest.approx(12.5)


@pytest.mark.parametrize(
    "points",
    [[], [(0.0, 3.0)], [(0.0, 3.0), (0.9, 4.0)], [(0.0, 4.0), (1.0, 3.0)], [(0.0, 3.0), (0.0, 3.1), (1.0, 4.0)],
     [(0.0, 3.0), (1.0, 3.0)], [(0.0, math.nan), (1.0, 4.0)]],
)  # fmt: skip
def test_impossible_curves_are_refused(points: list[tuple[float, float]]) -> None:
    with pytest.raises(ValueError, match=r"curve|volts"):
        stretch_curve(12.0, 16.8, points)


@pytest.mark.parametrize("energy", [0.0, -1.0, math.inf, math.nan])
def test_impossible_energy_is_refused(energy: float) -> None:
    with pytest.raises(ValueError, match="charge"):
        stretch_curve(12.0, 16.8).compute_charge(energy)


def test_constant_current() -> None:
    # IEC 61960-3: 6.8 Ah at 0.2 It = 1.36 A last 5 h.
    curve = stretch_curve(12.0, 16.8)
    run = discharge([Battery(curve, 6.8 * HOUR)], lambda _: Draw((1.36,)), 0.0)

    assert run.seconds[0] == pytest.approx(5.0 * HOUR, rel=1e-12)
    assert (run.stop, run.steps) == (Stop.CHANGE, 64)


def test_constant_power_without_resistance() -> None:
    # Energy over power, less what is left below the change: 97.92 Wh at 45 W are 2.1760 h.
    curve = stretch_curve(12.0, 16.8)
    charge = curve.compute_charge(97.92 * HOUR)
    run = discharge([Battery(curve, charge)], lambda volts: Draw((45.0 / volts[0],)), 0.0)

    assert run.seconds[0] == pytest.approx(2.1760 * HOUR, rel=1e-4)


def test_stops_exactly_at_the_change() -> None:
    curve = stretch_curve(12.0, 16.8)
    run = discharge([Battery(curve, 6.8 * HOUR)], lambda _: Draw((2.0,)), 0.15)

    assert run.seconds[0] == pytest.approx(0.85 * 6.8 * HOUR / 2.0, rel=1e-12)
    assert run.left[0] == pytest.approx(0.15, abs=1e-12)
    assert run.volts[0] == pytest.approx(14.0, abs=1e-9)


def test_stops_where_something_fails() -> None:
    curve = stretch_curve(12.0, 16.8)
    run = discharge([Battery(curve, 3600.0)], lambda volts: Draw((1.0,), works=volts[0] >= 15.0), 0.15)

    assert run.stop is Stop.FAILED
    assert run.volts[0] == pytest.approx(15.0, abs=1e-4)
    assert run.volts[0] >= 15.0
    assert run.seconds[0] == pytest.approx((1.0 - curve.find_fraction(15.0)) * 3600.0, rel=1e-5)


def test_two_of_unlike_charge_stop_with_the_first_that_is_at_its_change() -> None:
    curve = stretch_curve(12.0, 16.8)
    batteries = [Battery(curve, 7200.0), Battery(curve, 3600.0, left=0.5)]
    run = discharge(batteries, lambda _: Draw((1.5, 0.5)), 0.15)

    assert run.seconds[0] == pytest.approx(0.35 * 3600.0 / 0.5, rel=1e-9)
    assert run.left == pytest.approx((1.0 - 2520.0 * 1.5 / 7200.0, 0.15), abs=1e-9)


def test_one_that_gives_nothing_has_no_runtime() -> None:
    curve = stretch_curve(12.0, 16.8)
    run = discharge([Battery(curve, 3600.0), Battery(curve, 3600.0)], lambda _: Draw((1.0, 0.0)), 0.15)

    assert run.seconds[1] is None
    assert run.left[1] == 1.0


def test_one_that_is_charged_is_never_fuller_than_full() -> None:
    curve = stretch_curve(12.0, 16.8)
    run = discharge([Battery(curve, 3600.0), Battery(curve, 3600.0, left=0.9)], lambda _: Draw((1.0, -0.5)), 0.15)

    assert run.left[1] == 1.0
    assert run.seconds[1] is None


def test_no_current_ends_at_once() -> None:
    curve = stretch_curve(12.0, 16.8)
    run = discharge([Battery(curve, 3600.0)], lambda _: Draw((0.0,)), 0.15)

    assert (run.seconds, run.stop, run.steps) == ((None,), Stop.NO_CURRENT, 0)
    assert discharge([], lambda _: Draw(()), 0.15).stop is Stop.NO_CURRENT


def test_failing_from_the_start_takes_no_time() -> None:
    curve = stretch_curve(12.0, 16.8)
    run = discharge([Battery(curve, 3600.0)], lambda _: Draw((1.0,), works=False), 0.15)

    assert (run.seconds, run.stop) == ((0.0,), Stop.FAILED)


@pytest.mark.parametrize("change_at", [-0.1, 1.1, math.nan])
def test_impossible_change_is_refused(change_at: float) -> None:
    with pytest.raises(ValueError, match="fraction"):
        discharge([], lambda _: Draw(()), change_at)


def test_impossible_charge_is_refused() -> None:
    with pytest.raises(ValueError, match="charge"):
        discharge([Battery(stretch_curve(12.0, 16.8), 0.0)], lambda _: Draw((1.0,)), 0.15)
