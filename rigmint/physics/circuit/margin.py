"""By how much the constant powers of a circuit can grow before no operating point is left.

Every constant power is multiplied by s. The solutions form a curve that leaves s = 0 without load; s rises along it
to a nose and falls again on the lower branch, where Newton's iteration at a fixed s finds nothing to hold on to. So
the curve is followed by its own length, s an unknown among the others, until s turns; there the place where the
tangent's s vanishes is closed in on.
"""

from dataclasses import dataclass, replace
from math import inf

import numpy as np

from rigmint.physics.circuit.arrays import Floats
from rigmint.physics.circuit.errors import SolveFailed
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.law import Law, fix_law
from rigmint.physics.circuit.newton import State
from rigmint.physics.circuit.reduction import Reducer
from rigmint.physics.circuit.system import (
    Sights,
    System,
    build_jacobian,
    compute_port_volts,
    compute_residual,
    enter_modes,
    is_regrouped,
    measure_amps,
    update_modes,
)

MOST = 10.0
"""The largest margin that is looked for."""

_LOCATED = 1e-5
_CLOSE = 1e-6
_CORRECTIONS = 12
_FIRST_LENGTH = 0.1
_GROWTH = {1: 3.0, 2: 3.0, 3: 2.0, 4: 1.5}
"""By how much a step is longer than one that took so many corrections."""
_SHORTEST = 1e-7
_MOST_STEPS = 400
_MOST_CUTS = 60


@dataclass(frozen=True, slots=True)
class Margin:
    """Where the curve of solutions ends. Collapsed: below 1.

    s: the multiple of every constant power, located to 1e-4, at most 10.
    load, regulator: whose input falls fastest there, for its volts; None where s is 10.
    """

    s: float
    load: int | None
    regulator: int | None

    @property
    def collapses(self) -> bool:
        """Whether the circuit has no operating point at its stated powers, windows ignored."""
        return self.s < 1.0


@dataclass(frozen=True, slots=True)
class _Point:
    """A point of the curve with its tangent, of length 1 in scaled amps, volts and s."""

    state: State
    s: float
    amps_way: Floats
    levels_way: Floats
    s_way: float
    corrections: int


@dataclass(frozen=True, slots=True)
class _Curve:
    """The curve of one circuit: its law at one unit of s, and the units of s, amps and volts along it."""

    reducer: Reducer
    law: Law
    s_unit: float
    amps_unit: float
    volts_unit: float

    def find_units(self, system: System) -> Floats:
        """The unit of each unknown."""
        units = np.full(len(system.frame.varying) + len(system.reduction.base), self.volts_unit)
        units[: len(system.frame.varying)] = self.amps_unit
        return units


def find_margin(reducer: Reducer, law: Law, unloaded: State) -> Margin:
    """Follow the curve from its solution at s = 0. law: windows ignored, powers at s = 1. Raises SolveFailed."""
    with np.errstate(all="ignore"):  # A step that runs away is refused for not being finite.
        return _follow_curve(reducer, _drop_dead_loads(reducer.frame, law, unloaded), unloaded)


def _follow_curve(reducer: Reducer, law: Law, unloaded: State) -> Margin:
    if not law.power.any():
        return Margin(MOST, None, None)
    frame = reducer.frame
    volts_unit = fix_law(frame, law, unloaded.modes).volts
    flat = _Point(replace(unloaded, held=None), 0.0, np.zeros(frame.ports), np.zeros(len(frame.piece_rank)), 1.0, 0)
    # Along the curve s counts in units in which the first load would be down to nothing if it went on as it begins.
    unit = 1.0
    for _ in range(2):
        # Of the loads one by one, not of their sum: one of many may fall alone, and that must not be a small step.
        amps_unit = max(unit * float(np.linalg.norm(law.power)) / volts_unit, 1e-9)
        curve = _Curve(reducer, law.scale_power(unit), unit, amps_unit, volts_unit)
        here = _correct(curve, flat, 0.0)
        if here is None:
            msg = "no point of the curve of solutions at zero load"
            raise SolveFailed(msg)
        of_loads, of_inputs = _measure_falls(curve, here)
        fall = max(of_loads.max(initial=0.0), of_inputs.max(initial=0.0)) / here.s_way
        unit *= 1.0 / max(fall, unit / MOST)
    length = _FIRST_LENGTH
    for _ in range(_MOST_STEPS):
        ahead = _correct(curve, here, length)
        if ahead is None or not _follows(here, ahead, length):
            length *= 0.45
            if length < _SHORTEST:
                return _report(curve, here)
            continue
        if ahead.s_way <= 0.0:
            return _close_in(curve, here, length, ahead)
        if ahead.s * curve.s_unit >= MOST:
            return Margin(MOST, None, None)
        # A parabola through the last two points says where the nose would be; a step shall not go far past it.
        bend = (here.s_way - ahead.s_way) / length
        length *= _GROWTH.get(ahead.corrections, 1.0)
        if bend > 0.0:
            length = min(length, 2.0 * ahead.s_way / bend)
        here = ahead
    msg = "the curve of solutions has no end"
    raise SolveFailed(msg)


def _drop_dead_loads(frame: Frame, law: Law, unloaded: State) -> Law:
    """The same without the powers of loads that have no volts, or reversed ones, when nothing draws power."""
    volts = compute_port_volts(frame, unloaded.amps, unloaded.levels)[frame.drawing]
    return law.keep_power(volts > law.low)


def _follows(here: _Point, ahead: _Point, length: float) -> bool:
    """Whether a step stayed on the curve: not thrown far off, nor turned round without passing the nose."""
    return abs(ahead.s - here.s) <= 2.0 * length and ahead.s > -_LOCATED


def _close_in(curve: _Curve, low: _Point, length: float, high: _Point) -> Margin:
    """Find the nose between a point where s still rises and one where it falls, `length` further on."""
    located = _LOCATED / max(curve.s_unit, 1.0)
    start, end, rise_at_start, rise_at_end = 0.0, length, low.s_way, high.s_way
    best = low if low.s >= high.s else high
    for cut in range(_MOST_CUTS):
        bend = (rise_at_start - rise_at_end) / (end - start)
        # A smooth nose is a parabola, which rises by slope² / 2 / bend from here; a kink needs the bracket closed.
        if min(0.5 * best.s_way**2 / bend, max(rise_at_start, -rise_at_end) * (end - start)) < located:
            break
        part = 0.5 if cut % 4 == 3 else min(max(rise_at_start / (bend * (end - start)), 0.02), 0.98)
        at = start + part * (end - start)
        middle = _correct(curve, low, at)
        if middle is None:
            end, rise_at_end = at, min(rise_at_end, -rise_at_start)
            continue
        best = middle if middle.s > best.s else best
        if middle.s_way > 0.0:
            start, rise_at_start = at, middle.s_way
        else:
            end, rise_at_end = at, middle.s_way
    return _report(curve, best)


def _report(curve: _Curve, nose: _Point) -> Margin:
    s = nose.s * curve.s_unit
    if s >= MOST:
        return Margin(MOST, None, None)
    of_loads, of_inputs = _measure_falls(curve, nose)
    if of_loads.max(initial=-np.inf) >= of_inputs.max(initial=-np.inf):
        return Margin(s, int(np.argmax(of_loads)), None)
    return Margin(s, None, int(np.argmax(of_inputs)))


def _measure_falls(curve: _Curve, point: _Point) -> tuple[Floats, Floats]:
    """By what part of its volts each constant power and each drawing regulator falls along the tangent."""
    frame, law = curve.reducer.frame, curve.law
    volts = compute_port_volts(frame, point.state.amps, point.state.levels)
    fall = -compute_port_volts(frame, point.amps_way, point.levels_way) / np.where(volts == 0.0, 1.0, volts)
    of_loads = np.where(law.power[: frame.loads] > 0.0, fall[: frame.loads], -np.inf)
    draws = law.on & (point.state.amps[frame.input] + point.amps_way[frame.input] > 0.0)
    return of_loads, np.where(draws, fall[frame.input], -np.inf)


def _correct(curve: _Curve, base: _Point, length: float) -> _Point | None:
    """The point of the curve `length` along the tangent from `base`, in the plane across it; None if not reached."""
    frame = curve.reducer.frame
    amps, levels = base.state.amps + length * base.amps_way, base.state.levels + length * base.levels_way
    s = base.s + length * base.s_way
    # At s = 0 no power holds two pieces of wiring together.
    law = curve.law.scale_power(float(s > 0.0))
    system, before = enter_modes(curve.reducer, law, base.state.modes, amps), inf
    unknowns = target = system.read_unknowns(amps, levels)
    target_s = s
    for done in range(_CORRECTIONS):
        law, sights = curve.law.scale_power(s), system.look(unknowns)
        if not _is_upright(law, sights.drawing):
            return None
        units = curve.find_units(system)
        plane = np.append(system.read_unknowns(base.amps_way, base.levels_way) / units**2, base.s_way)
        right = np.zeros((len(unknowns) + 1, 2))
        right[:-1, 0] = compute_residual(system, law, unknowns, sights)
        right[-1] = plane @ np.append(unknowns - target, s - target_s), 1.0
        try:
            answer = np.linalg.solve(_border(curve, system, law, sights, plane), right)
        except np.linalg.LinAlgError:
            return None
        step, way = answer[:, 0], answer[:, 1]
        unknowns, s = unknowns - step[:-1], s - float(step[-1])
        size = float(np.abs(step / np.append(units, 1.0)).max())
        # Far from the curve: a shorter step will do better than more rounds.
        if not np.isfinite(size) or s < -1.0 or (done > 1 and size > before):
            return None
        sights = system.look(unknowns)
        large = measure_amps(np.concatenate((unknowns[: len(frame.varying)], sights.switching_amps)))
        asked = update_modes(system, sights, large, one_only=done > _CORRECTIONS // 2)
        if asked is not system.fixed.modes or is_regrouped(system, sights):
            amps, levels = system.expand(unknowns)
            target_amps, target_levels = system.expand(target)
            system, before = enter_modes(curve.reducer, curve.law, asked, amps), inf
            unknowns, target = system.read_unknowns(amps, levels), system.read_unknowns(target_amps, target_levels)
            continue
        to_come = size * min(1.0, size / before) if before < inf else size
        before = size
        if to_come <= _CLOSE * max(1.0, s):
            return _make_point(curve, system, unknowns, s, way, done + 1) if _is_upright(law, sights.drawing) else None
    return None


def _make_point(
    curve: _Curve, system: System, unknowns: Floats, s: float, way: Floats, corrections: int
) -> _Point:
    """A point with its tangent scaled to length 1."""
    way = way / float(np.linalg.norm(way / np.append(curve.find_units(system), 1.0)))
    amps, levels = system.expand(unknowns)
    further_amps, further_levels = system.expand(unknowns + way[:-1])
    state = State(amps, levels, system.fixed.modes)
    return _Point(state, s, further_amps - amps, further_levels - levels, float(way[-1]), corrections)


def _is_upright(law: Law, volts: Floats) -> bool:
    """Whether every constant power has volts the right way round: beyond zero P / V is no part of the curve."""
    return bool((volts[law.power > 0.0] > 0.0).all())


def _border(curve: _Curve, system: System, law: Law, sights: Sights, plane: Floats) -> Floats:
    """The Jacobian with a column for s and the row of the plane across the tangent."""
    matrix = np.zeros((len(plane), len(plane)))
    matrix[:-1, :-1] = build_jacobian(system, law, sights, positive=False)
    # At s = 0 a load whose supply is dead has no volts: its power has no current that could grow.
    volts = sights.drawing
    live = volts > law.low
    matrix[: volts.size, -1] = np.where(live, -curve.law.power / np.where(live, volts, 1.0), 0.0)
    matrix[-1] = plane
    return matrix
