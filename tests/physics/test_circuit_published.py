"""Circuits with published or closed-form answers; the source stands beside each."""

import math

import pytest

from rigmint.physics.circuit import (
    Cell,
    Circuit,
    Diode,
    Load,
    LoadKind,
    Regulator,
    RegulatorState,
    Resistor,
    collapse_margin,
    solve,
)

POWER, CURRENT, RESISTANCE = LoadKind.POWER, LoadKind.CURRENT, LoadKind.RESISTANCE


def make_single(volts: float, ohms: float, kind: LoadKind, amount: float, low: float = 0.5) -> Circuit:
    """A source, a wire of these ohms, a load."""
    return Circuit(3, (Resistor(0, 1, ohms),), (Cell(0, 2, volts, 0.0),), loads=(Load(1, 2, kind, amount, low),))


@pytest.mark.parametrize(
    ("volts", "ohms", "watts", "load_volts", "amps"),
    # V = (E + sqrt(E² - 4 R P)) / 2, elementary algebra; the first two rows also from ngspice 39.
    [
        (14.4, 0.2, 60.0, 13.51189353522, 4.440532323881),
        (14.4, 0.2, 259.0, 7.4, 35.0),
        (12.0, 0.1, 240.0, 9.4641016151, 25.3589838486),
        (12.0, 0.5, 50.0, 9.3166247904, 5.3667504192),
        (16.8, 0.05, 100.0, 16.4969130, 6.0617402),
    ],
)
def test_constant_power_on_a_resistive_source(
    volts: float, ohms: float, watts: float, load_volts: float, amps: float
) -> None:
    solution = solve(make_single(volts, ohms, POWER, watts))
    closed = (volts + math.sqrt(volts * volts - 4.0 * ohms * watts)) / 2.0

    assert solution.load_volts[0] == pytest.approx(closed, rel=1e-9)
    assert solution.load_volts[0] == pytest.approx(load_volts, rel=1e-8)
    assert solution.load_amps[0] == pytest.approx(amps, rel=1e-8)
    assert solution.cell_amps[0] == pytest.approx(amps, rel=1e-8)


@pytest.mark.parametrize(("volts", "ohms"), [(14.4, 0.2), (12.0, 0.5), (26.0, 0.013), (5.0, 3.0)])
def test_collapse_at_the_limit_of_power_transfer(volts: float, ohms: float) -> None:
    # P = V² / 4R (Cartwright, "Non-calculus derivation of the maximum power transfer theorem").
    limit = volts * volts / (4.0 * ohms)

    assert collapse_margin(make_single(volts, ohms, POWER, 1.001 * limit)).collapses
    assert not collapse_margin(make_single(volts, ohms, POWER, 0.999 * limit)).collapses


@pytest.mark.parametrize("part", [0.11, 0.5, 0.9, 0.9999, 1.0001, 3.0, 1e6])
def test_margin_of_a_single_load(part: float) -> None:
    margin = collapse_margin(make_single(14.4, 0.2, POWER, 259.2 * part))

    assert margin.s == pytest.approx(1.0 / part, abs=1e-4)
    assert (margin.load, margin.regulator) == (0, None)


def test_margin_is_reported_up_to_ten() -> None:
    margin = collapse_margin(make_single(14.4, 0.2, POWER, 259.2 / 10.1))

    assert (margin.s, margin.load, margin.collapses) == (10.0, None, False)


def test_overload_falls_to_its_window() -> None:
    # ngspice 39: V(load) > 6 ? 300/V(load) : V(load)*300/36 gives 5.4 V, 45 A (14.4 × 0.12 / 0.32).
    solution = solve(make_single(14.4, 0.2, POWER, 300.0, 6.0))

    assert solution.load_volts[0] == pytest.approx(5.4, rel=1e-9)
    assert solution.load_amps[0] == pytest.approx(45.0, rel=1e-9)


@pytest.mark.parametrize(
    ("volts", "ohms", "load_ohms", "amps", "load_volts"),
    [
        # OpenStax University Physics 2, section 10.1 (printed 1.188 A, 20.0 A, 12.0 A).
        (12.0, 0.1, 10.0, 1.1881188, 11.881188),
        (12.0, 0.1, 0.5, 20.0, 10.0),
        (12.0, 0.5, 0.5, 12.0, 6.0),
        # A school text on internal resistance: 0.952 A, 9.52 V.
        (10.0, 0.5, 10.0, 0.95238095, 9.5238095),
        # Matched loads: 2.75 A (an Ohio University slide), 11.25 A (a schoolbook).
        (5.5, 1.0, 1.0, 2.75, 2.75),
        (4.5, 0.2, 0.2, 11.25, 2.25),
    ],
)
def test_internal_resistance(volts: float, ohms: float, load_ohms: float, amps: float, load_volts: float) -> None:
    circuit = Circuit(2, cells=(Cell(1, 0, volts, ohms),), loads=(Load(1, 0, RESISTANCE, load_ohms),))
    solution = solve(circuit)

    assert solution.cell_amps[0] == pytest.approx(amps, rel=1e-7)
    assert solution.load_volts[0] == pytest.approx(load_volts, rel=1e-7)


@pytest.mark.parametrize(
    ("first", "second", "load_ohms", "bus", "amps"),
    [
        # Kuphaldt, Lessons in Electric Circuits, Millman's theorem: 8 V, 5 A out of the first, 1 A into the second.
        ((28.0, 4.0), (7.0, 1.0), 2.0, 8.0, (5.0, -1.0)),
        # A schoolbook problem; exact by lcapy, ngspice and gnucap: 110/31 V, 38/31 A, -16/31 A.
        ((6.0, 2.0), (2.0, 3.0), 5.0, 110 / 31, (38 / 31, -16 / 31)),
        # A schoolbook problem, by Millman: 25/17 V, 1/34 A, 9/34 A.
        ((1.5, 1.0), (2.0, 2.0), 5.0, 25 / 17, (1 / 34, 9 / 34)),
        # A schoolbook problem: 4 V and 0.1333 ohm together, 0.967742 A in the load.
        ((3.0, 0.2), (6.0, 0.4), 4.0, 3.8709677, (-4.3548387, 5.3225806)),
    ],
)
def test_two_batteries_and_a_resistor(
    first: tuple[float, float],
    second: tuple[float, float],
    load_ohms: float,
    bus: float,
    amps: tuple[float, float],
) -> None:
    solution = solve(Circuit(2, (Resistor(1, 0, load_ohms),), (Cell(1, 0, *first), Cell(1, 0, *second))))

    assert solution.potentials[1] == pytest.approx(bus, rel=1e-7)
    assert solution.cell_amps == pytest.approx(amps, rel=1e-7)


def test_circulating_current_of_two_unequal_batteries() -> None:
    # I = (E1 - E2) / (r1 + r2).
    solution = solve(Circuit(2, cells=(Cell(1, 0, 16.8, 0.05), Cell(1, 0, 14.0, 0.05))))

    assert solution.cell_amps == pytest.approx((28.0, -28.0), rel=1e-9)
    assert solution.potentials[1] == pytest.approx(15.4, rel=1e-9)


def test_battery_charged_while_the_load_draws() -> None:
    # E = 15.8 V, r = 0.04 ohm together; then the closed form for 100 W.
    circuit = Circuit(2, cells=(Cell(1, 0, 16.4, 0.08), Cell(1, 0, 15.2, 0.08)), loads=(Load(1, 0, POWER, 100.0),))
    solution = solve(circuit)

    assert solution.load_volts[0] == pytest.approx(15.5426435, rel=1e-8)
    assert solution.cell_amps == pytest.approx((10.7169560, -4.2830440), rel=1e-7)


def test_ideal_diodes_choose_the_higher_source() -> None:
    circuit = Circuit(
        4,
        (Resistor(3, 0, 10.0),),
        (Cell(1, 0, 14.8, 0.0), Cell(2, 0, 14.0, 0.0)),
        (Diode(1, 3, 0.0), Diode(2, 3, 0.0)),
    )
    solution = solve(circuit)

    assert solution.potentials[3] == pytest.approx(14.8, abs=1e-6)
    assert solution.diode_amps == pytest.approx((1.48, 0.0), abs=1e-6)
    assert solution.diode_conducts == (True, False)


def test_two_packs_through_diodes_on_a_chain_with_returns() -> None:
    # ngspice 39 with a near-ideal diode, in brackets an independent fixed point: 15.798592 (15.799353) V on the bus,
    # 14.995961 (14.996766) V and 14.861384 (14.862196) V at the loads, 4.013155 (4.012938) A.
    circuit = Circuit(
        8,
        (Resistor(3, 4, 0.1), Resistor(5, 0, 0.1), Resistor(4, 6, 0.05), Resistor(7, 5, 0.05)),
        (Cell(1, 0, 16.0, 0.05), Cell(2, 0, 14.8, 0.05)),
        (Diode(1, 3, 0.0), Diode(2, 3, 0.0)),
        (Load(4, 5, POWER, 40.0), Load(6, 7, POWER, 20.0)),
    )
    solution = solve(circuit)

    assert solution.potentials[3] == pytest.approx(15.799353, abs=2e-6)
    assert solution.load_volts == pytest.approx((14.996766, 14.862196), abs=2e-6)
    assert solution.cell_amps == pytest.approx((4.012938, 0.0), abs=2e-6)


def test_diode_drop() -> None:
    circuit = Circuit(3, (Resistor(2, 0, 9.9),), (Cell(1, 0, 10.0, 0.1),), (Diode(1, 2, 0.4),))

    assert solve(circuit).diode_amps[0] == pytest.approx(0.96, rel=1e-6)


@pytest.mark.parametrize(
    ("kind", "amount", "low", "load_volts"),
    [
        (CURRENT, 4.0, 6.0, 13.6),
        # Below its window a current is the resistance that draws the same there: 50 A at 10 V are 0.2 ohm.
        (CURRENT, 50.0, 10.0, 7.2),
        (RESISTANCE, 0.6, 6.0, 10.8),
        (POWER, 0.0, 6.0, 14.4),
        (CURRENT, 0.0, 6.0, 14.4),
        (RESISTANCE, math.inf, 6.0, 14.4),
    ],
)
def test_kinds_of_load(kind: LoadKind, amount: float, low: float, load_volts: float) -> None:
    assert solve(make_single(14.4, 0.2, kind, amount, low)).load_volts[0] == pytest.approx(load_volts, rel=1e-9)


def make_regulated(
    volts: float, ohms: float, regulator: tuple[float, float, float | None], watts: float, low: float = 4.5
) -> Circuit:
    """A source, a wire, a regulator (out, takes from, max) of 80 % and a load on its output."""
    out, takes, most = regulator
    return Circuit(
        4,
        (Resistor(0, 1, ohms),),
        (Cell(0, 2, volts, 0.0),),
        loads=(Load(3, 2, POWER, watts, low),),
        regulators=(Regulator(1, 3, 2, out, takes, max_amps=most, efficiency=0.8),),
    )


def test_regulator_draws_constant_power() -> None:
    # 16 W out are 20 W in; at its input the closed form of a constant power.
    solution = solve(make_regulated(14.4, 0.5, (5.0, 5.5, None), 16.0))
    closed = (14.4 + math.sqrt(14.4**2 - 4.0 * 0.5 * 20.0)) / 2.0

    assert solution.input_volts[0] == pytest.approx(closed, rel=1e-6)
    assert solution.input_amps[0] == pytest.approx(20.0 / closed, rel=1e-6)
    assert solution.output_amps[0] == pytest.approx(3.2, rel=1e-6)
    assert solution.regulator_states == (RegulatorState.ON,)


def test_regulator_at_its_limit() -> None:
    # 1 A into a load of 10 W that is 4.5² / 10 = 2.025 ohm under its window; 2.025 W out, 2.53125 W in.
    solution = solve(make_regulated(14.4, 0.5, (5.0, 5.5, 1.0), 10.0))
    closed = (14.4 + math.sqrt(14.4**2 - 4.0 * 0.5 * 2.53125)) / 2.0

    assert solution.regulator_states == (RegulatorState.LIMITED,)
    assert solution.load_volts[0] == pytest.approx(2.025, rel=1e-6)
    assert solution.input_volts[0] == pytest.approx(closed, rel=1e-6)


def test_of_limited_and_regulating_the_higher_is_meant() -> None:
    # 4.9 W: 0.98 A at 5 V, or 1 A at 4.9²... as a resistance at 4.13 V. The higher is 5 V.
    solution = solve(make_regulated(14.4, 0.5, (5.0, 5.5, 1.0), 4.9))

    assert solution.load_volts[0] == pytest.approx(5.0, rel=1e-6)
    assert solution.regulator_states == (RegulatorState.ON,)


def test_regulator_takes_nothing_back() -> None:
    circuit = Circuit(
        3,
        (Resistor(2, 0, 10.0),),
        (Cell(1, 0, 14.4, 0.1), Cell(2, 0, 9.0, 0.1)),
        regulators=(Regulator(1, 2, 0, 5.0, 5.5),),
    )
    solution = solve(circuit)

    assert solution.regulator_states == (RegulatorState.ON,)
    assert (solution.input_amps[0], solution.output_amps[0]) == (0.0, 0.0)
    assert solution.output_volts[0] == pytest.approx(9.0 * 10.0 / 10.1, rel=1e-9)


def test_regulators_in_a_chain() -> None:
    # 24 V from a lifting one, 5 V from that, 10 W: 10 / 0.9 / 0.9 W at the source.
    circuit = Circuit(
        4,
        cells=(Cell(1, 0, 12.0, 0.1),),
        loads=(Load(3, 0, POWER, 10.0, 4.5),),
        regulators=(Regulator(1, 2, 0, 24.0, 1.0), Regulator(2, 3, 0, 5.0, 5.5)),
    )
    solution = solve(circuit)

    assert solution.input_amps[0] * solution.input_volts[0] == pytest.approx(10.0 / 0.81, rel=1e-6)
    assert solution.input_volts[1] == pytest.approx(24.0, rel=1e-6)
