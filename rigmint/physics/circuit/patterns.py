"""Which regulators are on: among the consistent patterns, the one with most of them on.

A pattern is consistent if each regulator that is on has its input inside `takes` and each that is off has not.
Switching a regulator off takes load away and so raises the inputs of all others, except of those that it feeds. So
whoever is out of its window although everybody else who complains is off can be on in no pattern; and a pattern in
which somebody is off and inside its window is not mended by switching more off, unless they feed it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from heapq import heappop, heappush

import numpy as np

from rigmint.physics.circuit.arrays import Bools, Floats
from rigmint.physics.circuit.errors import Collapse, SolveFailed
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.settle import Settled
from rigmint.physics.circuit.unite import unite_pairs

_WINDOW_SLACK = 1e-9
_MOST_PATTERNS = 2000

Settle = Callable[[Bools], Settled]


@dataclass(frozen=True, slots=True)
class Window:
    """The range of input volts of each regulator."""

    low: Floats
    high: Floats

    def holds(self, volts: Floats) -> Bools:
        """Which inputs are inside."""
        return (volts >= self.low * (1.0 - _WINDOW_SLACK)) & (volts <= self.high * (1.0 + _WINDOW_SLACK))

    def close(self, closed: Bools) -> "Window":
        """The same with the windows of these regulators closed to any volts."""
        return Window(np.where(closed, np.inf, self.low), self.high)


@dataclass(frozen=True, slots=True)
class Pattern:
    """A pattern of regulators and its solution."""

    on: Bools
    settled: Settled

    def find_out(self, frame: Frame, window: Window) -> Bools:
        """Regulators that are on outside their window."""
        return self.on & ~window.holds(self.settled.volts[frame.input])

    def find_in(self, frame: Frame, window: Window) -> Bools:
        """Regulators that are off inside their window."""
        return ~self.on & window.holds(self.settled.volts[frame.input])


def find_pattern(frame: Frame, window: Window, may: Bools, settle: Settle) -> Pattern:
    """The consistent pattern with most regulators on, among those that `may` be.

    Raises Collapse, naming the regulators that can be neither on nor off, and SolveFailed where there are too many
    patterns to try.
    """
    pattern = Pattern(may, settle(may))
    while True:
        out = pattern.find_out(frame, window)
        if not out.any():
            break
        others_off = Pattern(pattern.on & ~out, settle(pattern.on & ~out))
        never = out & ~window.holds(others_off.settled.volts[frame.input])
        if not never.any():
            never = _find_unable_alone(frame, window, others_off.on, out, settle)
            if not never.any():
                break
        on = pattern.on & ~never
        pattern = others_off if (on == others_off.on).all() else Pattern(on, settle(on))
    if pattern.find_out(frame, window).any() or pattern.find_in(frame, window).any():
        return _search_patterns(frame, window, pattern, settle)
    return pattern


def _find_unable_alone(frame: Frame, window: Window, others: Bools, out: Bools, settle: Settle) -> Bools:
    """Those of `out` that are out of their window even if they alone of them are on beside the `others`."""
    unable = np.zeros_like(out)
    if int(out.sum()) == 1:
        return unable
    for index in np.flatnonzero(out).tolist():
        on = others.copy()
        on[index] = True
        unable[index] = Pattern(on, settle(on)).find_out(frame, window)[index]
    return unable


def _search_patterns(frame: Frame, window: Window, top: Pattern, settle: Settle) -> Pattern:
    """Best first from the pattern with most on, switching off one of those outside their window at a time."""
    queue: list[tuple[int, int, tuple[bool, ...]]] = []
    seen: set[tuple[bool, ...]] = set()
    heappush(queue, (int((~top.on).sum()), 0, tuple(top.on.tolist())))
    upstream = find_upstream(frame)
    named = tuple(np.flatnonzero(top.find_out(frame, window) | top.find_in(frame, window)).tolist())
    while queue:
        _, _, key = heappop(queue)
        if key in seen:
            continue
        if len(seen) >= _MOST_PATTERNS:
            msg = f"more than {_MOST_PATTERNS} patterns of regulators on and off"
            raise SolveFailed(msg)
        seen.add(key)
        on = np.array(key, dtype=np.bool_)
        pattern = top if (on == top.on).all() else Pattern(on, settle(on))
        out, wrongly_off = pattern.find_out(frame, window), pattern.find_in(frame, window)
        if not out.any() and not wrongly_off.any():
            return pattern
        if any(not (upstream[index] & out).any() for index in np.flatnonzero(wrongly_off).tolist()):
            continue
        for index in np.flatnonzero(out).tolist():
            fewer = on.copy()
            fewer[index] = False
            heappush(queue, (int((~fewer).sum()), len(seen), tuple(fewer.tolist())))
    names = ", ".join(str(index) for index in named)
    msg = f"regulator {names} can be neither on nor off"
    raise Collapse(msg, regulators=named)


def find_upstream(frame: Frame) -> list[Bools]:
    """For each regulator, which regulators feed it: straight, through diodes and cells, and through each other."""
    passing = [*range(frame.cell.start, frame.cell.stop), *range(frame.diode.start, frame.diode.stop)]
    pairs = [(int(frame.piece_a[port]), int(frame.piece_b[port])) for port in passing]
    rail = np.array(unite_pairs(len(frame.piece_rank), pairs), dtype=np.intp)
    inputs, outputs = rail[frame.piece_a[frame.input]], rail[frame.piece_a[frame.output]]
    feeds = inputs[:, None] == outputs[None, :]
    while True:
        further = feeds | (feeds @ feeds)
        if (further == feeds).all():
            return list(feeds)
        feeds = further
