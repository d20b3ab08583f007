"""How high each slot stands: bands one below the other, lines as straight as the order in the columns allows."""

from __future__ import annotations

from rigmint.report.draw.grid import Grid, Slot
from rigmint.report.draw.order import gap_between
from rigmint.report.draw.sizes import BAND_PAD, MOST_LINES, SMALLEST_BAND
from rigmint.report.draw.straighten import straighten

_SWEEPS = 12
_ROUNDS = 4
_SLACK = 14.0
"""What a band has to spare beyond its fullest column, so that lines there can be straightened."""
_LANE, _MIXED, _BOX = 8.0, 4.0, 2.0
"""Weights of a wish to be straight: lane to lane, lane to box, box to box."""


def set_heights(grid: Grid, top: float) -> list[tuple[float, float]]:
    """Place every slot; the top and the bottom of each band."""
    segments = [[_segment(column, band) for band in range(grid.bands)] for column in grid.columns]
    bounds = []
    y = top
    for band in range(grid.bands):
        need = max((_measure(column[band]) for column in segments), default=0.0)
        height = max(need + 2 * BAND_PAD + _SLACK, SMALLEST_BAND)
        bounds.append((y, y + height))
        y += height
    for column in segments:
        for band, slots in enumerate(column):
            _spread(slots, [slot.y for slot in slots], [1.0] * len(slots), bounds[band])
    for sweep in range(_SWEEPS):
        order = range(len(segments)) if sweep % 2 == 0 else reversed(range(len(segments)))
        for number in order:
            for band, slots in enumerate(segments[number]):
                wishes = [_find_wish(grid, slot) for slot in slots]
                _spread(slots, [wish for wish, _ in wishes], [weight for _, weight in wishes], bounds[band])
    for _ in range(_ROUNDS if len(grid.lines) <= MOST_LINES else 0):
        if not straighten(grid, bounds):
            break
    return bounds


def _segment(column: list[Slot], band: int) -> list[Slot]:
    return [slot for slot in column if slot.band == band]


def _measure(slots: list[Slot]) -> float:
    gaps = sum(gap_between(slots[index], slots[index + 1]) for index in range(len(slots) - 1))
    return sum(slot.height for slot in slots) + gaps


def _find_wish(grid: Grid, slot: Slot) -> tuple[float, float]:
    """The top at which most of its lines run straight, by weighted median, and how much that counts."""
    wishes: list[tuple[float, float]] = []
    for joint in slot.joints:
        for other in grid.groups[slot.column + joint.side][joint.line]:
            if other.slot is not slot:
                lanes = (slot.box is None) + (other.slot.box is None)
                weight = (_BOX, _MIXED, _LANE)[lanes]
                if other.side == joint.side:
                    weight = 0.5
                wishes.append((other.y - joint.offset, weight))
    if not wishes:
        return slot.y, 0.1
    wishes.sort()
    half = sum(weight for _, weight in wishes) / 2
    passed = 0.0
    for wish, weight in wishes:
        passed += weight
        if passed >= half:
            return float(round(wish)), 2 * half
    return wishes[-1]


def _spread(slots: list[Slot], wishes: list[float], weights: list[float], bounds: tuple[float, float]) -> None:
    """Tops nearest to the wishes, in order, apart, and inside the band: blocks that would overlap are pooled at their
    weighted mean (isotonic regression)."""
    if not slots:
        return
    starts = [0.0]
    for index in range(1, len(slots)):
        starts.append(starts[-1] + slots[index - 1].height + gap_between(slots[index - 1], slots[index]))
    blocks: list[list[float]] = []
    for wish, weight, start in zip(wishes, weights, starts, strict=True):
        blocks.append([wish - start, weight, 1])
        while len(blocks) > 1 and blocks[-2][0] > blocks[-1][0]:
            last = blocks.pop()
            block = blocks[-1]
            total = block[1] + last[1]
            block[0] = (block[0] * block[1] + last[0] * last[1]) / total
            block[1] = total
            block[2] += last[2]
    low = bounds[0] + BAND_PAD
    high = max(low, bounds[1] - BAND_PAD - starts[-1] - slots[-1].height)
    index = 0
    for value, _, count in blocks:
        shift = float(round(min(max(value, low), high)))
        for _ in range(int(count)):
            slots[index].y = shift + starts[index]
            index += 1
