"""Following an operating point as cells go down: what it gives is what solving from nothing gives, or nothing."""

import numpy as np
import pytest

from rigmint.physics.circuit import BadCircuit, Collapse, Network, SolveFailed
from tests.physics.random_circuits import make_circuit

STEPS = 40


@pytest.fixture(scope="module")
def courses() -> list[tuple[int, int, list[float]]]:
    """Of each random circuit: steps followed, steps that were left to `solve`, and the largest differences."""
    found = []
    for seed in range(150):
        course = follow(seed)
        if course is not None:
            found.append(course)
    return found


def follow(seed: int) -> tuple[int, int, list[float]] | None:
    circuit = make_circuit(seed)
    network = Network(circuit)
    volts = np.array([cell.volts for cell in circuit.cells])
    pairs = [(load.plus, load.minus) for load in circuit.loads] + [(0, circuit.nodes - 1)]
    try:
        follower = network.follow(network.solve(), pairs)
    except (Collapse, SolveFailed, BadCircuit):
        return None
    if follower is None:
        return None
    followed, left, differences = 0, 0, []
    for step in range(1, STEPS + 1):
        down = volts * (1.0 - 0.006 * step * np.linspace(0.5, 1.0, len(volts)))
        answer = follower.advance(down)
        if answer is None:
            left += 1
            continue
        followed += 1
        alone = Network(circuit).solve(cell_volts=down)
        differences.append(float(np.abs(answer.cell_amps - alone.cell_amps).max()) / max(1.0, alone.cell_amps.max()))
        measured = [alone.measure_volts(plus, minus) for plus, minus in pairs]
        differences.append(float(np.abs(answer.volts - measured).max()) / max(volts))
    return followed, left, differences


def test_what_is_followed_is_what_is_solved(courses: list[tuple[int, int, list[float]]]) -> None:
    assert max(difference for _, _, differences in courses for difference in differences) < 1e-6


def test_most_is_followed_and_some_is_left(courses: list[tuple[int, int, list[float]]]) -> None:
    """So that the comparison is of something, and what changes on the way is among the circuits."""
    followed, left = sum(course[0] for course in courses), sum(course[1] for course in courses)

    assert len(courses) > 30
    assert followed > 3 * left > 0


def test_a_solution_in_which_something_sags_is_not_followed() -> None:
    sagging = 0
    for seed in range(150):
        network = Network(make_circuit(seed, most_watts=60.0))
        try:
            start = network.solve()
        except (Collapse, SolveFailed):
            continue
        if not start.is_unhindered:
            sagging += 1
            assert network.follow(start, []) is None

    assert sagging > 5
