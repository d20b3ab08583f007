"""Takes small changes of height out of lines by moving boxes and lanes, where that costs nothing elsewhere."""

from __future__ import annotations

from collections.abc import Sequence

from rigmint.report.draw.grid import Grid, Joint, Slot
from rigmint.report.draw.order import gap_between
from rigmint.report.draw.sizes import BAND_PAD

_BEND = 30.0
"""What a line that changes height costs, beyond the way up or down, in units of that way."""


def straighten(grid: Grid, bounds: Sequence[tuple[float, float]]) -> bool:
    """Try for every line in every gutter to level its ends, from either side; whether anything moved."""
    moved = False
    for group in grid.groups:
        for joints in group.values():
            if len(joints) == 2 and joints[0].side != joints[1].side:
                one, two = joints
                rise = one.y - two.y
                if rise:
                    moved = _try(grid, bounds, two.slot, rise) or _try(grid, bounds, one.slot, -rise) or moved
    return moved


def _try(grid: Grid, bounds: Sequence[tuple[float, float]], slot: Slot, rise: float) -> bool:
    """Move a slot, pushing those in its way; undone unless the lines get shorter or straighter."""
    pushed = _list_pushed(grid.columns[slot.column], slot, rise, bounds[slot.band])
    if pushed is None:
        return False
    touched = {id(joints): joints for one, _ in pushed for joint in one.joints for joints in [_group(grid, joint)]}
    before = sum(_cost(joints) for joints in touched.values())
    for one, shift in pushed:
        one.y += shift
    if sum(_cost(joints) for joints in touched.values()) < before:
        return True
    for one, shift in pushed:
        one.y -= shift
    return False


def _group(grid: Grid, joint: Joint) -> list[Joint]:
    return grid.groups[joint.slot.column + joint.side][joint.line]


def _cost(joints: Sequence[Joint]) -> float:
    heights = [joint.y for joint in joints]
    extent = max(heights) - min(heights)
    return extent + _BEND if extent else 0.0


def _list_pushed(
    column: Sequence[Slot], slot: Slot, rise: float, bounds: tuple[float, float]
) -> list[tuple[Slot, float]] | None:
    """The slots that move and how far; None where the band has no room."""
    index = column.index(slot)
    pushed = [(slot, rise)]
    step = 1 if rise > 0 else -1
    edge = slot
    target = slot.y + rise
    while 0 <= index + step < len(column) and column[index + step].band == slot.band:
        index += step
        following = column[index]
        if step > 0:
            shift = target + edge.height + gap_between(edge, following) - following.y
        else:
            shift = target - following.height - gap_between(following, edge) - following.y
        if shift * step <= 0:
            break
        pushed.append((following, shift))
        edge, target = following, following.y + shift
    if target < bounds[0] + BAND_PAD or target + edge.height > bounds[1] - BAND_PAD:
        return None
    return pushed
