"""Follows an operating point while the volts of cells change, quickly, as long as nothing else changes.

What a discharge asks for is the same circuit again and again at volts that are a little lower: the same diodes conduct,
the same regulators hold, every load stays in its window. Then only Newton's iteration itself is left, on the reduced
frame as it was reduced before, with the inverse as it was. Anything else is for `Network.solve`.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, isfinite

import numpy as np

from rigmint.physics.circuit.arrays import Floats, Ints
from rigmint.physics.circuit.expand import UNLIMITED_AMPS
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.law import Law
from rigmint.physics.circuit.newton import STALLED, Held, invert_jacobian
from rigmint.physics.circuit.patterns import Window
from rigmint.physics.circuit.reduction import Reducer
from rigmint.physics.circuit.settle import find_idle_diodes, find_opened_reference
from rigmint.physics.circuit.solution import Solution
from rigmint.physics.circuit.system import (
    Sights,
    build_jacobian,
    compute_port_volts,
    compute_stray_amps,
    enter_modes,
    is_regrouped,
    measure_amps,
    update_modes,
)

_CLOSE = 1e-9
_ROUNDS = 6
_CLEAR = 1e-9
"""Part of a limit by which volts must keep clear of it."""


@dataclass(frozen=True, slots=True)
class Followed:
    """An operating point: amps out of each cell, volts across each pair of nodes that is watched."""

    cell_amps: Floats
    volts: Floats


@dataclass(frozen=True, slots=True)
class _Pairs:
    """Pairs of nodes as rows: their volts are by_amps amps + levels[plus] - levels[minus], none between islands."""

    by_amps: Floats
    plus: Ints
    minus: Ints
    is_joined: Floats


class Follower:
    """One operating point, and the way on from it."""

    def __init__(
        self, reducer: Reducer, law: Law, window: Window, start: Solution, pairs: Sequence[tuple[int, int]]
    ) -> None:
        """law: that of `start`, a solution in which nothing sags and every regulator is on. pairs: nodes to watch."""
        self._frame, self._law = reducer.frame, law
        state = start.origin.state
        self._system = enter_modes(reducer, law, state.modes, state.amps)
        self._unknowns = self._before = self._system.read_unknowns(state.amps, state.levels)
        self._held = self._invert(self._system.look(self._unknowns))
        is_bent = np.isfinite(law.low)
        self._siemens = np.where(is_bent, law.siemens, law.low_siemens)
        self._current = np.where(is_bent, law.current, 0.0)
        self._constant_power = np.flatnonzero(is_bent & (law.power > 0.0))
        self._power = law.power[self._constant_power]
        draws = is_bent & ((law.power > 0.0) | (law.current > 0.0))
        self._floor = np.where(draws, law.low * (1.0 + _CLEAR), -np.inf)
        self._input_floor = np.maximum(window.low, law.input_low) * (1.0 + _CLEAR)
        self._input_ceiling = window.high * (1.0 - _CLEAR)
        self._idle = find_idle_diodes(self._frame, state.amps, state.modes)
        self._opened = find_opened_reference(reducer, law, state, self._idle)
        self._pairs = _list_pairs(self._frame, start, pairs)

    def advance(self, cell_volts: Floats) -> Followed | None:
        """The operating point at these volts; None where something else changes on the way, or may."""
        system, frame, cells = self._system, self._frame, self._frame.cells
        constant = system.fixed.constant.copy()
        constant[:cells] = np.where(np.isfinite(self._law.cell_ohms), cell_volts, 0.0)
        with np.errstate(all="ignore"):  # An iteration that runs away ends by its step that is not finite.
            unknowns = self._iterate(constant)
            if unknowns is None:
                return None
            seen = system.reduction.sights_by_u @ unknowns + system.reduction.sights_by_constant @ constant
            sights = self._split(seen)
            large = measure_amps(np.concatenate((unknowns[: len(frame.varying)], sights.switching_amps)))
            if not self._stays(sights, large):
                return None
        amps, levels = system.expand_with(unknowns, constant)
        if not self._adds_up(amps, levels):
            return None
        self._before, self._unknowns = self._unknowns, unknowns
        pairs = self._pairs
        volts = (pairs.by_amps @ amps + levels[pairs.plus] - levels[pairs.minus]) * pairs.is_joined
        return Followed(-amps[frame.cell], volts)

    def _invert(self, sights: Sights) -> Held | None:
        jacobian = build_jacobian(self._system, self._law, sights, positive=False)
        return invert_jacobian(jacobian, len(self._frame.varying), b"")

    def _split(self, seen: Floats) -> Sights:
        frame = self._frame
        drawing, varying = frame.loads + frame.weak, len(frame.varying)
        switching = varying + frame.diodes + frame.regulators
        return Sights(seen[:drawing], seen[drawing:varying], seen[varying:switching], seen[switching:])

    def _iterate(self, constant: Floats) -> Floats | None:
        """The unknowns, from straight on of the last two."""
        if self._held is None:
            return None
        frame, reduction, law = self._frame, self._system.reduction, self._law
        drawing, varying = frame.loads + frame.weak, len(frame.varying)
        output_volts = slice(varying + frame.diodes, varying + frame.diodes + frame.regulators)
        output_amps = slice(output_volts.stop + frame.diodes, output_volts.stop + frame.diodes + frame.regulators)
        seen_anyway = reduction.sights_by_constant @ constant
        sums_anyway = reduction.sums_by_constant @ constant
        unknowns, before = 2.0 * self._unknowns - self._before, inf
        amps_scale, volts_scale = measure_amps(self._unknowns[:varying]), self._system.fixed.volts
        for _ in range(_ROUNDS):
            seen = reduction.sights_by_u @ unknowns + seen_anyway
            drawn = self._current + self._siemens * seen[:drawing]
            drawn[self._constant_power] += self._power / seen[self._constant_power]
            residual = unknowns.copy()
            residual[:drawing] -= drawn
            if frame.regulators:
                given = np.maximum(-seen[output_volts] * seen[output_amps], 0.0)
                residual[drawing:varying] -= law.input_gain * given / seen[drawing:varying]
            if residual.size > varying:
                residual[varying:] = reduction.sums_by_u @ unknowns + sums_anyway
            step = self._held.inverse @ (self._held.row_scale * residual)
            unknowns = unknowns - step
            parts = np.abs(step)
            size = max(
                float(parts[:varying].max(initial=0.0)) / amps_scale,
                float(parts[varying:].max(initial=0.0)) / volts_scale,
            )
            if not isfinite(size):
                return None
            if (size * min(1.0, size / before) if before < inf else size) <= _CLOSE:
                return unknowns
            before = size
        return None

    def _stays(self, sights: Sights, large: float) -> bool:
        """Whether modes, islands and windows are as they were."""
        system = self._system
        return bool(
            (sights.drawing >= self._floor).all()
            and (sights.inputs >= self._input_floor).all()
            and (sights.inputs <= self._input_ceiling).all()
            and update_modes(system, sights, large, one_only=False) is system.fixed.modes
            and not is_regrouped(system, sights)
        )

    def _adds_up(self, amps: Floats, levels: Floats) -> bool:
        """Whether the currents add up and are none of a short, and diodes that carry nothing are those of before and
        stand as `settle` would leave them."""
        frame, large = self._frame, measure_amps(amps)
        if float(np.abs(compute_stray_amps(frame, amps)).max(initial=0.0)) > STALLED * large or large > UNLIMITED_AMPS:
            return False
        idle = find_idle_diodes(frame, amps, self._system.fixed.modes)
        if idle.tobytes() != self._idle.tobytes():
            return False
        if not idle.any():
            return True
        volts = compute_port_volts(frame, amps, levels - levels[self._opened])[frame.diode]
        return bool((volts[idle] > self._law.drop[idle]).all())


def _list_pairs(frame: Frame, start: Solution, pairs: Sequence[tuple[int, int]]) -> _Pairs:
    plus = frame.joint_of_node[np.array([pair[0] for pair in pairs], dtype=np.intp)]
    minus = frame.joint_of_node[np.array([pair[1] for pair in pairs], dtype=np.intp)]
    joined = [start.islands[a] == start.islands[b] for a, b in pairs]
    return _Pairs(
        by_amps=frame.spread[minus] - frame.spread[plus],
        plus=frame.piece_of_joint[plus],
        minus=frame.piece_of_joint[minus],
        is_joined=np.array(joined, dtype=np.float64),
    )
