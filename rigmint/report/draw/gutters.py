"""Gives each line of a gutter a lane of its own, so that no two run on top of each other and few cross."""

from __future__ import annotations

from collections.abc import Sequence

from rigmint.report.draw.crossings import Trunk, count_crossings, make_trunk
from rigmint.report.draw.grid import LEFT, RIGHT, Grid, Joint

LANE = 10.0
"""Between two lanes of a gutter."""
_APART = 5.0
"""Two lines that run side by side are at least so far apart."""
_JOG = 3.0
"""A change of height so small is taken out."""
_CLEAR = 9.0
"""Two stretches that share a lane end at least so far from each other."""


def assign_lanes(grid: Grid, gutter: int) -> tuple[dict[int, int], int]:
    """Line to its lane, from 0 at the left, for lines that change height; and how many lanes there are.

    Joints are moved a little where a line that comes in at the left would else run on top of one that goes out at the
    right and no order of lanes helps.
    """
    group = grid.groups[gutter]
    _settle_near_straights(group)
    for _ in range(len(group) + 1):
        trunks = [trunk for line, joints in group.items() if not (trunk := make_trunk(line, joints)).is_straight]
        order, broken = _order_lanes(trunks)
        if not broken:
            break
        for left, right in broken:
            _part(group, left, right)
    lanes: dict[int, int] = {}
    placed: list[Trunk] = []
    for trunk in order:
        beside = [lanes[one.line] + 1 for one in placed if _meet(one, trunk)]
        lanes[trunk.line] = max(beside, default=0)
        placed.append(trunk)
    return lanes, max(lanes.values(), default=-1) + 1


def _settle_near_straights(group: dict[int, list[Joint]]) -> None:
    """A lone pair of joints that differs by less than a lane's width needs no jog: one of them gives way."""
    for joints in group.values():
        if len(joints) == 2 and joints[0].side != joints[1].side:
            left, right = joints if joints[0].side == RIGHT else reversed(joints)
            rise = left.y - right.y
            if 0 < abs(rise) <= _JOG:
                _move(right, rise)


def _move(joint: Joint, rise: float) -> None:
    """Move a joint; a lane moves as a whole, so that it stays level."""
    if joint.end is None:
        joint.slot.y += rise
    else:
        joint.nudge += rise


def _meet(one: Trunk, other: Trunk) -> bool:
    return one.top - _CLEAR < other.bottom and other.top - _CLEAR < one.bottom


def _must_precede(one: Trunk, other: Trunk) -> bool:
    """Whether what comes in at the left for `one` runs at the height at which `other` goes out at the right."""
    return any(abs(y - z) < _APART for y in one.left for z in other.right)


def _order_lanes(trunks: Sequence[Trunk]) -> tuple[list[Trunk], list[tuple[int, int]]]:
    """Trunks from left to right, and the pairs (comes in, goes out) that no order keeps apart."""
    count = len(trunks)
    musts: list[set[int]] = [set() for _ in range(count)]
    cost = [[0] * count for _ in range(count)]
    for i in range(count):
        for j in range(count):
            if i != j:
                if _must_precede(trunks[i], trunks[j]):
                    musts[j].add(i)
                if _meet(trunks[i], trunks[j]):
                    cost[i][j] = count_crossings(trunks[i], trunks[j])
    left = list(range(count))
    order: list[int] = []
    broken: list[tuple[int, int]] = []
    while left:
        free = [i for i in left if not musts[i] & set(left)]
        if not free:
            free = left
        chosen = min(
            free,
            key=lambda i: (sum(cost[i][j] - cost[j][i] for j in left if j != i), -trunks[i].top, trunks[i].line),
        )
        broken += [(trunks[i].line, trunks[chosen].line) for i in sorted(musts[chosen]) if i in left]
        left.remove(chosen)
        order.append(chosen)
    return [trunks[i] for i in order], broken


def _part(group: dict[int, list[Joint]], left: int, right: int) -> None:
    """Move the joints at which `right` goes out away from the heights at which `left` comes in."""
    for joint in group[right]:
        for other in group[left]:
            if joint.side == LEFT and other.side == RIGHT and abs(joint.y - other.y) < _APART:
                away = _APART - abs(joint.y - other.y)
                _move(joint, away if joint.y >= other.y else -away)
