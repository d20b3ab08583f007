"""Power on the sheet: a row a port that takes power, and the discharge as a plot with the change-over marked."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rigmint.lint.wording import say_amps, say_minutes, say_volts
from rigmint.rig.rig import PortRef, Setup
from rigmint.study.discharge_course import find_course
from rigmint.study.power import Point, Power
from rigmint.study.studies import Studies

_CARRIES_AMPS = 5e-4
TELLING_VOLTS = 0.1
"""V by which a port must fall for the crew to work by it: behind a regulator, or on a supply, it does not."""
_BURNS = "This wiring destroys something: do not work by these figures."
_WIDTH, _HEIGHT = 560, 200
_LEFT, _RIGHT, _TOP, _BOTTOM = 56, 16, 16, 40
_MOST_TICKS = 6
_STEPS = (0.05, 0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 5.0)
_MINUTE_STEPS = (5, 10, 15, 30, 60, 120, 240, 480, 960)


@dataclass(frozen=True, slots=True)
class PortRow:
    """A port that takes power: volts at the three points (empty without a solution), amps at typical, window."""

    place: str
    says: str
    volts: tuple[str, ...]
    amps: str
    window: str
    is_outside: bool


@dataclass(frozen=True, slots=True)
class Tick:
    """A line of the plot's grid and its figure."""

    at: float
    says: str


@dataclass(frozen=True, slots=True)
class Plot:
    """What the port by which the crew works shows over time; pixels of a drawing of `width` by `height`."""

    width: int
    height: int
    left: float
    right: float
    top: float
    bottom: float
    line: str
    end: tuple[float, float]
    across: tuple[Tick, ...]
    up: tuple[Tick, ...]
    says: str


@dataclass(frozen=True, slots=True)
class PowerView:
    """One setup. `warns`: what keeps its figures from being worked by."""

    setup: str
    rows: tuple[PortRow, ...]
    plot: Plot | None
    warns: str


def gather_power(studies: Studies, setup: Setup) -> PowerView:
    """The section of one setup."""
    power = studies.whole_power(setup)
    collapsed = [point.value for point in Point if power.points[point].collapsed]
    warns = _BURNS if studies.worst_volts(setup).burns() else ""
    if collapsed:
        warns = f"The supply collapses at {' and '.join(collapsed)}. {warns}".strip()
    return PowerView(setup.name, _list_rows(studies, power), _draw_plot(studies, setup), warns)


def _list_rows(studies: Studies, power: Power) -> tuple[PortRow, ...]:
    rig = studies.rig
    typical = power.points[Point.TYPICAL].ports
    rows = []
    for ref, port in typical.items():
        if port.amps <= _CARRIES_AMPS:
            continue
        works = rig.port(ref).works
        volts = [power.points[point].ports.get(ref) for point in Point]
        outside = works is not None and any(one is not None and not works.holds(one.volts) for one in volts)
        rows.append(
            PortRow(
                place=ref.place,
                says=f"{ref.item}, {rig.port(ref).says}",
                volts=tuple(say_volts(one.volts) if one is not None else "" for one in volts),
                amps=say_amps(port.amps),
                window=_say_window(studies, ref),
                is_outside=outside,
            )
        )
    return tuple(rows)


def _say_window(studies: Studies, ref: PortRef) -> str:
    port = studies.rig.port(ref)
    if port.works is None:
        return ""
    return f"{'~' if 'works' in port.assumed else ''}{port.works.low:g} to {port.works.high:g} V"


def _draw_plot(studies: Studies, setup: Setup) -> Plot | None:
    power, runtime = studies.whole_power(setup), studies.runtime(setup)
    ref = next(iter(runtime.change_volts), None)
    course = find_course(power, runtime, studies.house, ref) if ref is not None else ()
    volts = [value for _, value in course]
    if ref is None or len(course) < 2 or max(volts) - min(volts) < TELLING_VOLTS:
        return None
    if not hangs_on_battery(studies, setup, ref):
        return None
    most_seconds, last = course[-1]
    step = _choose_step(max(volts) - min(volts), _STEPS)
    low, high = math.floor(min(volts) / step) * step, math.ceil(max(volts) / step) * step
    high = high if high > low else low + step
    minutes = most_seconds / 60
    if minutes <= 0:
        return None
    minute_step = _choose_step(minutes, _MINUTE_STEPS)

    def place(seconds: float, value: float) -> tuple[float, float]:
        x = _LEFT + (_WIDTH - _LEFT - _RIGHT) * seconds / most_seconds
        y = _TOP + (_HEIGHT - _TOP - _BOTTOM) * (high - value) / (high - low)
        return round(x, 1), round(y, 1)

    points = [place(seconds, value) for seconds, value in course]
    return Plot(
        width=_WIDTH,
        height=_HEIGHT,
        left=_LEFT,
        right=_WIDTH - _RIGHT,
        top=_TOP,
        bottom=_HEIGHT - _BOTTOM,
        line=" ".join(f"{x:g},{y:g}" for x, y in points),
        end=points[-1],
        across=tuple(
            Tick(place(60 * minute_step * index, high)[0], _say_ticks(minute_step * index))
            for index in range(int(minutes // minute_step) + 1)
        ),
        up=tuple(
            Tick(place(0.0, low + step * index)[1], f"{low + step * index:g} V")
            for index in range(round((high - low) / step) + 1)
        ),
        says=(
            f"{ref.place} at typical load, from {say_volts(volts[0])} with full batteries to {say_volts(last)} at the"
            f" change-over after {say_minutes(most_seconds)}."
        ),
    )


def hangs_on_battery(studies: Studies, setup: Setup, ref: PortRef) -> bool:
    """Whether what puts its volts on a port empties."""
    high = studies.nominal_volts(setup).ports[ref].high
    return high is not None and high.source.cell.is_battery


def _choose_step(span: float, steps: tuple[float, ...]) -> float:
    return next((step for step in steps if span / step <= _MOST_TICKS), steps[-1])


def _say_ticks(minutes: float) -> str:
    hours, rest = divmod(round(minutes), 60)
    return f"{hours}:{rest:02d}"
