"""Points of the curve that the solutions of a circuit form when every constant power is multiplied by s."""

from dataclasses import dataclass
from math import inf

import numpy as np

from rigmint.physics.circuit.arrays import Floats
from rigmint.physics.circuit.law import Law
from rigmint.physics.circuit.newton import State
from rigmint.physics.circuit.reduction import Reducer
from rigmint.physics.circuit.system import (
    Sights,
    System,
    build_jacobian,
    compute_residual,
    enter_modes,
    is_regrouped,
    measure_amps,
    update_modes,
)

_CLOSE = 1e-7
_CORRECTIONS = 12
_LEAST_FALL = 1e-12


@dataclass(frozen=True, slots=True)
class Curve:
    """The curve of one circuit: its wiring, and its law at s = 1."""

    reducer: Reducer
    law: Law


@dataclass(frozen=True, slots=True)
class Point:
    """A point of the curve, with the way on from it.

    The way is given for a fall of the critical port by the whole of its volts, if all went on in a straight line.
    """

    state: State
    s: float
    amps_way: Floats
    levels_way: Floats
    s_way: float
    rise: float
    """What s gains by a fall of the port whose volts were held to find this point, by the whole of what it had at
    the point before."""
    critical: int | None
    """Among loads, weak resistors and regulator inputs the one that falls fastest for its volts; None: none falls."""


def correct_point(curve: Curve, base: Point, length: float) -> Point | None:
    """The point where the critical port of `base` has lost `length` of its volts; None if it is not reached.

    Without a critical port: the point at the s of `base`.
    """
    amps, levels = base.state.amps + length * base.amps_way, base.state.levels + length * base.levels_way
    s = base.s + length * base.s_way
    # At s = 0 no power holds two pieces of wiring together.
    law = curve.law.scale_power(float(s > 0.0))
    system, before = enter_modes(curve.reducer, law, base.state.modes, amps), inf
    unknowns = system.read_unknowns(amps, levels)
    had = _see_varying(system, system.read_unknowns(base.state.amps, base.state.levels))
    for done in range(_CORRECTIONS):
        law, sights = curve.law.scale_power(s), system.look(unknowns)
        if not _is_upright(law, sights.drawing):
            return None
        right = np.zeros((len(unknowns) + 1, 2))
        right[:-1, 0] = compute_residual(system, law, unknowns, sights)
        right[-1, 1] = 1.0
        if base.critical is not None:
            held = had[base.critical]
            right[-1] = _see_varying(system, unknowns)[base.critical] - (1.0 - length) * held, -held
        try:
            answer = np.asarray(
                np.linalg.solve(_build_bordered(curve, system, law, sights, base.critical), right), dtype=np.float64
            )
        except np.linalg.LinAlgError:
            return None
        step, way = answer[:, 0], answer[:, 1]
        unknowns, s = unknowns - step[:-1], s - float(step[-1])
        sights = system.look(unknowns)
        size = _measure_step(system, unknowns, s, step)
        # Far from the curve: a shorter step will do better than more rounds.
        if not np.isfinite(size) or s < -1.0 or (done > 2 and size > before):
            return None
        large = measure_amps(np.concatenate((unknowns[: len(had)], sights.switching_amps)))
        asked = update_modes(system, sights, large, one_only=done > _CORRECTIONS // 2)
        if asked is not system.fixed.modes or is_regrouped(system, sights):
            amps, levels = system.expand(unknowns)
            system, before = enter_modes(curve.reducer, curve.law, asked, amps), inf
            unknowns = system.read_unknowns(amps, levels)
            continue
        to_come = size * min(1.0, size / before) if before < inf else size
        before = size
        if to_come <= _CLOSE:
            return _make_point(system, unknowns, s, way) if _is_upright(law, sights.drawing) else None
    return None


def _measure_step(system: System, unknowns: Floats, s: float, step: Floats) -> float:
    """The largest part that a step is of what counts as large: for amps, for volts, for s."""
    varying = len(system.frame.varying)
    return max(
        float(np.abs(step[:varying]).max(initial=0.0)) / measure_amps(unknowns[:varying]),
        float(np.abs(step[varying:-1]).max(initial=0.0)) / system.fixed.volts,
        abs(float(step[-1])) / max(abs(s), 1e-3),
    )


def _see_varying(system: System, unknowns: Floats) -> Floats:
    """Volts of loads, weak resistors and regulator inputs."""
    sights = system.look(unknowns)
    return np.concatenate((sights.drawing, sights.inputs))


def _make_point(system: System, unknowns: Floats, s: float, way: Floats) -> Point:
    """A point with the way on from it. way: of the unknowns and s, in the direction of the curve."""
    rise = float(way[-1])
    volts = _see_varying(system, unknowns)
    fall = -(system.reduction.sights_by_u[: volts.size] @ way[:-1]) / np.where(volts == 0.0, 1.0, volts)
    # What no constant power hangs on does not fall by power: its way has no amps in it.
    draws = np.abs(way[: volts.size]) > 0.0
    fall = np.where(draws & (volts > 0.0), fall, -inf)
    critical = int(np.argmax(fall)) if fall.size and fall.max() > _LEAST_FALL else None
    if critical is not None:
        way = way / fall[critical]
    amps, levels = system.expand(unknowns)
    further_amps, further_levels = system.expand(unknowns + way[:-1])
    state = State(amps, levels, system.fixed.modes)
    return Point(state, s, further_amps - amps, further_levels - levels, float(way[-1]), rise, critical)


def _is_upright(law: Law, volts: Floats) -> bool:
    """Whether every constant power has volts the right way round: beyond zero P / V is no part of the curve."""
    return bool((volts[law.power > 0.0] > 0.0).all())


def _build_bordered(curve: Curve, system: System, law: Law, sights: Sights, critical: int | None) -> Floats:
    """The Jacobian with a column for s and a row for what is held: the volts of the critical port, or s."""
    size = system.reduction.sights_by_u.shape[1] + 1
    matrix = np.zeros((size, size))
    matrix[:-1, :-1] = build_jacobian(system, law, sights, positive=False)
    # At s = 0 a load whose supply is dead has no volts: its power has no current that could grow.
    volts = sights.drawing
    live = volts > law.low
    matrix[: volts.size, -1] = np.where(live, -curve.law.power / np.where(live, volts, 1.0), 0.0)
    if critical is None:
        matrix[-1, -1] = 1.0
    else:
        matrix[-1, :-1] = system.reduction.sights_by_u[critical]
    return matrix
