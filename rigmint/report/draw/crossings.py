"""How often lines cross in a gutter, before lanes are given out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from rigmint.report.draw.grid import LEFT, RIGHT, Grid, Joint


@dataclass(frozen=True, slots=True)
class Trunk:
    """A line in a gutter: where it comes in at the left, where it goes out at the right, and its stretch up and down.

    A joint at the gutter's left sits on the right side of its slot."""

    line: int
    left: tuple[float, ...]
    right: tuple[float, ...]
    top: float
    bottom: float

    @property
    def is_straight(self) -> bool:
        """Whether it goes through without changing height."""
        return self.top == self.bottom


def make_trunk(line: int, joints: Sequence[Joint]) -> Trunk:
    """The trunk of a line's joints in one gutter."""
    left = tuple(joint.y for joint in joints if joint.side == RIGHT)
    right = tuple(joint.y for joint in joints if joint.side == LEFT)
    return Trunk(line, left, right, min((*left, *right)), max((*left, *right)))


def count_crossings(first: Trunk, second: Trunk) -> int:
    """Crossings of two lines where the first has its lane to the left of the second's."""
    top, bottom = second.top, second.bottom
    crossed = 0
    for y in first.right:
        if top < y < bottom:
            crossed += 1
    top, bottom = first.top, first.bottom
    for y in second.left:
        if top < y < bottom:
            crossed += 1
    return crossed


def count_gutter(grid: Grid, gutter: int) -> int:
    """The least number of crossings in a gutter, two lines at a time."""
    trunks = [make_trunk(line, joints) for line, joints in grid.groups[gutter].items()]
    return sum(
        min(count_crossings(one, two), count_crossings(two, one))
        for one, two in combinations(trunks, 2)
        if one.top <= two.bottom and two.top <= one.bottom
    )


def count_all(grid: Grid) -> int:
    """The same over all gutters."""
    return sum(count_gutter(grid, gutter) for gutter in range(len(grid.groups)))
