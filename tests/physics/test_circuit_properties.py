"""What holds of every circuit: energy, superposition, monotony; and that shortcuts change no answer."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rigmint.physics.circuit import (
    Cell,
    Circuit,
    Collapse,
    EnergyImbalance,
    Load,
    LoadKind,
    Network,
    Regulator,
    Resistor,
    Solution,
    collapse_margin,
    expand,
    solve,
)
from rigmint.physics.circuit.arrays import Floats
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.newton import State
from tests.physics.random_circuits import make_circuit

ohms = st.floats(1e-3, 1e3)
volts = st.floats(-20.0, 20.0)


@st.composite
def linear_circuits(draw: st.DrawFn) -> Circuit:
    """A connected network of resistors with sources that have resistance."""
    nodes = draw(st.integers(2, 8))
    resistors = [Resistor(draw(st.integers(0, node - 1)), node, draw(ohms)) for node in range(1, nodes)]
    pair = st.tuples(st.integers(0, nodes - 1), st.integers(0, nodes - 1))
    resistors += [Resistor(a, b, draw(ohms)) for a, b in draw(st.lists(pair, max_size=6))]
    cells = [Cell(a, b, draw(volts), draw(ohms)) for a, b in draw(st.lists(pair, min_size=1, max_size=4))]
    return Circuit(nodes, tuple(resistors), tuple(cells))


def solve_directly(circuit: Circuit) -> Floats:
    """Node potentials of a linear circuit by nodal analysis in one piece, against the first cell's minus."""
    matrix, right = np.zeros((circuit.nodes, circuit.nodes)), np.zeros(circuit.nodes)
    branches = [(resistor.a, resistor.b, resistor.ohms, 0.0) for resistor in circuit.resistors]
    branches += [(cell.plus, cell.minus, cell.ohms, cell.volts) for cell in circuit.cells]
    for a, b, resistance, electromotive in branches:
        if a == b:
            continue
        for one, other, sign in ((a, b, 1.0), (b, a, -1.0)):
            matrix[one, one] += 1.0 / resistance
            matrix[one, other] -= 1.0 / resistance
            right[one] += sign * electromotive / resistance
    reference = circuit.cells[0].minus
    matrix[reference], right[reference] = 0.0, 0.0
    matrix[reference, reference] = 1.0
    return np.asarray(np.linalg.solve(matrix, right))


@settings(deadline=None)
@given(linear_circuits())
def test_linear_circuits_agree_with_one_matrix(circuit: Circuit) -> None:
    assert solve(circuit).potentials == pytest.approx(solve_directly(circuit), rel=1e-6, abs=1e-7)


@settings(deadline=None)
@given(linear_circuits())
def test_superposition(circuit: Circuit) -> None:
    network = Network(circuit)
    alone = np.zeros(circuit.nodes)
    for index, cell in enumerate(circuit.cells):
        only = [0.0] * len(circuit.cells)
        only[index] = cell.volts
        alone += network.solve(cell_volts=only).potentials

    assert network.solve().potentials == pytest.approx(alone, rel=1e-6, abs=1e-7)


@settings(deadline=None)
@given(linear_circuits(), st.floats(0.0, 10.0))
def test_source_resistance_never_raises_a_load(circuit: Circuit, more: float) -> None:
    first = circuit.cells[0]
    loads = tuple(
        Load(node, first.minus, LoadKind.RESISTANCE, 10.0) for node in range(circuit.nodes) if node != first.minus
    )
    single = Circuit(
        circuit.nodes,
        circuit.resistors,
        (Cell(first.plus, first.minus, abs(first.volts), first.ohms),),
        loads=loads,
    )
    network = Network(single)
    before, after = network.solve().load_volts, network.solve(cell_ohms=[first.ohms + more]).load_volts

    assert (after <= before + 1e-9).all()


@pytest.mark.parametrize("seed", range(60))
def test_currents_of_every_node_add_up(seed: int) -> None:
    circuit = make_circuit(seed, most_watts=15.0)
    solution = solve_or_skip(circuit)
    inflow = np.zeros(circuit.nodes)
    ends = [(resistor.b, resistor.a) for resistor in circuit.resistors]
    ends += [(cell.plus, cell.minus) for cell in circuit.cells]
    ends += [(diode.cathode, diode.anode) for diode in circuit.diodes]
    ends += [(load.minus, load.plus) for load in circuit.loads]
    ends += [(regulator.ground, regulator.input) for regulator in circuit.regulators]
    ends += [(regulator.output, regulator.ground) for regulator in circuit.regulators]
    amps = (
        solution.resistor_amps,
        solution.cell_amps,
        solution.diode_amps,
        solution.load_amps,
        solution.input_amps,
        solution.output_amps,
    )
    for (into, out_of), flow in zip(ends, np.concatenate(amps).tolist(), strict=True):
        inflow[into] += flow
        inflow[out_of] -= flow

    assert inflow == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("seed", range(60))
def test_regulators_keep_their_efficiency(seed: int) -> None:
    circuit = make_circuit(seed)
    solution = solve_or_skip(circuit)
    given_out = np.maximum(solution.output_volts * solution.output_amps, 0.0)
    efficiency = np.array([regulator.efficiency for regulator in circuit.regulators])

    assert solution.input_volts * solution.input_amps * efficiency == pytest.approx(given_out, rel=1e-6, abs=1e-7)


@pytest.mark.parametrize("seed", range(60))
def test_start_changes_no_answer(seed: int) -> None:
    circuit = make_circuit(seed, most_watts=40.0)
    network = Network(circuit)
    last: Solution | None = None
    for change in (1.0, 0.97, 0.9, 0.8, 1.05, 0.7, 1.0):
        at = [cell.volts * change for cell in circuit.cells]
        try:
            cold = network.solve(cell_volts=at)
        except Collapse:
            last = None
            continue
        last = network.solve(cell_volts=at, start=last)

        assert last.potentials == pytest.approx(cold.potentials, rel=1e-6, abs=1e-6)
        assert last.regulator_states == cold.regulator_states


@pytest.mark.parametrize("seed", range(40))
def test_margin_is_where_solutions_end(seed: int) -> None:
    """Just under the margin every constant power is met; just over it one falls through, or a regulator does."""
    circuit = open_windows(make_circuit(seed, most_watts=40.0))
    margin = collapse_margin(circuit).s
    if margin >= 10.0:
        assert holds_powers(circuit, 9.9)
        return

    assert holds_powers(circuit, margin * 0.999)
    assert not holds_powers(circuit, margin * 1.001 + 1e-4)


def open_windows(circuit: Circuit) -> Circuit:
    """The same without windows and limits, as far as elements can say so, and constant powers only."""
    return Circuit(
        circuit.nodes,
        circuit.resistors,
        circuit.cells,
        circuit.diodes,
        tuple(
            Load(load.plus, load.minus, load.kind, load.amount, 1e-3)
            for load in circuit.loads
            if load.kind is LoadKind.POWER
        ),
        tuple(
            Regulator(each.input, each.output, each.ground, each.volts, 0.1, efficiency=each.efficiency)
            for each in circuit.regulators
        ),
    )


def holds_powers(circuit: Circuit, factor: float) -> bool:
    """Whether each load that has volts without power also gets its power at this multiple of it."""
    network = Network(circuit)
    powers = np.array([load.amount for load in circuit.loads])
    live = network.solve(load_amounts=powers * 0.0).load_volts > 1e-3
    try:
        solution = network.solve(load_amounts=powers * factor)
    except Collapse:
        return False
    met = np.abs(solution.load_volts * solution.load_amps - powers * factor) <= 1e-6 * powers * factor
    return bool(met[live].all())


def test_energy_is_checked(monkeypatch: pytest.MonkeyPatch) -> None:
    """The check must be able to fail: a law of heat in wires that is wrong by a millionth part of all is caught."""
    circuit = Circuit(2, (Resistor(1, 0, 1.0),), (Cell(1, 0, 12.0, 0.0),))
    right = expand.expand_potentials

    def wrong(frame: Frame, state: State) -> tuple[Floats, Floats]:
        potentials, wire_amps = right(frame, state)
        return potentials, wire_amps * (1.0 + 1e-6)

    monkeypatch.setattr("rigmint.physics.circuit.network.expand_potentials", wrong)
    with pytest.raises(EnergyImbalance) as caught:
        solve(circuit)

    assert caught.value.given == pytest.approx(144.0)


def solve_or_skip(circuit: Circuit) -> Solution:
    try:
        return solve(circuit)
    except Collapse:
        pytest.skip("this random network has no operating point")
