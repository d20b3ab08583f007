"""Newton's iteration on a frame, with modes that change on the way."""

from dataclasses import dataclass
from math import inf, isfinite

import numpy as np

from rigmint.physics.circuit.arrays import Floats
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.law import Law
from rigmint.physics.circuit.modes import Modes
from rigmint.physics.circuit.reduction import Reducer
from rigmint.physics.circuit.system import (
    build_jacobian,
    compute_residual,
    compute_stray_amps,
    enter_modes,
    is_regrouped,
    measure_amps,
    update_modes,
)

_CLOSE = 1e-10
"""An iteration ends when what is still to come is this part of the circuit's amps and volts."""

STALLED = 1e-7
"""Where rounding stops the steps from shrinking they must at least be this small; energy balance decides then."""

_HOLD = 0.1
"""The same inverse serves as long as each step is at most this part of the one before."""

_ONE_AT_A_TIME_AFTER = 10


@dataclass(frozen=True, slots=True)
class Held:
    """An inverse Jacobian with its row scale, and what it was made for."""

    inverse: Floats
    row_scale: Floats
    key: bytes


@dataclass(frozen=True, slots=True)
class State:
    """Where an iteration stands: amps into the ports, levels of the pieces, modes."""

    amps: Floats
    levels: Floats
    modes: Modes
    held: Held | None = None
    rounds: int = 0


def iterate(
    reducer: Reducer,
    law: Law,
    start: State,
    *,
    rounds: int,
    positive: bool = False,
    close: float = _CLOSE,
) -> State | None:
    """Solve a frame under a law from `start`. None if it did not get there within so many rounds.

    positive: see build_jacobian.
    """
    with np.errstate(all="ignore"):  # An iteration that runs away ends by its step that is not finite.
        return _iterate(reducer, law, start, rounds, positive, close)


def _iterate(reducer: Reducer, law: Law, start: State, rounds: int, positive: bool, close: float) -> State | None:
    frame = reducer.frame
    varying = len(frame.varying)
    held, before = start.held, inf
    system = enter_modes(reducer, law, start.modes, start.amps)
    unknowns = system.read_unknowns(start.amps, start.levels)
    sights = system.look(unknowns)
    for done in range(rounds):
        residual = compute_residual(system, law, unknowns, sights)
        if positive or held is None or held.key != system.reduction.key:
            jacobian = build_jacobian(system, law, sights, positive=positive)
            held = invert_jacobian(jacobian, varying, system.reduction.key)
            if held is None:
                return None
        step = held.inverse @ (held.row_scale * residual)
        unknowns = unknowns - step
        sights = system.look(unknowns)
        # Switching ports carry what the others add up to, at most.
        large = measure_amps(np.concatenate((unknowns[:varying], sights.switching_amps)))
        size = float(np.abs(step[varying:]).max(initial=0.0)) / system.fixed.volts
        size = max(float(np.abs(step[:varying]).max(initial=0.0)) / large, size)
        if not isfinite(size):
            return None
        asked = update_modes(system, sights, large, one_only=done >= _ONE_AT_A_TIME_AFTER)
        if asked is not system.fixed.modes or is_regrouped(system, sights):
            amps, levels = system.expand(unknowns)
            system, before = enter_modes(reducer, law, asked, amps), inf
            unknowns = system.read_unknowns(amps, levels)
            sights = system.look(unknowns)
            continue
        # Steps shrink at least as fast as the last two did, so the next one would be about size² / before.
        to_come = size * min(1.0, size / before) if before < inf else size
        if to_come <= close or (size <= STALLED and done > _ONE_AT_A_TIME_AFTER):
            amps, levels = system.expand(unknowns)
            if _adds_up(frame, amps):
                return State(amps, levels, system.fixed.modes, held, start.rounds + done + 1)
        if size > _HOLD * before:
            held = None
        before = size
    return None


def _adds_up(frame: Frame, amps: Floats) -> bool:
    """Whether the currents of every piece of wiring add up, those of the references among them."""
    return float(np.abs(compute_stray_amps(frame, amps)).max(initial=0.0)) <= STALLED * measure_amps(amps)


def invert_jacobian(jacobian: Floats, ports: int, key: bytes) -> Held | None:
    """Its inverse, or None where it has none. Rows of ports are scaled: a load of gigawatts is beside one of watts."""
    row_scale = np.ones(len(jacobian))
    if ports:
        row_scale[:ports] = 1.0 / np.maximum(1.0, np.abs(jacobian[:ports]).max(axis=1))
    try:
        inverse = np.asarray(np.linalg.inv(jacobian * row_scale[:, None]), dtype=np.float64)
    except np.linalg.LinAlgError:
        return None
    return Held(inverse, row_scale, key)
