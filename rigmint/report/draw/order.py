"""In which order boxes and lanes stand in each column: in their bands, near what they are joined to, few crossings."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from functools import partial

from rigmint.report.draw.crossings import count_all, count_gutter
from rigmint.report.draw.grid import LEFT, RIGHT, Grid, Joint, Slot, size_box
from rigmint.report.draw.sizes import BOX_GAP, LANE_GAP, MOST_LINES

_SWEEPS = 10
_ROUNDS = 3


def order_columns(grid: Grid) -> None:
    """Sort every column; the best of several sweeps is kept, then neighbours swap where that saves crossings."""
    tops = _find_tops(grid)
    for column in grid.columns:
        _stack(column, tops)
    best, kept = _rate(grid), _remember(grid)
    for sweep in range(_SWEEPS):
        _sweep(grid, tops, forward=sweep % 2 == 0)
        found = _rate(grid)
        if found < best:
            best, kept = found, _remember(grid)
    _restore(grid, kept, tops)
    for _ in range(_ROUNDS if len(grid.lines) <= MOST_LINES else 0):
        if not _swap_neighbours(grid, tops):
            break


def gap_between(above: Slot, below: Slot) -> float:
    """What is kept free between two slots of a column."""
    return BOX_GAP if above.box is not None and below.box is not None else LANE_GAP


def _find_tops(grid: Grid) -> list[float]:
    """Where each band begins, as high as its fullest column of boxes needs."""
    tops = [0.0]
    for band in range(grid.bands):
        columns = [[slot for slot in column if slot.band == band and slot.box is not None] for column in grid.columns]
        tops.append(tops[-1] + max(sum(slot.height + BOX_GAP for slot in column) for column in columns) + BOX_GAP)
    return tops


def _stack(column: list[Slot], tops: list[float]) -> None:
    """Put the slots of a column one below the other, each in its band."""
    y = 0.0
    for index, slot in enumerate(column):
        if index:
            y += gap_between(column[index - 1], slot)
        y = slot.y = max(y, tops[slot.band])
        y += slot.height


def _rate(grid: Grid) -> tuple[int, float]:
    """Crossings, then the length of what runs up and down."""
    length = 0.0
    for group in grid.groups:
        for joints in group.values():
            heights = [joint.y for joint in joints]
            length += max(heights) - min(heights)
    return count_all(grid) if len(grid.lines) <= MOST_LINES else 0, length


Kept = list[list[tuple[Slot, int, list[int], list[int]]]]


def _remember(grid: Grid) -> Kept:
    return [
        [
            (slot, slot.band, [id(one) for one in slot.sides[LEFT]], [id(one) for one in slot.sides[RIGHT]])
            for slot in column
        ]
        for column in grid.columns
    ]


def _restore(grid: Grid, kept: Kept, tops: list[float]) -> None:
    for index, column in enumerate(kept):
        for slot, band, *orders in column:
            slot.band = band
            for side, order in zip((LEFT, RIGHT), orders, strict=True):
                rank = {key: place for place, key in enumerate(order)}
                slot.sides[side].sort(key=partial(_look_up, rank))
            size_box(slot)
        grid.columns[index] = [slot for slot, *_ in column]
        _stack(grid.columns[index], tops)


def _look_up(rank: Mapping[int, int], joint: Joint) -> int:
    return rank[id(joint)]


def _sweep(grid: Grid, tops: list[float], *, forward: bool) -> None:
    numbers = range(len(grid.columns))
    for number in numbers if forward else reversed(numbers):
        column = grid.columns[number]
        for slot in column:
            _sort_joints(grid, slot)
        wanted = {id(slot): _find_wanted(grid, slot, LEFT if forward else RIGHT) for slot in column}
        for slot in column:
            if slot.box is None:
                slot.band = _find_band(tops, wanted[id(slot)])
        column.sort(key=lambda slot: (slot.band, wanted[id(slot)], slot.order))
        _stack(column, tops)


def _find_band(tops: list[float], y: float) -> int:
    """The band at a height."""
    return max(0, min(bisect_right(tops, y) - 1, len(tops) - 2))


def _sort_joints(grid: Grid, slot: Slot) -> None:
    """Order the lines on each side of a box by where they go; those of one terminal stay together."""
    if slot.box is None:
        return
    for side in (LEFT, RIGHT):
        if len(slot.sides[side]) < 2:
            continue
        towards = {id(joint): _find_others(grid, slot, side, joint.line) for joint in slot.sides[side]}
        terminals: dict[str, list[float]] = {}
        for joint in slot.sides[side]:
            terminals.setdefault(joint.terminal, []).append(towards[id(joint)])
        middle = {name: sum(heights) / len(heights) for name, heights in terminals.items()}
        slot.sides[side].sort(
            key=lambda joint: (middle[joint.terminal], joint.terminal, towards[id(joint)], joint.line)
        )
    size_box(slot)


def _find_others(grid: Grid, slot: Slot, side: int, line: int) -> float:
    others = [joint.y for joint in grid.groups[slot.column + side][line] if joint.slot is not slot]
    return sum(others) / len(others) if others else slot.y + slot.height / 2


def _find_wanted(grid: Grid, slot: Slot, side: int) -> float:
    """The middle of what it is joined to: on one side, and with less weight on the other."""
    total, weight = 0.0, 0.0
    for joint in slot.joints:
        for other in grid.groups[slot.column + joint.side][joint.line]:
            if other.slot is not slot:
                much = 3.0 if joint.side == side else 1.0
                total += much * (other.y - joint.offset + slot.height / 2)
                weight += much
    return total / weight if weight else float("inf")  # boxes that nothing is plugged into stand last


def _swap_neighbours(grid: Grid, tops: list[float]) -> bool:
    improved = False
    for number, column in enumerate(grid.columns):
        before = count_gutter(grid, number) + count_gutter(grid, number + 1)
        for index in range(len(column) - 1):
            above, below = column[index], column[index + 1]
            if before == 0 or (above.band != below.band and above.box is not None and below.box is not None):
                continue
            bands = above.band, below.band
            if above.box is None:
                above.band = below.band
            else:
                below.band = above.band
            column[index], column[index + 1] = below, above
            _stack(column, tops)
            after = count_gutter(grid, number) + count_gutter(grid, number + 1)
            if after < before:
                before, improved = after, True
                continue
            above.band, below.band = bands
            column[index], column[index + 1] = above, below
            _stack(column, tops)
    return improved
