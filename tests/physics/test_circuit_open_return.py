"""What hangs on an open return or on nothing at all: no volts, no collapse, no failed iteration."""

from rigmint.physics.circuit import Cell, Circuit, Diode, Load, LoadKind, Network, Resistor, collapse_margin, solve


def test_a_load_without_a_return_does_not_collapse() -> None:
    """Its plus stands at 14.4 V and its minus at nothing: no power can flow, so none can be too much."""
    circuit = Circuit(
        5,
        resistors=(Resistor(1, 3, 0.1), Resistor(0, 2, 0.1)),
        cells=(Cell(1, 0, 14.4, 0.05),),
        loads=(Load(3, 4, LoadKind.POWER, 1e6, 10.0), Load(3, 2, LoadKind.POWER, 20.0, 10.0)),
    )

    assert collapse_margin(circuit).s > 1.0
    assert solve(circuit).load_amps[0] == 0.0


def test_nothing_holds_two_islands_apart() -> None:
    """An input behind a diode that does not conduct: the other side's return carries current, so its potential is not
    that of the open input, but between the two there are no volts."""
    circuit = Circuit(
        5,
        resistors=(Resistor(0, 2, 0.5), Resistor(1, 3, 0.5)),
        cells=(Cell(1, 0, 14.4, 0.05),),
        diodes=(Diode(4, 3, 0.3),),
        loads=(Load(3, 2, LoadKind.POWER, 20.0, 10.0),),
    )
    solution = solve(circuit)

    assert abs(solution.potentials[2]) > 0.5
    assert solution.measure_volts(4, 2) == 0.0
    assert solution.measure_volts(3, 2) > 10.0


def test_a_dead_load_of_constant_current_behind_diodes_leaves_the_rest_its_margin() -> None:
    """Two diodes meet on a rail that nothing draws from: one from the live side, one from a load that nothing feeds."""
    circuit = Circuit(
        6,
        resistors=(Resistor(1, 2, 0.1), Resistor(5, 0, 0.1)),
        cells=(Cell(1, 0, 14.4, 0.05),),
        diodes=(Diode(2, 3, 0.3), Diode(4, 3, 0.4)),
        loads=(Load(2, 0, LoadKind.POWER, 20.0, 10.0), Load(4, 5, LoadKind.CURRENT, 0.25, 4.75)),
    )

    assert collapse_margin(circuit).s > 1.0


def test_a_load_that_rises_beyond_all_sense_between_two_points_is_solved_from_nothing() -> None:
    """A warm start that does not balance is dropped, not reported."""
    circuit = Circuit(
        3,
        resistors=(Resistor(1, 2, 0.05),),
        cells=(Cell(1, 0, 14.4, 0.08),),
        loads=(Load(2, 0, LoadKind.POWER, 36.0, 11.0),),
    )
    network = Network(circuit)
    warm = network.solve(load_amounts=[1e9], start=network.solve())
    cold = network.solve(load_amounts=[1e9])

    assert abs(warm.load_volts[0] - cold.load_volts[0]) < 1e-9
