"""The equations of a reduced frame under a law: residual, Jacobian, change of modes."""

from dataclasses import dataclass

import numpy as np

from rigmint.physics.circuit.arrays import Floats
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.law import FixedLaw, Law, find_drawing, fix_law
from rigmint.physics.circuit.modes import HOLDING, IDLE, LIMITED, Modes
from rigmint.physics.circuit.reduction import Reducer, Reduction

_SWITCH = 1e-9
"""Part of the circuit's volts or amps by which a port must break its mode before the mode changes."""


@dataclass(frozen=True, slots=True)
class System:
    """A frame in given modes under a law: the equations that the unknowns of a reduction must meet."""

    frame: Frame
    law: Law
    fixed: FixedLaw
    reduction: Reduction
    constant_sights: Floats
    constant_sums: Floats
    drawing: bytes
    """Which regulator inputs the islands of the reduction are made with."""

    def read_unknowns(self, amps: Floats, levels: Floats) -> Floats:
        """The unknowns at these amps into all ports and levels of all pieces."""
        rebased = levels - levels[self.reduction.reference]
        return np.concatenate((amps[self.frame.varying], rebased[self.reduction.base]))

    def expand(self, unknowns: Floats) -> tuple[Floats, Floats]:
        """Amps into all ports and levels of all pieces at these unknowns."""
        return self.expand_with(unknowns, self.fixed.constant)

    def expand_with(self, unknowns: Floats, constant: Floats) -> tuple[Floats, Floats]:
        """The same with other constants of the fixed law."""
        frame, reduction = self.frame, self.reduction
        rest = reduction.rest_by_u @ unknowns + reduction.rest_by_constant @ constant
        amps = np.empty(frame.ports)
        amps[frame.varying] = unknowns[: len(frame.varying)]
        fixed_count = len(constant)
        amps[frame.fixed] = rest[:fixed_count]
        levels = np.zeros(len(reduction.reference))
        levels[reduction.base] = unknowns[len(frame.varying) :]
        levels[reduction.determined] = rest[fixed_count:]
        return amps, levels

    def look(self, unknowns: Floats) -> "Sights":
        """What the laws of bent ports and the modes depend on, at these unknowns."""
        frame = self.frame
        seen = self.reduction.sights_by_u @ unknowns + self.constant_sights
        drawing = frame.loads + frame.weak
        varying = drawing + frame.regulators
        switching = frame.diodes + frame.regulators
        return Sights(
            seen[:drawing],
            seen[drawing:varying],
            seen[varying : varying + switching],
            seen[varying + switching :],
        )


@dataclass(frozen=True, slots=True)
class Sights:
    """Volts of loads and weak resistors, volts of regulator inputs, volts of and amps into switching ports."""

    drawing: Floats
    inputs: Floats
    switching_volts: Floats
    switching_amps: Floats


def enter_modes(reducer: Reducer, law: Law, modes: Modes, amps: Floats) -> System:
    """The equations in these modes; amps: into all ports, to tell which regulator inputs draw."""
    frame = reducer.frame
    fixed = fix_law(frame, law, modes)
    drawing = find_drawing(law, amps[frame.output])
    reduction = reducer.reduce(fixed, drawing)
    return System(
        frame,
        law,
        fixed,
        reduction,
        reduction.sights_by_constant @ fixed.constant,
        reduction.sums_by_constant @ fixed.constant,
        drawing.tobytes(),
    )


def is_regrouped(system: System, sights: Sights) -> bool:
    """Whether other regulator inputs draw than those that the islands were made with."""
    if not system.frame.regulators:
        return False
    return find_drawing(system.law, sights.switching_amps[system.frame.diodes :]).tobytes() != system.drawing


def compute_port_volts(frame: Frame, amps: Floats, levels: Floats) -> Floats:
    """Volts across each port, a to b."""
    return levels[frame.piece_a] - levels[frame.piece_b] - frame.z @ amps


def compute_stray_amps(frame: Frame, amps: Floats) -> Floats:
    """Amps that do not add up to zero in each piece of wiring."""
    pieces = len(frame.piece_rank)
    stray = np.bincount(frame.piece_a, amps, pieces) - np.bincount(frame.piece_b, amps, pieces)
    return np.asarray(stray, dtype=np.float64)


def compute_residual(system: System, law: Law, unknowns: Floats, sights: Sights) -> Floats:
    """By how much each varying port breaks its law and each piece of unknown level its sum of currents.

    law: that of the system, or one that differs from it in its loads.
    """
    frame = system.frame
    drawing, varying = frame.loads + frame.weak, len(frame.varying)
    residual = unknowns.copy()
    residual[:drawing] -= law.draw(sights.drawing)
    if frame.regulators:
        output = slice(frame.diodes, frame.diodes + frame.regulators)
        power = -sights.switching_volts[output] * sights.switching_amps[output]
        residual[drawing:varying] -= law.feed(sights.inputs, power)
    if residual.size > varying:
        residual[varying:] = system.reduction.sums_by_u @ unknowns + system.constant_sums
    return residual


def build_jacobian(system: System, law: Law, sights: Sights, *, positive: bool) -> Floats:
    """Derivative of the residual by the unknowns.

    positive: count P / V as a conductance of P / V² above zero instead of its true negative slope; an iteration with
    that walks down to the highest solution slowly and surely.
    """
    frame, reduction = system.frame, system.reduction
    drawing, varying = frame.loads + frame.weak, len(frame.varying)
    by_volts = np.zeros(varying)
    by_volts[:drawing] = law.compute_slope(sights.drawing, positive=positive)
    jacobian = np.empty((reduction.sights_by_u.shape[1],) * 2)
    np.multiply(-by_volts[:, None], reduction.sights_by_u[:varying], out=jacobian[:varying])
    jacobian[varying:] = reduction.sums_by_u
    diagonal = np.arange(varying)
    jacobian[diagonal, diagonal] += 1.0
    if frame.regulators and law.input_gain.any():
        _subtract_inputs(system, law, sights, jacobian[drawing:varying], positive=positive)
    return jacobian


def _subtract_inputs(system: System, law: Law, sights: Sights, rows: Floats, *, positive: bool) -> None:
    """Rows of regulator inputs: gain × output power × (1 / V in its window, V / low² under it), by the unknowns."""
    frame, by_u = system.frame, system.reduction.sights_by_u
    drawing, varying = frame.loads + frame.weak, len(frame.varying)
    output = slice(frame.diodes, frame.diodes + frame.regulators)
    volts, amps = sights.switching_volts[output], sights.switching_amps[output]
    power = -volts * amps
    above = sights.inputs >= law.input_low
    held = np.where(above, sights.inputs, law.input_low)
    square = held * held
    by_input = law.input_gain * np.maximum(power, 0.0) / square
    if not positive:
        by_input = np.where(above, -by_input, by_input)
    gives = law.input_gain * (power >= 0.0) * np.where(above, 1.0 / held, sights.inputs / square)
    first = varying + frame.diodes
    second = first + frame.diodes + frame.regulators
    rows -= by_input[:, None] * by_u[drawing:varying]
    rows += (gives * amps)[:, None] * by_u[first : first + frame.regulators]
    rows += (gives * volts)[:, None] * by_u[second : second + frame.regulators]


def measure_amps(amps: Floats) -> float:
    """What counts as large in amps: the largest, at least a milliamp."""
    return max(1e-3, float(np.abs(amps).max(initial=0.0)))


def update_modes(system: System, sights: Sights, large_amps: float, *, one_only: bool) -> Modes:
    """The modes that these sights ask for; the same object when they ask for no change.

    large_amps: what counts as large. one_only: change only the port that breaks its mode worst; slower, but does not
    run in circles.
    """
    fixed, diodes = system.fixed, system.frame.diodes
    modes = fixed.modes
    if not sights.switching_amps.size:
        return modes
    forward = sights.switching_amps * fixed.forward
    by_amps = np.maximum(-forward, forward - fixed.most) / (_SWITCH * large_amps)
    by_volts = fixed.above * (sights.switching_volts - fixed.threshold) / (_SWITCH * fixed.volts)
    breach = np.where(fixed.held, by_amps, by_volts)
    if breach.max() <= 1.0:
        return modes
    breaks = breach > 1.0
    if one_only:
        breaks = np.arange(breach.size) == int(np.argmax(breach))
    wanted = np.where(modes.holding, np.where(forward[diodes:] > 0.0, LIMITED, IDLE), HOLDING)
    return Modes(modes.conducting ^ breaks[:diodes], np.where(breaks[diodes:], wanted, modes.outputs).astype(np.int8))
