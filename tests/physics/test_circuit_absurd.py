"""Circuits that nobody would build: a clean answer or a clean refusal, never NaN, never an error from the algebra."""

import math
import warnings
from collections.abc import Iterator

import pytest

from rigmint.physics.circuit import (
    BadCircuit,
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
    collapse_margin,
    solve,
)

POWER, CURRENT, RESISTANCE = LoadKind.POWER, LoadKind.CURRENT, LoadKind.RESISTANCE


@pytest.fixture(autouse=True)
def warnings_are_errors() -> Iterator[None]:
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        yield


def test_nothing_at_all() -> None:
    assert solve(Circuit(0)).potentials.size == 0
    assert solve(Circuit(3)).potentials.tolist() == [0.0, 0.0, 0.0]
    assert collapse_margin(Circuit(0)).s == 10.0


@pytest.mark.parametrize("kind", LoadKind)
def test_load_without_a_source(kind: LoadKind) -> None:
    circuit = Circuit(3, (Resistor(0, 1, 0.1),), loads=(Load(1, 2, kind, 10.0, 5.0),))
    solution = solve(circuit)

    assert solution.potentials.tolist() == [0.0, 0.0, 0.0]
    assert solution.load_amps.tolist() == [0.0]
    assert collapse_margin(circuit).s == 10.0


def test_island_beside_a_live_one() -> None:
    circuit = Circuit(
        6,
        (Resistor(1, 2, 0.1), Resistor(3, 4, 0.1)),
        (Cell(1, 0, 12.0, 0.1),),
        loads=(Load(2, 0, POWER, 10.0), Load(4, 5, POWER, 10.0)),
    )
    solution = solve(circuit)

    assert solution.potentials[3:].tolist() == [0.0, 0.0, 0.0]
    assert solution.load_volts[0] > 11.0


def test_each_island_has_its_own_reference() -> None:
    circuit = Circuit(4, cells=(Cell(1, 0, 12.0, 0.1), Cell(3, 2, 5.0, 0.1)), loads=(Load(3, 2, CURRENT, 1.0),))

    assert solve(circuit).potentials == pytest.approx((0.0, 12.0, 0.0, 4.9))


def test_islands_joined_by_one_wire_share_no_current() -> None:
    circuit = Circuit(
        4,
        (Resistor(2, 1, 0.1),),
        (Cell(1, 0, 12.0, 0.1), Cell(3, 2, 5.0, 0.1)),
        loads=(Load(3, 2, CURRENT, 1.0),),
    )
    solution = solve(circuit)

    assert solution.potentials == pytest.approx((0.0, 12.0, 12.0, 16.9))
    assert solution.resistor_amps[0] == pytest.approx(0.0, abs=1e-12)


def test_zero_ohm_wires_carry_their_current() -> None:
    circuit = Circuit(
        5,
        (
            Resistor(1, 2, 0.0),
            Resistor(2, 3, 0.0),
            Resistor(1, 3, 0.0),
            Resistor(3, 4, 0.1),
            Resistor(2, 2, 0.0),
        ),
        (Cell(1, 0, 12.0, 0.1),),
        loads=(Load(4, 0, CURRENT, 3.0), Load(2, 0, CURRENT, 1.0)),
    )
    amps = solve(circuit).resistor_amps

    assert amps[0] + amps[2] == pytest.approx(4.0)
    assert amps[0] - amps[1] == pytest.approx(1.0)
    # In a ring of equal resistances the volts around it add up to nothing.
    assert amps[0] + amps[1] - amps[2] == pytest.approx(0.0, abs=1e-9)
    assert amps[3] == pytest.approx(3.0)
    assert amps[4] == 0.0


def test_microhms_beside_megohms() -> None:
    circuit = Circuit(
        4,
        (
            Resistor(1, 2, 1e-6),
            Resistor(2, 0, 1e6),
            Resistor(2, 3, 1e-3),
            Resistor(3, 0, 1e9),
            Resistor(1, 0, math.inf),
        ),
        (Cell(1, 0, 14.4, 1e-3),),
        loads=(Load(3, 0, POWER, 60.0),),
    )
    solution = solve(circuit)
    ohms = 2e-3 + 1e-6
    closed = (14.4 + math.sqrt(14.4**2 - 4.0 * ohms * 60.0)) / 2.0

    assert solution.load_volts[0] == pytest.approx(closed, rel=1e-7)
    assert solution.resistor_amps[1] == pytest.approx(14.4e-6, rel=1e-3)
    assert solution.resistor_amps[4] == 0.0


def test_battery_across_another_without_resistance() -> None:
    with pytest.raises(Collapse) as caught:
        solve(Circuit(2, cells=(Cell(1, 0, 14.4, 0.0), Cell(1, 0, 12.0, 0.0))))

    assert caught.value.cells == (0, 1)


def test_equal_batteries_without_resistance_share() -> None:
    circuit = Circuit(2, cells=(Cell(1, 0, 12.0, 0.0), Cell(1, 0, 12.0, 0.0)), loads=(Load(1, 0, POWER, 24.0),))

    assert solve(circuit).cell_amps == pytest.approx((1.0, 1.0), rel=1e-6)


def test_battery_backwards_across_another() -> None:
    solution = solve(Circuit(2, cells=(Cell(1, 0, 12.0, 0.05), Cell(0, 1, 12.0, 0.05))))

    assert solution.cell_amps == pytest.approx((240.0, 240.0))


def test_shorted_battery() -> None:
    assert solve(Circuit(2, (Resistor(1, 0, 0.0),), (Cell(1, 0, 12.0, 0.1),))).cell_amps[0] == pytest.approx(120.0)
    with pytest.raises(Collapse) as caught:
        solve(Circuit(2, (Resistor(1, 0, 0.0),), (Cell(1, 0, 12.0, 0.0),)))

    assert caught.value.cells == (0,)


def test_ring_of_three_ideal_cells() -> None:
    consistent = Circuit(3, cells=(Cell(1, 0, 5.0, 0.0), Cell(2, 1, 7.0, 0.0), Cell(2, 0, 12.0, 0.0)))
    assert solve(consistent).potentials == pytest.approx((0.0, 5.0, 12.0))
    with pytest.raises(Collapse):
        Network(consistent).solve(cell_volts=[5.0, 7.0, 12.5])


def test_diode_across_an_ideal_battery() -> None:
    with pytest.raises(Collapse) as caught:
        solve(Circuit(2, cells=(Cell(1, 0, 12.0, 0.0),), diodes=(Diode(1, 0, 0.4),)))

    assert caught.value.diodes == (0,)


def test_paralleled_diodes() -> None:
    same = Circuit(3, (Resistor(2, 0, 1.0),), (Cell(1, 0, 10.0, 0.1),), (Diode(1, 2, 0.4), Diode(1, 2, 0.4)))
    assert solve(same).diode_amps == pytest.approx((4.8 / 1.1, 4.8 / 1.1), rel=1e-5)
    unlike = Circuit(3, (Resistor(2, 0, 1.0),), (Cell(1, 0, 10.0, 0.1),), (Diode(1, 2, 0.3), Diode(1, 2, 0.7)))
    assert solve(unlike).diode_conducts == (True, False)


def test_shorted_regulator() -> None:
    def make(most: float | None) -> Circuit:
        return Circuit(
            3,
            (Resistor(2, 0, 0.0),),
            (Cell(1, 0, 12.0, 0.1),),
            regulators=(Regulator(1, 2, 0, 5.0, 5.5, max_amps=most),),
        )

    solution = solve(make(2.0))
    assert solution.output_amps[0] == pytest.approx(2.0)
    assert solution.input_amps[0] == pytest.approx(0.0, abs=1e-9)
    with pytest.raises(Collapse) as caught:
        solve(make(None))
    assert caught.value.regulators == (0,)


def test_regulator_without_return_is_off() -> None:
    circuit = Circuit(
        4,
        cells=(Cell(1, 0, 12.0, 0.1),),
        loads=(Load(2, 3, POWER, 5.0),),
        regulators=(Regulator(1, 2, 3, 5.0, 5.5),),
    )
    solution = solve(circuit)

    assert solution.input_amps[0] == pytest.approx(0.0, abs=1e-9)
    assert solution.cell_amps[0] == pytest.approx(0.0, abs=1e-9)


def test_floating_regulator_is_off() -> None:
    circuit = Circuit(3, loads=(Load(1, 2, POWER, 5.0),), regulators=(Regulator(0, 1, 2, 5.0, 5.5),))
    solution = solve(circuit)

    assert solution.regulator_states == (RegulatorState.OFF,)
    assert solution.potentials.tolist() == [0.0, 0.0, 0.0]


@pytest.mark.parametrize("watts", [1e6, 1e9, 1e12, 1e-9, 1e-15])
@pytest.mark.parametrize("low", [0.5, 11.0])
def test_absurd_powers(watts: float, low: float) -> None:
    circuit = Circuit(
        3,
        (Resistor(1, 2, 0.1),),
        (Cell(1, 0, 14.4, 0.1),),
        loads=(Load(2, 0, POWER, watts, low), Load(2, 0, POWER, 5.0)),
    )
    solution = solve(circuit)
    margin = collapse_margin(circuit)

    assert math.isfinite(solution.load_volts[0])
    assert 0.0 <= solution.load_volts[0] <= 14.4
    assert margin.collapses == (watts > 1.0)


def test_volts_of_nothing_and_of_lightning() -> None:
    circuit = Circuit(2, (Resistor(1, 0, 1e3),), (Cell(1, 0, 0.0, 0.1),), loads=(Load(1, 0, POWER, 10.0),))
    network = Network(circuit)

    assert network.solve().potentials.tolist() == [0.0, 0.0]
    assert network.solve(cell_volts=[1e9]).potentials[1] == pytest.approx(1e9, rel=1e-3)
    assert network.solve(cell_volts=[-12.0]).load_volts[0] < 0.0


def test_cell_taken_out() -> None:
    network = Network(
        Circuit(2, cells=(Cell(1, 0, 12.0, 0.1), Cell(1, 0, 13.0, 0.1)), loads=(Load(1, 0, CURRENT, 1.0),))
    )

    assert network.solve(cell_ohms=[0.1, math.inf]).cell_amps == pytest.approx((1.0, 0.0))
    assert network.solve(cell_ohms=[math.inf, math.inf]).potentials.tolist() == [0.0, 0.0]


def test_everything_from_a_node_to_itself() -> None:
    circuit = Circuit(
        2,
        (Resistor(0, 0, 1.0), Resistor(1, 1, 0.0)),
        (Cell(1, 1, 12.0, 0.5), Cell(1, 0, 12.0, 0.1)),
        (Diode(1, 1, 0.4),),
        (Load(1, 1, POWER, 10.0), Load(1, 0, POWER, 10.0)),
        (Regulator(1, 1, 1, 5.0, 5.5), Regulator(1, 1, 0, 5.0, 5.5)),
    )
    solution = solve(circuit)

    assert solution.cell_amps[0] == pytest.approx(24.0)
    assert solution.load_volts[0] == 0.0


def test_dead_rail_behind_a_diode_to_a_live_one_stays_dead() -> None:
    circuit = Circuit(3, cells=(Cell(1, 0, 12.0, 0.1),), diodes=(Diode(2, 1, 0.4),), loads=(Load(1, 0, POWER, 5.0),))

    assert solve(circuit).potentials[2] == 0.0


def test_unloaded_rail_behind_a_diode_is_live() -> None:
    circuit = Circuit(3, cells=(Cell(1, 0, 12.0, 0.1),), diodes=(Diode(1, 2, 0.4),))

    assert solve(circuit).potentials[2] == pytest.approx(11.6, abs=1e-6)


def test_no_current_through_a_diode_the_wrong_way_in_a_return() -> None:
    circuit = Circuit(3, cells=(Cell(1, 0, 12.0, 0.1),), diodes=(Diode(0, 2, 0.4),), loads=(Load(1, 2, POWER, 10.0),))
    solution = solve(circuit)

    assert solution.load_amps[0] == pytest.approx(0.0, abs=1e-9)
    assert solution.load_volts[0] == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    "make",
    [
        lambda: Circuit(1, (Resistor(0, 1, 1.0),)),
        lambda: Circuit(2, (Resistor(0, 1, -1.0),)),
        lambda: Circuit(2, (Resistor(0, 1, math.nan),)),
        lambda: Circuit(2, cells=(Cell(0, 1, math.inf, 1.0),)),
        lambda: Circuit(2, cells=(Cell(0, 1, 12.0, -0.1),)),
        lambda: Circuit(2, diodes=(Diode(0, -1, 0.4),)),
        lambda: Circuit(2, diodes=(Diode(0, 1, -0.4),)),
        lambda: Circuit(2, loads=(Load(0, 1, POWER, -5.0),)),
        lambda: Circuit(2, loads=(Load(0, 1, POWER, math.inf),)),
        lambda: Circuit(2, loads=(Load(0, 1, RESISTANCE, 0.0),)),
        lambda: Circuit(2, loads=(Load(0, 1, POWER, 5.0, 0.0),)),
        lambda: Circuit(3, regulators=(Regulator(0, 1, 2, 0.0, 5.0),)),
        lambda: Circuit(3, regulators=(Regulator(0, 1, 2, 5.0, 9.0, 8.0),)),
        lambda: Circuit(3, regulators=(Regulator(0, 1, 2, 5.0, 5.5, efficiency=1.2),)),
        lambda: Circuit(3, regulators=(Regulator(0, 1, 2, 5.0, 5.5, max_amps=math.nan),)),
        lambda: Network(Circuit(2, cells=(Cell(0, 1, 12.0, 1.0),))).solve(cell_volts=[math.nan]),
        lambda: Network(Circuit(2, cells=(Cell(0, 1, 12.0, 1.0),))).solve(cell_ohms=[-1.0]),
        lambda: Network(Circuit(2, loads=(Load(0, 1, POWER, 5.0),))).solve(load_amounts=[-1.0]),
    ],
)
def test_what_no_circuit_can_hold_is_refused(make: object) -> None:
    assert callable(make)
    with pytest.raises(BadCircuit):
        make()
