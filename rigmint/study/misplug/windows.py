"""Items that lose the volts they work on by a mistake, or are lifted above them for good."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from rigmint.rig.electric import Role
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.electronics import has_electronics, wants_volts
from rigmint.study.misplug.judge import Judge, PowerRow, measure
from rigmint.study.misplug.wired import Spread, Touched


@dataclass(frozen=True, slots=True)
class _Working:
    """The items that some source brings to the lower end of what they work on; and those that state no load and get
    any volts at all."""

    in_window: frozenset[str]
    fed: frozenset[str]


class Windows:
    """What the inputs of one wiring get."""

    def __init__(self, rig: Rig, off: frozenset[str], judge: Judge, base: Spread) -> None:
        self._off = off
        self._unrated = frozenset(name for name, item in rig.items.items() if wants_volts(item.part))
        self._electronic = frozenset(name for name, item in rig.items.items() if has_electronics(item.part))
        self._base = {row.ref: _measure_high(base, row) for row in judge.power if row.port.role is not Role.OUT}
        self._working = self._find_working(judge, self._base)

    def list_starved(self, judge: Judge, touched: Touched, nominal: Callable[[], Spread]) -> frozenset[str]:
        """The items that got volts to work on and do not any more, or are above their window for good. `nominal`: the
        spread with each source at its nominal, asked for only where it matters."""
        rows = [row for row in judge.power if row.ref in self._base and not row.nodes.isdisjoint(touched.nodes)]
        if not rows:
            return frozenset()
        now = self._base | {row.ref: _measure_high(touched.spread, row) for row in rows}
        working = self._find_working(judge, now)
        lost = (self._working.in_window - working.in_window) | (self._working.fed - working.fed)
        lifted = [row for row in rows if self._is_above(row, now) and not self._is_above(row, self._base)]
        if lifted:
            lasting = {row.ref: _measure_high(nominal(), row) for row in lifted}
            lost |= {row.ref.item for row in lifted if self._is_above(row, lasting)}
        return lost - self._off

    def _find_working(self, judge: Judge, volts: Mapping[PortRef, float | None]) -> _Working:
        in_window, fed = set(), set()
        for row in judge.power:
            high = volts.get(row.ref)
            if high is None:
                continue
            if row.port.works is not None and high >= row.port.works.low:
                in_window.add(row.ref.item)
            if row.ref.item in self._unrated:
                fed.add(row.ref.item)
        return _Working(frozenset(in_window), frozenset(fed))

    def _is_above(self, row: PowerRow, volts: Mapping[PortRef, float | None]) -> bool:
        high, works = volts[row.ref], row.port.works
        return high is not None and works is not None and high > works.high and row.ref.item in self._electronic


def _measure_high(spread: Spread, row: PowerRow) -> float | None:
    live = [reach for reach in spread.reaches if reach.shorted is None]
    return measure(spread, live, row)[0]
