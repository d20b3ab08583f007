"""The solution of highest voltage of a frame under a law, with the pattern of regulators given.

Without load every port stands at the highest volts that it can have. From there Newton's iteration comes down upon
the highest solution, because the current of a constant power is a convex function of its volts. Where it lands with
a load under its window, a regulator at its limit or under its input, it may have jumped past a higher solution; the
same way is then walked in small sure steps, counting P / V as a conductance above zero, and its end is what stands.
"""

from dataclasses import dataclass, replace

import numpy as np

from rigmint.physics.circuit.arrays import Bools, Floats, Ints
from rigmint.physics.circuit.errors import SolveFailed
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.law import Law, find_drawing, fix_law
from rigmint.physics.circuit.modes import HOLDING, LIMITED, OPEN, Modes
from rigmint.physics.circuit.newton import State, iterate
from rigmint.physics.circuit.reach import find_fed_diodes
from rigmint.physics.circuit.reduction import Reducer
from rigmint.physics.circuit.system import compute_port_volts, measure_amps

_NEWTON_ROUNDS = 30
_UNLOADED_ROUNDS = 200
_WALK_ROUNDS = 600
_WALKED = 1e-4
"""A walk of steps as small as this, against the circuit's volts and amps, is near enough for Newton's iteration."""

_WINDOW_SLACK = 1e-9
_IDLE = 1e-9
"""A diode that carries less than this part of the circuit's amps carries nothing."""


@dataclass(frozen=True, slots=True)
class Settled:
    """A solution, and the volts across each port without load: no solution is above them."""

    state: State
    volts: Floats
    unloaded: State


@dataclass(frozen=True, slots=True)
class Sag:
    """Ports in a state that a higher solution may not have."""

    under_window: Bools
    limited: Bools
    under_input: Bools

    def any(self) -> bool:
        """Whether there is one at all."""
        return bool(self.under_window.any() or self.limited.any() or self.under_input.any())

    def equals(self, other: "Sag") -> bool:
        """Whether both name the same ports."""
        return (
            np.array_equal(self.under_window, other.under_window)
            and np.array_equal(self.limited, other.limited)
            and np.array_equal(self.under_input, other.under_input)
        )


def find_sag(frame: Frame, law: Law, state: State, volts: Floats) -> Sag:
    """Loads under their window, regulators at their limit, regulators that are on under their input."""
    low = np.where(np.isinf(law.low), 0.0, law.low)
    draws = (law.power > 0.0) | (law.current > 0.0)
    return Sag(
        draws & (volts[frame.drawing] < low * (1.0 - _WINDOW_SLACK)),
        state.modes.outputs == LIMITED,
        law.on & (volts[frame.input] < law.input_low * (1.0 - _WINDOW_SLACK)),
    )


def unload(reducer: Reducer, law: Law) -> State:
    """The solution with no loads and regulators that draw nothing. Raises SolveFailed."""
    frame, bare = reducer.frame, law.unload()
    modes = Modes(
        find_fed_diodes(frame, bare),
        np.where(law.on, HOLDING, OPEN).astype(np.int8),
    )
    start = State(np.zeros(frame.ports), np.zeros(len(frame.piece_rank)), modes)
    state = iterate(reducer, bare, start, rounds=_UNLOADED_ROUNDS)
    if state is None:
        msg = "no solution found without loads"
        raise SolveFailed(msg)
    return replace(state, held=None)


def settle(reducer: Reducer, law: Law, unloaded: State) -> Settled:
    """The highest solution, coming down from the unloaded one. Raises SolveFailed."""
    frame = reducer.frame
    ceiling = compute_port_volts(frame, unloaded.amps, unloaded.levels)
    start = connect_loads(frame, law, unloaded)
    quick = iterate(reducer, law, start, rounds=_NEWTON_ROUNDS)
    if quick is not None:
        volts = compute_port_volts(frame, quick.amps, quick.levels)
        if not _has_fallen(find_sag(frame, law, quick, volts), find_sag(frame, law, unloaded, ceiling)):
            return _finish(reducer, law, quick, unloaded)
    walked = _walk_down(reducer, law, start) or quick
    if walked is None:
        msg = "the iteration found no solution"
        raise SolveFailed(msg)
    return _finish(reducer, law, walked, unloaded)


def _finish(reducer: Reducer, law: Law, state: State, unloaded: State) -> Settled:
    released = release_idle_diodes(reducer, law, state)
    return Settled(released, compute_port_volts(reducer.frame, released.amps, released.levels), unloaded)


def release_idle_diodes(reducer: Reducer, law: Law, state: State) -> State:
    """The same solution with no diode that carries nothing lifting or lowering what it does not feed.

    Such a diode conducts or not with equal right. It does if what hangs on it, left to itself at zero, would draw
    current through it.
    """
    frame = reducer.frame
    idle = find_idle_diodes(frame, state.amps, state.modes)
    if not idle.any():
        return state
    reference = find_opened_reference(reducer, law, state, idle)
    volts = compute_port_volts(frame, state.amps, state.levels - state.levels[reference])[frame.diode]
    if (volts[idle] > law.drop[idle]).all():
        return state
    start = replace(state, modes=replace(state.modes, conducting=state.modes.conducting & ~idle), held=None)
    released = iterate(reducer, law, start, rounds=_NEWTON_ROUNDS)
    # The solution is one either way: where opening them leads nowhere, they stay.
    return released or iterate(reducer, law, start, rounds=_WALK_ROUNDS, positive=True) or state


def find_idle_diodes(frame: Frame, amps: Floats, modes: Modes) -> Bools:
    """The diodes that conduct and carry nothing; amps: into all ports."""
    return np.asarray(modes.conducting & (amps[frame.diode] <= _IDLE * measure_amps(amps)))


def find_opened_reference(reducer: Reducer, law: Law, state: State, idle: Bools) -> Ints:
    """The reference of each piece's island once these diodes are open."""
    without = replace(state.modes, conducting=state.modes.conducting & ~idle)
    drawing = find_drawing(law, state.amps[reducer.frame.output])
    return reducer.find_islands(fix_law(reducer.frame, law, without), drawing)[0]


def _has_fallen(sag: Sag, without_load: Sag) -> bool:
    """Whether load brought a sag about: what sags without load sags in every solution."""
    return bool(
        (sag.under_window & ~without_load.under_window).any()
        or sag.limited.any()
        or (sag.under_input & ~without_load.under_input).any()
    )


def connect_loads(frame: Frame, law: Law, unloaded: State) -> State:
    """The unloaded state with those diodes conducting that only a load feeds: one in a load's return."""
    if unloaded.modes.conducting.all():
        return unloaded
    through_loads = find_fed_diodes(frame, law) & ~find_fed_diodes(frame, law.unload())
    return replace(unloaded, modes=replace(unloaded.modes, conducting=unloaded.modes.conducting | through_loads))


def _walk_down(reducer: Reducer, law: Law, start: State) -> State | None:
    near = iterate(reducer, law, start, rounds=_WALK_ROUNDS, positive=True, close=_WALKED)
    if near is None:
        return None
    there = iterate(reducer, law, replace(near, held=None), rounds=_NEWTON_ROUNDS)
    if there is not None and _is_near(reducer.frame, near, there):
        return there
    return iterate(reducer, law, near, rounds=_WALK_ROUNDS, positive=True)


def _is_near(frame: Frame, walked: State, polished: State) -> bool:
    """Whether the polish stayed with the solution that the walk was coming to."""
    before = compute_port_volts(frame, walked.amps, walked.levels)
    after = compute_port_volts(frame, polished.amps, polished.levels)
    return float(np.abs(before - after).max(initial=0.0)) <= 0.05 * max(float(np.abs(before).max(initial=0.0)), 1e-3)
