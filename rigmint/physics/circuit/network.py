"""A circuit prepared once and solved at many operating points."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from rigmint.physics.circuit.arrays import Bools, Floats
from rigmint.physics.circuit.elements import LEAST_INPUT_VOLTS, Circuit, check_amounts, check_cells
from rigmint.physics.circuit.errors import EnergyImbalance
from rigmint.physics.circuit.expand import (
    check_energy,
    collect_resistor_amps,
    expand_potentials,
    refuse_unlimited,
)
from rigmint.physics.circuit.follow import Follower
from rigmint.physics.circuit.frame import build_frame
from rigmint.physics.circuit.ideal import stiffen_cells
from rigmint.physics.circuit.joints import build_joints
from rigmint.physics.circuit.law import Law, build_law, find_drawing, fix_law, set_amounts, set_cells
from rigmint.physics.circuit.margin import MOST, Margin, find_margin
from rigmint.physics.circuit.modes import LIMITED, Modes
from rigmint.physics.circuit.newton import State, iterate
from rigmint.physics.circuit.patterns import Pattern, Window, find_pattern
from rigmint.physics.circuit.reach import find_returned_inputs
from rigmint.physics.circuit.reduction import Reducer
from rigmint.physics.circuit.settle import (
    Sag,
    Settled,
    connect_loads,
    find_sag,
    release_idle_diodes,
    settle,
    unload,
)
from rigmint.physics.circuit.solution import Origin, RegulatorState, Solution
from rigmint.physics.circuit.system import compute_port_volts

_WARM_ROUNDS = 12
_WARM_CLOSE = 1e-9

_HOPELESS = 0.5
"""A regulator that sees less than this part of its lowest input without any load is off in every pattern."""

Values = Sequence[float] | Floats


class Network:
    """A circuit, its wiring reduced once; `solve` and `find_margin` then take volts, ohms and amounts of the moment.

    Raises BadCircuit where a value is one that no element can have. A network does not change by being solved: the
    same arguments give the same answer in any order.
    """

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self._frame = build_frame(circuit)
        self._joints = build_joints(circuit, self._frame.zero_resistor)
        self._reducer = Reducer(self._frame)
        self._law = build_law(circuit, self._frame)
        low = [max(regulator.takes_low, LEAST_INPUT_VOLTS) for regulator in circuit.regulators]
        high = [regulator.takes_high for regulator in circuit.regulators]
        self._window = Window(np.array(low, dtype=np.float64), np.array(high, dtype=np.float64))
        self._gain = self._law.input_gain
        self._amounts = np.array([load.amount for load in circuit.loads], dtype=np.float64)

    def solve(
        self,
        *,
        cell_volts: Values | None = None,
        cell_ohms: Values | None = None,
        load_amounts: Values | None = None,
        start: Solution | None = None,
    ) -> Solution:
        """The operating point of highest voltage.

        cell_volts, cell_ohms, load_amounts: in the circuit's order and units; None: as the circuit states them.
        start: a solution of this network close by; makes it quicker, never different.
        Raises Collapse where there is no operating point, SolveFailed and EnergyImbalance on internal errors.
        """
        law, amounts = self._make_law(cell_volts, cell_ohms, load_amounts)
        warm = None if start is None else self._continue_from(start.origin, law, amounts)
        if warm is not None:
            try:
                return self._build_solution(law, amounts, *warm, near=start)
            except EnergyImbalance:
                pass  # the start was too far off: what the iteration took for close was not
        pattern = self._find_pattern(law)
        settled = pattern.settled
        return self._build_solution(
            law.switch_regulators(pattern.on, self._gain), amounts, settled.state, settled.volts, pattern.on
        )

    def follow(self, start: Solution, pairs: Sequence[tuple[int, int]]) -> Follower | None:
        """What goes on from a solution of this network as the volts of its cells change. pairs: nodes to measure the
        volts between. None where something in it sags or is off."""
        if not start.is_unhindered:
            return None
        origin = start.origin
        law, _ = self._make_law(origin.cell_volts, origin.cell_ohms, origin.amounts)
        return Follower(self._reducer, law.switch_regulators(origin.on, self._gain), self._window, start, pairs)

    def solve_pattern(self, on: Bools) -> Solution:
        """The operating point with these regulators on, shape (regulators,), whatever their inputs say."""
        law = self._law.switch_regulators(on, self._gain)
        settled = settle(self._reducer, law, unload(self._reducer, law))
        return self._build_solution(law, self._amounts, settled.state, settled.volts, on)

    def find_margin(
        self,
        *,
        cell_volts: Values | None = None,
        cell_ohms: Values | None = None,
        load_amounts: Values | None = None,
        most: float = MOST,
    ) -> Margin:
        """By how much every constant power can be multiplied before the circuit collapses, up to `most`. See Margin; as
        `solve`."""
        law, _ = self._make_law(cell_volts, cell_ohms, load_amounts)
        law = law.ignore_windows()
        pattern = self._find_pattern(law.scale_power(0.0))
        refuse_unlimited(self._frame, pattern.settled.state)
        law = law.switch_regulators(pattern.on, self._gain)
        unloaded = pattern.settled.state
        return find_margin(self._reducer, law, unloaded, connect_loads(self._frame, law, unloaded), most)

    def _make_law(
        self, cell_volts: Values | None, cell_ohms: Values | None, load_amounts: Values | None
    ) -> tuple[Law, Floats]:
        law, amounts = self._law, self._amounts
        volts = law.cell_volts if cell_volts is None else np.array(cell_volts, dtype=np.float64)
        ohms = law.cell_ohms if cell_ohms is None else np.array(cell_ohms, dtype=np.float64)
        check_cells(volts.tolist(), ohms.tolist())
        law = set_cells(law, volts, stiffen_cells(self._frame, volts, ohms))
        if load_amounts is not None and not np.array_equal(load_amounts, self._amounts):
            amounts = np.array(load_amounts, dtype=np.float64)
            check_amounts(self.circuit.loads, amounts.tolist())
            law = set_amounts(law, self.circuit, amounts)
        return law, amounts

    def _find_pattern(self, law: Law) -> Pattern:
        """The pattern of regulators and its solution, from nothing."""
        frame, gain = self._frame, self._gain

        unloaded: dict[bytes, State] = {}

        def unload_with(on: Bools) -> State:
            key = on.tobytes()
            if key not in unloaded:
                unloaded[key] = unload(self._reducer, law.switch_regulators(on, gain))
            return unloaded[key]

        def settle_with(on: Bools) -> Settled:
            return settle(self._reducer, law.switch_regulators(on, gain), unload_with(on))

        may = find_returned_inputs(frame, law)
        window = self._window if may.all() else self._window.close(~may)
        while may.any():
            bare = unload_with(may)
            seen = compute_port_volts(frame, bare.amps, bare.levels)[frame.input]
            hopeless = may & (seen < _HOPELESS * self._window.low)
            if not hopeless.any():
                break
            may = may & ~hopeless
        return find_pattern(frame, window, may, settle_with)

    def _continue_from(self, origin: Origin, law: Law, amounts: Floats) -> tuple[State, Floats, Bools, Sag] | None:
        """From a solution close by; None where only coming down from no load can say which solution is highest."""
        frame, on = self._frame, origin.on
        law = law.switch_regulators(on, self._gain)
        state = iterate(self._reducer, law, replace(origin.state, rounds=0), rounds=_WARM_ROUNDS, close=_WARM_CLOSE)
        if state is None:
            return None
        state = release_idle_diodes(self._reducer, law, state)
        volts = compute_port_volts(frame, state.amps, state.levels)
        sag = find_sag(frame, law, state, volts)
        inputs = volts[frame.input]
        if (on & ~self._window.holds(inputs)).any() or (~on & (inputs >= self._window.low)).any():
            return None
        if (sag.any() or not on.all()) and not (sag.equals(origin.sag) and _is_worse(origin, law, amounts)):
            return None
        return state, volts, on, sag

    def _build_solution(
        self,
        law: Law,
        amounts: Floats,
        state: State,
        volts: Floats,
        on: Bools,
        sag: Sag | None = None,
        near: Solution | None = None,
    ) -> Solution:
        frame, modes = self._frame, state.modes
        refuse_unlimited(frame, state)
        potentials, wire_amps = expand_potentials(frame, state)
        check_energy(frame, law, state, volts, wire_amps)
        amps = state.amps
        drawing = find_drawing(law, amps[frame.output])
        if near is not None and _is_joined_alike(near, law, modes, drawing):
            islands = near.islands
        else:
            found, _ = self._reducer.find_islands(fix_law(frame, law, modes), drawing)
            islands = found[frame.piece_of_joint][frame.joint_of_node]
        return Solution(
            potentials=potentials,
            islands=islands,
            resistor_amps=collect_resistor_amps(self.circuit, frame, self._joints, state, wire_amps),
            cell_amps=-amps[frame.cell],
            cell_volts=volts[frame.cell],
            diode_amps=np.where(modes.conducting, np.maximum(amps[frame.diode], 0.0), 0.0),
            load_amps=amps[: frame.loads],
            load_volts=volts[: frame.loads],
            input_amps=amps[frame.input],
            output_amps=-amps[frame.output],
            input_volts=volts[frame.input],
            output_volts=volts[frame.output],
            regulator_states=tuple(
                RegulatorState.OFF if not is_on else RegulatorState.LIMITED if mode == LIMITED else RegulatorState.ON
                for is_on, mode in zip(on.tolist(), modes.outputs.tolist(), strict=True)
            ),
            diode_conducts=tuple(modes.conducting.tolist()),
            iterations=state.rounds,
            origin=Origin(
                state,
                on,
                sag or find_sag(frame, law, state, volts),
                law.cell_volts,
                law.cell_ohms,
                amounts,
                drawing,
                law.low_siemens > 0.0,
            ),
        )


def _is_joined_alike(near: Solution, law: Law, modes: Modes, drawing: Bools) -> bool:
    """Whether the same diodes, outputs, inputs, cells and loads conduct as in a solution close by: the same islands."""
    origin = near.origin
    return (
        np.array_equal(modes.conducting, origin.state.modes.conducting)
        and np.array_equal(modes.outputs, origin.state.modes.outputs)
        and np.array_equal(drawing, origin.drawing)
        and np.array_equal(law.low_siemens > 0.0, origin.draws)
        and np.array_equal(np.isfinite(law.cell_ohms), np.isfinite(origin.cell_ohms))
    )


def _is_worse(origin: Origin, law: Law, amounts: Floats) -> bool:
    """Whether no source has risen and no load has fallen since: then what had sagged sags still."""
    return bool(
        (law.cell_volts <= origin.cell_volts).all()
        and (law.cell_ohms >= origin.cell_ohms).all()
        and np.array_equal(amounts, origin.amounts)
    )


def solve(circuit: Circuit) -> Solution:
    """The operating point of highest voltage of a circuit as it is stated. As Network.solve."""
    return Network(circuit).solve()


def collapse_margin(circuit: Circuit) -> Margin:
    """By how much every constant power can be multiplied before a circuit collapses. As Network.find_margin."""
    return Network(circuit).find_margin()
