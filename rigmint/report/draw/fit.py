"""Fits the columns to a sheet of paper: neighbouring columns are laid together while that lets the drawing print
larger, and boxes that nothing is plugged into fill what room is left."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from rigmint.report.draw import sizes
from rigmint.report.draw.grid import LEFT, RIGHT, Grid, build_grid
from rigmint.report.draw.gutters import LANE
from rigmint.report.draw.model import Box, LineKind, Sketch
from rigmint.report.draw.order import gap_between

_SHEET = (277.0, 190.0)
"""mm of an A4 sheet, landscape, inside its margins; A3 has the same shape."""
_HEAD_AND_FOOT = 150.0
_ROUND = 0.965
"""What one line that must go round, between two boxes of one column, costs of the scale."""


def fit_columns(sketch: Sketch, columns: Mapping[str, int]) -> dict[str, int]:
    """Columns with the largest scale on paper."""
    best = dict(columns)
    docked = [(line.ends[0].box, line.ends[1].box) for line in sketch.lines if line.kind is LineKind.DOCK]
    docked = [(one, two) for one, two in docked if columns[one] != columns[two]]
    joined = {end.box for line in sketch.lines for end in line.ends}
    scale = _measure_scale(sketch, best)
    while len(sketch.lines) <= sizes.MOST_LINES:
        tried = []
        for column in range(max(best.values(), default=0)):
            merged = {name: place - (place > column) for name, place in best.items()}
            if any(merged[one] == merged[two] for one, two in docked):
                continue  # what docks stands side by side
            tried.append((_measure_scale(sketch, merged), -column, merged))
        if not tried:
            break
        found, _, merged = max(tried, key=lambda one: one[:2])
        if found <= scale:
            break
        best, scale = merged, found
    return _spread_idle(sketch, best, joined)


def _measure_scale(sketch: Sketch, columns: Mapping[str, int]) -> float:
    """mm a unit, as large as fits, as far as can be told before anything is placed; less for lines that go round."""
    grid = build_grid(sketch, columns)
    width = sizes.BAND_ROOM + 2 * sizes.MARGIN
    for number, group in enumerate(grid.groups):
        if group:
            width += measure_flags(grid, number, LEFT) + measure_flags(grid, number, RIGHT) + LANE * len(group) / 2
        if number < len(grid.columns):
            width += max((slot.width for slot in grid.columns[number]), default=0.0)
    height = _HEAD_AND_FOOT + sum(
        max(_measure_column(grid, number, band) for number in range(len(grid.columns))) + 3 * sizes.BAND_PAD
        for band in range(grid.bands)
    )
    return min(_SHEET[0] / width, _SHEET[1] / height) * _ROUND ** _count_round(sketch, columns)


def _count_round(sketch: Sketch, columns: Mapping[str, int]) -> int:
    """Lines whose ends all stand in one column."""
    return sum(line.pull > 0 and len({columns[end.box] for end in line.ends}) == 1 for line in sketch.lines)


def _measure_column(grid: Grid, column: int, band: int) -> float:
    slots = [slot for slot in grid.columns[column] if slot.band == band]
    gaps = sum(gap_between(slots[index], slots[index + 1]) for index in range(len(slots) - 1))
    return sum(slot.height for slot in slots) + gaps


def measure_flags(grid: Grid, gutter: int, side: int) -> float:
    """The room that flags on one side of a gutter need, nubs included; `side`: of the boxes that they hang on."""
    widths = [0.0]
    for line, joints in grid.groups[gutter].items():
        for joint in joints:
            if joint.side == side and joint.end is not None:
                flag = grid.lines[line].ends[joint.end].flag
                widths.append(sizes.measure_flag(flag)[0] + sizes.FLAG_GAP if flag is not None else 0.0)
    return float(round(sizes.NUB + max(widths) + sizes.GUTTER_PAD / 2))


def _spread_idle(sketch: Sketch, columns: dict[str, int], joined: set[str]) -> dict[str, int]:
    """Boxes without a line go, one by one, where their band is lowest."""
    idle = [box for box in sketch.boxes if box.key not in joined]
    kept = {name: column for name, column in columns.items() if name in joined}
    if not kept:
        return {box.key: index % 5 for index, box in enumerate(idle)}
    grid = build_grid(_without(sketch, idle), kept)
    bands = {band.key: index for index, band in enumerate(sketch.bands)}
    count = len(grid.columns)
    heights = [[_measure_column(grid, column, band) for column in range(count)] for band in range(len(bands))]
    for box in idle:
        row = heights[bands[box.band]]
        column = row.index(min(row))
        kept[box.key] = column
        row[column] += sizes.measure_head(box)[1] + sizes.BOX_GAP
    return kept


def _without(sketch: Sketch, idle: Sequence[Box]) -> Sketch:
    return replace(sketch, boxes=tuple(box for box in sketch.boxes if box not in idle))
