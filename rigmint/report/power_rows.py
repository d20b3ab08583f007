"""The rows of the trees: a port in each, with its volts at the three points, its bar, its amps and its lead."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigmint.graph.pins import Source
from rigmint.report.layout import show_tenths
from rigmint.report.power_bar import NARROW, WIDE, draw_bar, name_outside
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.rig.electric import Window
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.power import Point, Power
from rigmint.study.power_tree import Branch, SourceTree
from rigmint.words import Grade

_VOLTS = 8
_EDGE = 5
_AMPS = 6
_GAP = "  "
_OUTSIDE = "!"


@dataclass(frozen=True, slots=True)
class _Columns:
    """Widths that fit; a bar of no width is left out."""

    indent: int
    name: int
    bar: int
    lead: int

    @property
    def window(self) -> int:
        """Of the bar with the ends of the window beside it."""
        return self.bar + 2 * (_EDGE + 1) if self.bar else 0


@dataclass(frozen=True, slots=True)
class _Rows:
    rig: Rig
    power: Power
    point: Point
    columns: _Columns
    style: Style

    def lay_head(self, name: str) -> list[str]:
        columns = self.columns
        volts = "".join(f"{point.value:>{_VOLTS - 1}} " for point in Point)
        parts = [volts, f"in its window at {self.point.value}".center(columns.window) if columns.bar else ""]
        parts += ["amps".rjust(_AMPS), "lead" if columns.lead else ""]
        return self._join(clean(name), parts)

    def lay_source(self, tree: SourceTree) -> list[str]:
        place = tree.source.place
        volts = [found.sources[place].volts if found.solved else None for found in self.power.points.values()]
        amps = self.power.points[self.point].sources[place].amps
        of, is_over = _say_most(tree.source, amps)
        parts = ["".join(self._show_volts(value, None) for value in volts), self._show_watts(place)]
        parts += [show_tenths(amps).rjust(_AMPS), self.style.paint(of, Grade.DEAD) if is_over else of]
        return self._join(clean(place), parts)

    def _show_watts(self, place: str) -> str:
        """W at typical and at the point shown, in the room of a bar."""
        points = [point for point in dict.fromkeys((Point.TYPICAL, self.point)) if self.power.points[point].solved]
        told = [f"{round(self.power.points[point].sources[place].watts)} W" for point in points]
        if points[0] is Point.TYPICAL:
            told[0] += " typical" if len(points) == 1 else ""
        text = told[0] if len(points) == 1 else f"{told[0]}, {told[1]} at {self.point.value}"
        return text.ljust(self.columns.window) if len(text) <= self.columns.window else " " * self.columns.window

    def lay_branch(self, branch: Branch) -> list[str]:
        place = clean(branch.ref.place)
        indent = min(self.columns.indent * (branch.depth + 1), max(1, self.columns.name - len(place)))
        name = " " * indent + place
        if branch.above:
            return self._join(name, ["above, fed from here too"])
        ref = branch.ref
        works = self.rig.port(ref).works
        points = self.power.points.values()
        volts = "".join(self._show_volts(one.ports[ref].volts if one.solved else None, works) for one in points)
        amps = abs(self.power.points[self.point].ports[ref].amps)
        parts = [volts, self._show_window(ref, works), show_tenths(amps).rjust(_AMPS), clean(branch.lead or "")]
        return self._join(name, parts)

    def _show_volts(self, volts: float | None, works: Window | None) -> str:
        if volts is None:
            return f"{'-':>{_VOLTS - 1}} "
        is_outside = works is not None and bool(name_outside(volts, works))
        text = f"{show_tenths(volts)}{_OUTSIDE if is_outside else ' '}".rjust(_VOLTS)
        return self.style.paint(text, Grade.DEAD) if is_outside else text

    def _show_window(self, ref: PortRef, works: Window | None) -> str:
        if works is None or not self.columns.bar:
            return " " * self.columns.window
        volts = self.power.points[self.point].ports[ref].volts
        tilde = "~" if "works" in self.rig.port(ref).assumed else ""
        low, high = f"{tilde}{works.low:g}"[:_EDGE], f"{tilde}{works.high:g}"[:_EDGE]
        bar = draw_bar(volts, works, self.columns.bar, self.style)
        painted = self.style.paint(bar, Grade.DEAD) if name_outside(volts, works) else bar
        return f"{low:>{_EDGE}} {painted} {high:<{_EDGE}}"

    def _join(self, name: str, parts: Sequence[str]) -> list[str]:
        """One line, or two where the name is longer than its column."""
        rest = _GAP.join(part for part in parts if part).rstrip()
        if len(name) <= self.columns.name:
            return [f"{name:<{self.columns.name}}{_GAP}{rest}".rstrip()]
        return [name, f"{'':<{self.columns.name}}{_GAP}{rest}".rstrip()]


def lay_trees(rig: Rig, name: str, power: Power, point: Point, trees: Sequence[SourceTree], style: Style) -> list[str]:
    """A head line with the setup's name, then each source and its ports. Amps and bars are those of `point`."""
    amps = {place: source.amps for place, source in power.points[point].sources.items()}
    last = [_say_most(tree.source, amps[tree.source.place])[0] for tree in trees]
    last += [clean(branch.lead or "") for tree in trees for branch in tree.branches]
    columns = _fit_columns(name, trees, max(map(len, last), default=0), style.width)
    rows = _Rows(rig, power, point, columns, style)
    lines = rows.lay_head(name)
    for tree in trees:
        lines += rows.lay_source(tree)
        for branch in tree.branches:
            lines += rows.lay_branch(branch)
    return lines


def _say_most(source: Source, amps: float) -> tuple[str, bool]:
    """What the source may give, and whether it gives more."""
    most = source.cell.max_amps
    if most is None:
        return "", False
    is_over = amps > most
    return f"of {most:g} A{': over' if is_over else ''}", is_over


def _fit_columns(setup: str, trees: Sequence[SourceTree], lead: int, width: int) -> _Columns:
    """The widest bar and the deepest indent that leave room for all names; else what leaves most room. `lead`: the
    width of the last column."""
    branches = [branch for tree in trees for branch in tree.branches]
    tail = 3 * _VOLTS + len(_GAP) + _AMPS + (max(lead, len("lead")) + len(_GAP) if lead else 0)
    for bar in (WIDE, NARROW, 0):
        for indent in (2, 1):
            columns = _Columns(indent, 0, bar, lead)
            room = width - tail - 2 * len(_GAP) - columns.window
            names = [len(clean(text)) for text in (setup, *(tree.source.place for tree in trees))]
            names += [indent * (branch.depth + 1) + len(clean(branch.ref.place)) for branch in branches]
            fitted = _Columns(indent, max(1, min(max(names, default=0), room)), bar, lead)
            if max(names, default=0) <= room:
                return fitted
    return fitted
