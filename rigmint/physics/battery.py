"""Batteries: discharge curve, charge, and how long a set of them lasts."""

import math
from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

LITHIUM_ION_CURVE = (
    (1.0, 4.20),
    (0.9, 4.05),
    (0.7, 3.87),
    (0.5, 3.73),
    (0.3, 3.62),
    (0.15, 3.50),
    (0.05, 3.30),
    (0.0, 3.00),
)
"""Fraction of charge left and volts of one lithium-ion cell (common practice)."""

STEPS = 64
"""A step of a runtime takes this part of the charge of the cell that empties first."""

_GIVES_NOTHING_AMPS = 1e-9
_STOP_LOCATED = 1e-4
_MOST_STEPS = 64 * STEPS


@dataclass(frozen=True, slots=True)
class DischargeCurve:
    """Volts by fraction of charge left, straight between its points. Built by `stretch_curve`."""

    fractions: tuple[float, ...]
    """Rising, from 0 to 1."""
    volts: tuple[float, ...]
    """Never falling."""

    def find_volts(self, fraction: float) -> float:
        """Open-circuit volts at this fraction left; beyond the ends, the ends."""
        return _interpolate(self.fractions, self.volts, fraction)

    def find_fraction(self, volts: float) -> float:
        """Fraction left at these open-circuit volts; beyond the ends, the ends; on a flat part, its lower end."""
        return _interpolate(self.volts, self.fractions, volts)

    def compute_mean(self) -> float:
        """Mean of the volts over the charge."""
        points = list(zip(self.fractions, self.volts, strict=True))
        return sum((b[0] - a[0]) * (a[1] + b[1]) / 2.0 for a, b in pairwise(points))

    def compute_charge(self, energy: float) -> float:
        """Charge in coulombs of a battery of this energy (joules). Raises ValueError unless energy is above zero."""
        mean = self.compute_mean()
        if not (math.isfinite(energy) and energy > 0.0 and mean > 0.0):
            msg = f"no charge follows from {energy} J at a mean of {mean} V"
            raise ValueError(msg)
        return energy / mean


def stretch_curve(low: float, high: float, points: Sequence[tuple[float, float]] = LITHIUM_ION_CURVE) -> DischargeCurve:
    """A curve of (fraction left, volts) stretched linearly to the range from `low` (empty) to `high` volts (full).

    points: in any order; fractions from 0 to 1, both ends among them; volts that never rise as it empties. Only
    their shape counts. Raises ValueError otherwise.
    """
    ordered = sorted(points)
    fractions = tuple(fraction for fraction, _ in ordered)
    volts = tuple(value for _, value in ordered)
    if not all(math.isfinite(value) for value in (*fractions, *volts, low, high)):
        msg = "a discharge curve is made of numbers"
        raise ValueError(msg)
    if len(set(fractions)) < len(fractions) or fractions[:1] != (0.0,) or fractions[-1:] != (1.0,):
        msg = "a discharge curve runs from 0 to 1 left, with one voltage at each fraction"
        raise ValueError(msg)
    if any(b < a for a, b in pairwise(volts)) or not volts[-1] > volts[0] or not low <= high:
        msg = "a battery's volts fall as it empties"
        raise ValueError(msg)
    span = volts[-1] - volts[0]
    return DischargeCurve(fractions, tuple(low + (value - volts[0]) / span * (high - low) for value in volts))


@dataclass(frozen=True, slots=True)
class Battery:
    """A battery that discharges: its curve, its charge in coulombs, the fraction left at which counting begins."""

    curve: DischargeCurve
    charge: float
    left: float = 1.0


@dataclass(frozen=True, slots=True)
class Draw:
    """What a rig draws at one moment: amps out of each battery, and whether all that it feeds works."""

    amps: tuple[float, ...]
    works: bool = True


class Stop(Enum):
    """Why a runtime ends."""

    CHANGE = "a battery is at its change"
    FAILED = "something no longer works"
    NO_CURRENT = "no battery gives current"


@dataclass(frozen=True, slots=True)
class Runtime:
    """How long a set of batteries lasts together.

    seconds: until the stop, for each battery; None for one that gave no current at any step.
    left, volts: fraction left and open-circuit volts of each at the stop.
    trace: seconds and the open-circuit volts of each, at the start and after each step.
    """

    seconds: tuple[float | None, ...]
    left: tuple[float, ...]
    volts: tuple[float, ...]
    stop: Stop
    trace: tuple[tuple[float, tuple[float, ...]], ...]

    @property
    def steps(self) -> int:
        """How many steps it took."""
        return len(self.trace) - 1


def discharge(batteries: Sequence[Battery], draw: Callable[[tuple[float, ...]], Draw], change_at: float) -> Runtime:
    """Discharge batteries together until one is down to `change_at` left, or until something stops working.

    draw: amps out of each battery (below zero: it is charged) at these open-circuit volts, asked once a step and
    while a stop is located.

    A step: the battery that empties first, i.e. with the least charge left an amp, gives 1/64 of its whole charge,
    less where that would take any battery past `change_at`. Every other gives in proportion to its current at the start
    of the step. The step's time is its charge times the mean of 1/I of that battery at the step's start and end (by
    trapezoid; its start's 1/I alone where it gives none at the end). A battery at `change_at` to begin with ends it
    at once. Where the end of a step does not work, the step is cut by bisection to the last part of it that does,
    to 1e-4 of the step. A battery that is charged is never fuller than full.
    Raises ValueError where `change_at` is not a fraction or a battery has no charge.
    """
    if not 0.0 <= change_at <= 1.0:
        msg = f"batteries are changed at a fraction left from 0 to 1, not {change_at}"
        raise ValueError(msg)
    if any(not battery.charge > 0.0 for battery in batteries):
        msg = "a battery's charge must be above zero"
        raise ValueError(msg)
    left = tuple(battery.left for battery in batteries)
    now = draw(_find_volts(batteries, left))
    gave = [amps > _GIVES_NOTHING_AMPS for amps in now.amps]
    seconds = 0.0
    trace = [(seconds, _find_volts(batteries, left))]
    while True:
        stop = _find_stop(now, left, change_at)
        if stop is not None or len(trace) > _MOST_STEPS:
            break
        first = _find_first(batteries, now.amps, left)
        part = min(1.0 / STEPS, _find_part_to_change(batteries, now.amps, left, first, change_at))
        end = _advance(batteries, now.amps, left, first, part)
        then = draw(_find_volts(batteries, end))
        if not then.works:
            part, end, then = _cut_step(batteries, draw, now, left, first, part)
        seconds += part * batteries[first].charge * _average_inverse(now.amps[first], then.amps[first])
        if not then.works:
            stop = Stop.FAILED
        left, now = end, then
        trace.append((seconds, _find_volts(batteries, left)))
        gave = [before or amps > _GIVES_NOTHING_AMPS for before, amps in zip(gave, now.amps, strict=True)]
        if stop is not None:
            break
    return Runtime(
        tuple(seconds if each else None for each in gave),
        left,
        _find_volts(batteries, left),
        stop or Stop.NO_CURRENT,
        tuple(trace),
    )


def _find_stop(now: Draw, left: tuple[float, ...], change_at: float) -> Stop | None:
    if not now.works:
        return Stop.FAILED
    giving = [fraction for fraction, amps in zip(left, now.amps, strict=True) if amps > _GIVES_NOTHING_AMPS]
    if not giving:
        return Stop.NO_CURRENT
    return Stop.CHANGE if min(giving) <= change_at + 1e-12 else None


def _find_first(batteries: Sequence[Battery], amps: tuple[float, ...], left: tuple[float, ...]) -> int:
    """The battery that is empty first if the amps stay."""
    lasts = [
        fraction * battery.charge / current if current > _GIVES_NOTHING_AMPS else math.inf
        for battery, current, fraction in zip(batteries, amps, left, strict=True)
    ]
    return lasts.index(min(lasts))


def _find_part_to_change(
    batteries: Sequence[Battery],
    amps: tuple[float, ...],
    left: tuple[float, ...],
    first: int,
    change_at: float,
) -> float:
    """The part of the charge of `first` that is given when a battery comes down to `change_at`."""
    seconds = min(
        (fraction - change_at) * battery.charge / current
        for battery, current, fraction in zip(batteries, amps, left, strict=True)
        if current > _GIVES_NOTHING_AMPS
    )
    return seconds * amps[first] / batteries[first].charge


def _advance(
    batteries: Sequence[Battery], amps: tuple[float, ...], left: tuple[float, ...], first: int, part: float
) -> tuple[float, ...]:
    """Fractions left after `first` gave `part` of its charge."""
    seconds = part * batteries[first].charge / amps[first]
    moved = (
        fraction - current * seconds / battery.charge
        for battery, current, fraction in zip(batteries, amps, left, strict=True)
    )
    return tuple(min(1.0, max(0.0, fraction)) for fraction in moved)


def _cut_step(
    batteries: Sequence[Battery],
    draw: Callable[[tuple[float, ...]], Draw],
    now: Draw,
    left: tuple[float, ...],
    first: int,
    part: float,
) -> tuple[float, tuple[float, ...], Draw]:
    """The part of a step, the fractions left and the draw just where something stops working."""
    holds, fails = 0.0, part
    end = _advance(batteries, now.amps, left, first, fails)
    while fails - holds > _STOP_LOCATED * part:
        middle = (holds + fails) / 2.0
        at = _advance(batteries, now.amps, left, first, middle)
        if draw(_find_volts(batteries, at)).works:
            holds, end = middle, at
        else:
            fails = middle
    if holds == 0.0:
        end = left
    last = draw(_find_volts(batteries, end)) if holds > 0.0 else now
    return holds, end, Draw(last.amps, works=False)


def _average_inverse(before: float, after: float) -> float:
    if after <= _GIVES_NOTHING_AMPS:
        return 1.0 / before
    return (1.0 / before + 1.0 / after) / 2.0


def _find_volts(batteries: Sequence[Battery], left: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(battery.curve.find_volts(fraction) for battery, fraction in zip(batteries, left, strict=True))


def _interpolate(xs: tuple[float, ...], ys: tuple[float, ...], x: float) -> float:
    if x <= xs[0]:
        return ys[0]
    if x >= xs[-1]:
        return ys[-1]
    above = bisect_left(xs, x)
    x0, x1 = xs[above - 1], xs[above]
    return ys[above - 1] + (ys[above] - ys[above - 1]) * (x - x0) / (x1 - x0)
