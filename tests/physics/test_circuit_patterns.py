"""Which regulators are on."""

import itertools

import numpy as np
import pytest

from rigmint.physics.circuit import (
    Cell,
    Circuit,
    Collapse,
    Diode,
    Load,
    LoadKind,
    Network,
    Regulator,
    RegulatorState,
    Resistor,
    solve,
)
from tests.physics.random_circuits import make_circuit

POWER = LoadKind.POWER
ON, OFF = RegulatorState.ON, RegulatorState.OFF


def make_shared(windows: list[tuple[float, float]], watts: list[float], *, ohms: float = 1.0) -> Circuit:
    """Regulators of 5 V and 100 % with these input windows, side by side on a 14 V source of these ohms."""
    count = len(windows)
    return Circuit(
        2 + count,
        cells=(Cell(1, 0, 14.0, ohms),),
        loads=tuple(Load(2 + index, 0, POWER, each, 4.0) for index, each in enumerate(watts)),
        regulators=tuple(
            Regulator(1, 2 + index, 0, 5.0, low, high, efficiency=1.0) for index, (low, high) in enumerate(windows)
        ),
    )


def test_both_on() -> None:
    assert solve(make_shared([(10.0, 20.0), (11.0, 20.0)], [10.0, 10.0])).regulator_states == (ON, ON)


def test_one_that_sags_out_and_stays_out() -> None:
    # Both on: 11.4 V. The second off: 12.6 V. The first off: 12.9 V.
    assert solve(make_shared([(10.0, 20.0), (13.2, 20.0)], [18.0, 14.0])).regulator_states == (ON, OFF)


def test_of_two_that_sag_only_the_needier_goes() -> None:
    # Both on: 11.4 V, under both windows. Both off: 14 V, inside both. Only the second off: 12.6 V.
    assert solve(make_shared([(12.0, 20.0), (13.0, 20.0)], [18.0, 14.0])).regulator_states == (ON, OFF)


def test_one_that_can_be_neither_is_named() -> None:
    # Alone it sags from 14 V to 12.6 V; a second one that is content stays out of it.
    with pytest.raises(Collapse) as caught:
        solve(make_shared([(13.5, 20.0), (6.0, 20.0)], [18.0, 0.5]))

    assert caught.value.regulators == (0,)


def test_many_alike_that_cannot_run() -> None:
    with pytest.raises(Collapse) as caught:
        solve(make_shared([(13.0, 20.0)] * 30, [16.0] * 30))

    assert caught.value.regulators == tuple(range(30))


def test_too_many_volts() -> None:
    assert solve(make_shared([(6.0, 12.0)], [5.0])).regulator_states == (OFF,)


def test_load_brings_too_many_volts_down_into_the_window() -> None:
    # Off: 14 V, over 13.2 V; on: 12.6 V. Both are consistent; the one with more on is meant.
    assert solve(make_shared([(6.0, 13.2)], [18.0])).regulator_states == (ON,)


def test_chain_without_supply_is_off() -> None:
    circuit = Circuit(
        4,
        cells=(Cell(1, 0, 4.0, 0.1),),
        loads=(Load(3, 0, POWER, 1.0),),
        regulators=(Regulator(1, 2, 0, 5.0, 5.5), Regulator(2, 3, 0, 3.3, 3.8)),
    )
    assert solve(circuit).regulator_states == (OFF, OFF)


def test_one_that_cannot_start_takes_down_what_it_feeds() -> None:
    circuit = Circuit(
        4,
        (Resistor(1, 2, 0.5),),
        (Cell(1, 0, 5.4, 0.1),),
        loads=(Load(3, 0, POWER, 1.0),),
        regulators=(Regulator(2, 3, 0, 5.0, 5.5), Regulator(3, 3, 0, 3.3, 3.8)),
    )
    assert solve(circuit).regulator_states == (OFF, OFF)


def test_upper_feed_through_a_diode() -> None:
    # The first regulator is out of its window, the second lives from another source behind a diode.
    circuit = Circuit(
        5,
        cells=(Cell(1, 0, 30.0, 0.1), Cell(4, 0, 9.0, 0.1)),
        diodes=(Diode(4, 2, 0.4),),
        loads=(Load(3, 0, POWER, 2.0),),
        regulators=(Regulator(1, 2, 0, 7.0, 7.5, 17.0), Regulator(2, 3, 0, 5.0, 5.5)),
    )
    assert solve(circuit).regulator_states == (OFF, ON)


def find_best_by_trying_all(network: Network) -> int | None:
    """The most regulators that can be on, by solving every pattern; None if no pattern is consistent."""
    count = len(network.circuit.regulators)
    best = None
    for pattern in itertools.product((True, False), repeat=count):
        on = np.array(pattern, dtype=np.bool_)
        volts = network.solve_pattern(on).input_volts
        takes = [
            regulator.takes_low <= at <= regulator.takes_high
            for regulator, at in zip(network.circuit.regulators, volts, strict=True)
        ]
        if takes == list(pattern):
            best = max(sum(pattern), -1 if best is None else best)
    return best


@pytest.mark.parametrize("seed", [seed for seed in range(60) if 1 <= len(make_circuit(seed).regulators) <= 5])
def test_no_consistent_pattern_has_more_on(seed: int) -> None:
    network = Network(make_circuit(seed, most_watts=90.0))
    best = find_best_by_trying_all(network)
    try:
        states: tuple[RegulatorState, ...] | None = network.solve().regulator_states
    except Collapse:
        states = None

    assert (None if states is None else sum(state is not OFF for state in states)) == best
