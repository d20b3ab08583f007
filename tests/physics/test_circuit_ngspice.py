"""Random networks against ngspice: sources, diodes, regulators, loads of every kind, within 0.1 % or 1 mV or 1 mA."""

import os
from collections.abc import Sequence

import numpy as np
import pytest

from rigmint.physics.circuit import (
    Cell,
    Circuit,
    Collapse,
    Load,
    LoadKind,
    RegulatorState,
    Solution,
    collapse_margin,
    solve,
)
from tests.physics.ngspice import DIODE_SIEMENS, PROGRAM, Answer, simulate
from tests.physics.random_circuits import make_circuit

needs_ngspice = pytest.mark.skipif(
    PROGRAM is None and "RIGMINT_NEED_NGSPICE" not in os.environ, reason="ngspice is not installed"
)

SEEDS = range(200)


def find_differences(solution: Solution, answer: Answer) -> list[str]:
    """What is further apart than 0.1 % or 1 mV or 1 mA, whichever is larger; volts against node 0."""
    volts = np.array(answer.node_volts)
    pairs: dict[str, tuple[Sequence[float], Sequence[float]]] = {
        "volts of node": (
            (solution.potentials - solution.potentials[0]).tolist(),
            (volts - volts[0]).tolist(),
        ),
        "amps of cell": (solution.cell_amps.tolist(), answer.cell_amps),
        "amps of diode": (solution.diode_amps.tolist(), answer.diode_amps),
        "amps of load": (solution.load_amps.tolist(), answer.load_amps),
        "amps into regulator": (solution.input_amps.tolist(), answer.input_amps),
        "amps out of regulator": (solution.output_amps.tolist(), answer.output_amps),
        "amps of resistor": (solution.resistor_amps.tolist(), answer.resistor_amps),
    }
    return [
        f"{what} {index}: {ours} here, {theirs} there"
        for what, (all_ours, all_theirs) in pairs.items()
        for index, (ours, theirs) in enumerate(zip(all_ours, all_theirs, strict=True))
        if not abs(ours - theirs) <= max(1e-3, 1e-3 * abs(theirs))
    ]


def find_answer(circuit: Circuit, solution: Solution) -> tuple[Answer, bool]:
    """The simulator's answer from its own first guess; where that fails or ends elsewhere, from our volts. And which.

    Elsewhere must be lower, see is_lower; anything else counts against us.
    """
    on = [state is not RegulatorState.OFF for state in solution.regulator_states]
    for siemens in (DIODE_SIEMENS, 0.1 * DIODE_SIEMENS):
        answer = simulate(circuit, on, siemens=siemens)
        if answer is not None:
            if not find_differences(solution, answer):
                return answer, False
            if not is_lower(circuit, answer, solution):
                return answer, False
    limited = [state is RegulatorState.LIMITED for state in solution.regulator_states]
    answers = [
        simulate(circuit, on, guess=solution.potentials.tolist(), siemens=siemens, limited=limited)
        for siemens in (DIODE_SIEMENS, 0.1 * DIODE_SIEMENS, 0.01 * DIODE_SIEMENS)
    ]
    found = [answer for answer in answers if answer is not None]
    assert found, "the simulator has no answer"
    return min(found, key=lambda answer: len(find_differences(solution, answer))), True


def is_lower(circuit: Circuit, answer: Answer, solution: Solution) -> bool:
    """Whether an answer has more loads under their window than ours, or starves a regulator that is to be on."""
    theirs = [answer.node_volts[load.plus] - answer.node_volts[load.minus] for load in circuit.loads]
    starved = any(
        answer.node_volts[regulator.input] - answer.node_volts[regulator.ground] < regulator.takes_low - 1e-3
        for regulator, state in zip(circuit.regulators, solution.regulator_states, strict=True)
        if state is not RegulatorState.OFF
    )
    return starved or count_under(circuit, theirs) > count_under(circuit, solution.load_volts.tolist())


def count_under(circuit: Circuit, volts: Sequence[float]) -> int:
    """How many loads stand under their window."""
    return sum(at < load.window_low for load, at in zip(circuit.loads, volts, strict=True))


def check_pattern(circuit: Circuit, solution: Solution, answer: Answer) -> None:
    """Assert that the simulator's answer has each regulator inside its window where it is on, outside where off, and
    neither over its volts nor over its limit."""
    for regulator, state, amps in zip(circuit.regulators, solution.regulator_states, answer.output_amps, strict=True):
        over = answer.node_volts[regulator.output] - answer.node_volts[regulator.ground] - regulator.volts
        assert state is RegulatorState.OFF or over < 1e-3 * regulator.volts or amps < 1e-3
        assert regulator.max_amps is None or amps < 1.001 * regulator.max_amps + 1e-3
        at = answer.node_volts[regulator.input] - answer.node_volts[regulator.ground]
        if state is RegulatorState.OFF:
            assert not regulator.takes_low + 1e-3 < at < regulator.takes_high - 1e-3
        else:
            assert regulator.takes_low - 1e-3 < at < regulator.takes_high + 1e-3


@needs_ngspice
def test_two_hundred_random_networks() -> None:
    differences: dict[int, list[str]] = {}
    collapsed, helped, seen = 0, 0, {"off": 0, "on": 0, "limited": 0, "open": 0, "conducting": 0, "under": 0}
    for seed in SEEDS:
        circuit = make_circuit(seed)
        try:
            solution = solve(circuit)
        except Collapse:
            collapsed += 1
            continue
        answer, by_ours = find_answer(circuit, solution)
        helped += by_ours
        check_pattern(circuit, solution, answer)
        found = find_differences(solution, answer)
        if found:
            differences[seed] = found
        for state in solution.regulator_states:
            seen[state.value] += 1
        for conducts in solution.diode_conducts:
            seen["conducting" if conducts else "open"] += 1
        seen["under"] += count_under(circuit, solution.load_volts.tolist())

    assert differences == {}
    # The networks must go on showing everything that is to be compared, and the simulator must find most by itself.
    assert collapsed <= 5
    assert helped <= 6
    assert min(seen.values()) >= 10, seen


@needs_ngspice
@pytest.mark.parametrize(("part", "found"), [(0.999, True), (1.001, False)])
def test_the_simulator_sees_the_same_limit(part: float, found: bool) -> None:
    watts = part * 14.4**2 / (4.0 * 0.2)
    circuit = Circuit(2, cells=(Cell(1, 0, 14.4, 0.2),), loads=(Load(1, 0, LoadKind.POWER, watts, 1e-3),))
    answer = simulate(circuit, [])
    at_power = answer is not None and answer.node_volts[1] > 1.0

    assert at_power is found
    assert collapse_margin(circuit).collapses is not found
