"""Gives each line of a gutter a lane of its own, so that no two run on top of each other and few cross."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import combinations

from rigmint.report.draw.crossings import Trunk, count_crossings, make_trunk
from rigmint.report.draw.grid import LEFT, RIGHT, Grid, Joint

LANE = 10.0
"""Between two lanes of a gutter."""
_APART = 5.0
"""Two lines that run side by side are at least so far apart."""
_MOST_TRUNKS = 200
"""Beyond it crossings are not weighed: no sheet would hold so many lines side by side."""
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


def _find_musts(trunks: Sequence[Trunk]) -> list[set[int]]:
    """For each trunk those that must lie left of it: what comes in at the left for them runs at the height at which it
    goes out at the right."""
    coming = sorted((y, index) for index, trunk in enumerate(trunks) for y in trunk.left)
    musts: list[set[int]] = [set() for _ in trunks]
    for index, trunk in enumerate(trunks):
        for y in trunk.right:
            near = coming[bisect_right(coming, (y - _APART, len(trunks))) : bisect_left(coming, (y + _APART, -1))]
            musts[index] |= {other for _, other in near if other != index}
    return musts


def _order_lanes(trunks: Sequence[Trunk]) -> tuple[list[Trunk], list[tuple[int, int]]]:
    """Trunks from left to right, and the pairs (comes in, goes out) that no order keeps apart. Always next to the left
    is the one that crosses the rest least there, as against at their right."""
    count = len(trunks)
    musts = _find_musts(trunks)
    cost = [[0] * count for _ in range(count)]
    for i, j in combinations(range(count if count <= _MOST_TRUNKS else 0), 2):
        if _meet(trunks[i], trunks[j]):
            cost[i][j] = count_crossings(trunks[i], trunks[j]) - count_crossings(trunks[j], trunks[i])
            cost[j][i] = -cost[i][j]
    scores = [sum(row) for row in cost]
    left = set(range(count))
    order: list[int] = []
    broken: list[tuple[int, int]] = []
    while left:
        free = [i for i in left if not musts[i]] or left
        chosen = min(free, key=lambda i: (scores[i], -trunks[i].top, trunks[i].line))
        broken += [(trunks[i].line, trunks[chosen].line) for i in sorted(musts[chosen])]
        left.remove(chosen)
        order.append(chosen)
        for i in left:
            musts[i].discard(chosen)
            scores[i] -= cost[i][chosen]
    return [trunks[i] for i in order], broken


def _part(group: dict[int, list[Joint]], left: int, right: int) -> None:
    """Move the joints at which `right` goes out away from the heights at which `left` comes in."""
    for joint in group[right]:
        for other in group[left]:
            if joint.side == LEFT and other.side == RIGHT and abs(joint.y - other.y) < _APART:
                away = _APART - abs(joint.y - other.y)
                _move(joint, away if joint.y >= other.y else -away)
