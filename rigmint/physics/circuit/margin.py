"""By how much the constant powers of a circuit can grow before no operating point is left.

Every constant power is multiplied by s. The solutions form a curve that leaves s = 0 without load; s rises along it
to a nose and falls again on the lower branch. At a fixed s there are two solutions or none, which is why s is no good
to go along; the volts of the load that falls fastest are, for they go on falling through the nose. So those volts are
held step by step and s is an unknown among the others, until s no longer rises; there the nose is closed in on.
"""

from dataclasses import dataclass, replace

import numpy as np

from rigmint.physics.circuit.curve import Curve, Point, correct_point
from rigmint.physics.circuit.errors import SolveFailed
from rigmint.physics.circuit.law import Law, find_drawing, fix_law
from rigmint.physics.circuit.newton import State
from rigmint.physics.circuit.reduction import Reducer
from rigmint.physics.circuit.system import compute_port_volts

MOST = 10.0
"""The largest margin that is looked for."""

_LOCATED = 1e-5
_STEP = 0.2
"""Part of its volts by which the load that falls fastest falls in one step."""

_SHORTEST = 1e-9
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


def find_margin(reducer: Reducer, law: Law, unloaded: State, connected: State, most: float = MOST) -> Margin:
    """Follow the curve from its solution at s = 0. law: windows ignored, powers at s = 1. Raises SolveFailed.

    unloaded: that solution; connected: the same with those diodes conducting that only a load feeds; most: the largest
    margin that is looked for, given back where there is no less.
    """
    with np.errstate(all="ignore"):  # A step that runs away is refused for not being finite.
        return _follow_curve(Curve(reducer, _drop_dead_loads(reducer, law, connected)), (connected, unloaded), most)


def _drop_dead_loads(reducer: Reducer, law: Law, unloaded: State) -> Law:
    """The same without the powers of loads that have no volts, or reversed ones, when nothing draws power.

    A load between two islands has none: its way back is open.
    """
    frame = reducer.frame
    volts = compute_port_volts(frame, unloaded.amps, unloaded.levels)[frame.drawing]
    fixed = fix_law(frame, law.scale_power(0.0), unloaded.modes)
    islands, _ = reducer.find_islands(fixed, find_drawing(law, unloaded.amps[frame.output]))
    is_joined = (islands[frame.piece_a] == islands[frame.piece_b])[frame.drawing]
    return law.keep_power(is_joined & (volts > law.low))


def _follow_curve(curve: Curve, unloaded: tuple[State, ...], most: float) -> Margin:
    """unloaded: states to begin from, the best first."""
    enough = Margin(most, None, None)
    if not curve.law.power.any():
        return enough
    here = next(filter(None, (_begin(curve, state) for state in unloaded)), None)
    if here is None:
        msg = "no point of the curve of solutions at zero load"
        raise SolveFailed(msg)
    step = _STEP
    for _ in range(_MOST_STEPS):
        if here.critical is None:
            return enough
        # A circuit far from its limit is seen past the most without going all the way to its nose.
        step = min(step, (1.05 * most - here.s) / here.s_way)
        ahead = correct_point(curve, here, step)
        if ahead is None:
            step *= 0.4
            if step < _SHORTEST:
                return _report(curve, here, most)
            continue
        if ahead.rise <= 0.0:
            return _report(curve, _close_in(curve, here, step, ahead), most)
        if ahead.s >= most:
            return enough
        here, step = ahead, _STEP
    msg = "the curve of solutions has no end"
    raise SolveFailed(msg)


def _begin(curve: Curve, unloaded: State) -> Point | None:
    flat = Point(replace(unloaded, held=None), 0.0, unloaded.amps * 0.0, unloaded.levels * 0.0, 1.0, 1.0, None)
    return correct_point(curve, flat, 0.0)


def _close_in(curve: Curve, low: Point, length: float, high: Point) -> Point:
    """Find the nose between a point where s still rises and one where it falls, `length` further on."""
    start, end, rise_at_start, rise_at_end = 0.0, length, low.s_way, high.rise
    best, rise_at_best = (low, low.s_way) if low.s >= high.s else (high, high.rise)
    for cut in range(_MOST_CUTS):
        bend = (rise_at_start - rise_at_end) / (end - start)
        # A smooth nose is a parabola, which rises by slope² / 2 / bend from here; a kink needs the bracket closed.
        if min(0.5 * rise_at_best**2 / bend, max(rise_at_start, -rise_at_end) * (end - start)) < _LOCATED:
            break
        part = 0.5 if cut % 4 == 3 else min(max(rise_at_start / (bend * (end - start)), 0.02), 0.98)
        at = start + part * (end - start)
        middle = correct_point(curve, low, at)
        if middle is None:
            end, rise_at_end = at, min(rise_at_end, -rise_at_start)
            continue
        if middle.s > best.s:
            best, rise_at_best = middle, middle.rise
        if middle.rise > 0.0:
            start, rise_at_start = at, middle.rise
        else:
            end, rise_at_end = at, middle.rise
    return best


def _report(curve: Curve, nose: Point, most: float) -> Margin:
    loads = curve.law.power.size
    if nose.s >= most or nose.critical is None:
        return Margin(most, None, None)
    if nose.critical < loads:
        return Margin(nose.s, nose.critical, None)
    return Margin(nose.s, None, nose.critical - loads)
