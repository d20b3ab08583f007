"""From ports back to the circuit: node potentials, currents of every element, and the check that energy balances."""

import numpy as np

from rigmint.physics.circuit.arrays import Floats
from rigmint.physics.circuit.elements import Circuit
from rigmint.physics.circuit.errors import Collapse, EnergyImbalance
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.joints import Joints
from rigmint.physics.circuit.law import STIFF_OHMS, Law
from rigmint.physics.circuit.modes import HOLDING, LIMITED, OPEN
from rigmint.physics.circuit.newton import State

RELATIVE_IMBALANCE = 1e-6
LEAST_IMBALANCE_WATTS = 1e-6

UNLIMITED_AMPS = 1e5
"""More than this through a diode or out of a regulator is a short that nothing limits, not an operating point."""


def refuse_unlimited(frame: Frame, state: State) -> None:
    """Raise Collapse where a regulator or a diode stands in a short that nothing limits."""
    amps = np.abs(state.amps) > UNLIMITED_AMPS
    diodes = amps[frame.diode] & state.modes.conducting
    regulators = amps[frame.output] & (state.modes.holding)
    if diodes.any() or regulators.any():
        msg = "a source is shorted through a diode or by a regulator, and nothing limits the current"
        raise Collapse(
            msg,
            diodes=tuple(np.flatnonzero(diodes).tolist()),
            regulators=tuple(np.flatnonzero(regulators).tolist()),
        )


def expand_potentials(frame: Frame, state: State) -> tuple[Floats, Floats]:
    """Volts of each node, and amps in each resistor that is a wire."""
    lift = -(frame.spread @ state.amps)
    wire_amps = (lift[frame.wire_a] - lift[frame.wire_b]) * frame.wire_siemens
    potentials = (lift + state.levels[frame.piece_of_joint])[frame.joint_of_node]
    return potentials, wire_amps


def collect_resistor_amps(circuit: Circuit, frame: Frame, joints: Joints, state: State, wire_amps: Floats) -> Floats:
    """Amps from a to b in every resistor of the circuit."""
    amps = np.zeros(len(circuit.resistors))
    amps[frame.wire] = wire_amps
    amps[frame.weak_resistor] = state.amps[frame.loads : frame.loads + frame.weak]
    if frame.zero_resistor.size:
        amps[frame.zero_resistor] = joints.divide(_sum_inflow(circuit, frame, state, amps))
    return amps


def _sum_inflow(circuit: Circuit, frame: Frame, state: State, resistor_amps: Floats) -> Floats:
    """Amps that every element but the zero-ohm resistors puts into each node."""
    inflow = np.zeros(circuit.nodes)
    for resistor, amps in zip(circuit.resistors, resistor_amps.tolist(), strict=True):
        inflow[resistor.a] -= amps
        inflow[resistor.b] += amps
    ends = [(load.plus, load.minus) for load in circuit.loads]
    port_amps = [state.amps[: frame.loads], state.amps[frame.cell], state.amps[frame.diode]]
    ends += [(cell.plus, cell.minus) for cell in circuit.cells]
    ends += [(diode.anode, diode.cathode) for diode in circuit.diodes]
    ends += [(regulator.output, regulator.ground) for regulator in circuit.regulators]
    ends += [(regulator.input, regulator.ground) for regulator in circuit.regulators]
    port_amps += [state.amps[frame.output], state.amps[frame.input]]
    for (a, b), amps in zip(ends, np.concatenate(port_amps).tolist(), strict=True):
        inflow[a] -= amps
        inflow[b] += amps
    return inflow


def check_energy(frame: Frame, law: Law, state: State, volts: Floats, wire_amps: Floats) -> None:
    """Raise EnergyImbalance unless what the sources give is what the elements take by their own laws."""
    cell_amps = -state.amps[frame.cell]
    given = float(law.cell_volts @ cell_amps)
    scale = float(np.abs(law.cell_volts * cell_amps).sum())
    live = np.isfinite(law.cell_ohms)
    in_cells = float(np.where(live, law.cell_ohms, 0.0) @ (cell_amps * cell_amps))
    in_wires = float((wire_amps * wire_amps) @ (1.0 / frame.wire_siemens))
    at_loads = volts[frame.drawing]
    in_loads = float(law.draw(at_loads) @ at_loads)
    diode_amps = np.where(state.modes.conducting, state.amps[frame.diode], 0.0)
    in_diodes = float((law.drop + STIFF_OHMS * diode_amps) @ diode_amps)
    taken = in_cells + in_wires + in_loads + in_diodes + _sum_regulator_losses(frame, law, state, volts)
    if not abs(given - taken) <= RELATIVE_IMBALANCE * scale + LEAST_IMBALANCE_WATTS:
        raise EnergyImbalance(given, taken)


def _sum_regulator_losses(frame: Frame, law: Law, state: State, volts: Floats) -> float:
    """What regulators take in by efficiency, less what they hand on by their mode."""
    mode = state.modes.outputs
    held = law.output_volts + STIFF_OHMS * state.amps[frame.output]
    output_volts = np.where(mode == HOLDING, held, volts[frame.output])
    limit = np.where(np.isinf(law.output_limit), 0.0, law.output_limit)
    output_amps = np.where(mode == LIMITED, limit, np.where(mode == HOLDING, -state.amps[frame.output], 0.0))
    output_power = np.where(mode == OPEN, 0.0, output_volts * output_amps)
    input_power = law.feed(volts[frame.input], output_power) * volts[frame.input]
    return float((input_power - output_power).sum())
