"""In which column each box stands: from left to right as power or signals go, and no further apart than needed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

Arc = tuple[str, str, int]
"""(from, to, how strongly it pulls the two together; at least 1)."""


def assign_columns(names: Sequence[str], arcs: Sequence[Arc]) -> dict[str, int]:
    """Column of each name, from 0. Loops are opened where the order of walking closes them."""
    forward = _open_loops(names, arcs)
    columns = _find_longest(names, forward)
    _pull_together(names, forward, columns)
    _close_gaps(columns)
    return columns


def _open_loops(names: Sequence[str], arcs: Sequence[Arc]) -> list[Arc]:
    """The arcs, those that go against the order turned round. The order takes sources first, then sinks last, then
    what gives most and takes least (Eades, Lin, Smyth 1993)."""
    rank = {name: index for index, name in enumerate(_order_by_flow(names, arcs))}
    return [(one, two, pull) if rank[one] < rank[two] else (two, one, pull) for one, two, pull in arcs if one != two]


def _order_by_flow(names: Sequence[str], arcs: Sequence[Arc]) -> list[str]:
    left = dict.fromkeys(names)
    gives: dict[str, dict[str, int]] = {name: {} for name in names}
    takes: dict[str, dict[str, int]] = {name: {} for name in names}
    for one, two, pull in arcs:
        if one != two:
            gives[one][two] = gives[one].get(two, 0) + pull
            takes[two][one] = takes[two].get(one, 0) + pull
    first: list[str] = []
    last: list[str] = []
    while left:
        name = next((name for name in left if not gives[name]), None)
        if name is not None:
            last.append(name)
        else:
            name = next((name for name in left if not takes[name]), None)
            if name is None:
                name = max(left, key=lambda one: sum(gives[one].values()) - sum(takes[one].values()))
            first.append(name)
        del left[name]
        for other in gives[name]:
            takes[other].pop(name, None)
        for other in takes[name]:
            gives[other].pop(name, None)
    return [*first, *reversed(last)]


def _find_longest(names: Sequence[str], arcs: Sequence[Arc]) -> dict[str, int]:
    columns = dict.fromkeys(names, 0)
    changed = True
    while changed:
        changed = False
        for one, two, _ in arcs:
            if columns[two] <= columns[one]:
                columns[two] = columns[one] + 1
                changed = True
    return columns


def _pull_together(names: Sequence[str], arcs: Sequence[Arc], columns: dict[str, int]) -> None:
    """Move each box, within what its arcs allow, to where the sum of lengths times pulls is least."""
    for _ in range(len(names)):
        moved = False
        for name in names:
            before = [(columns[one], pull) for one, two, pull in arcs if two == name]
            after = [(columns[two], pull) for one, two, pull in arcs if one == name]
            if not before and not after:
                continue
            low = max((column + 1 for column, _ in before), default=None)
            high = min((column - 1 for column, _ in after), default=None)
            slack = sum(pull for _, pull in before) - sum(pull for _, pull in after)
            target = columns[name]
            if slack > 0 or high is None:
                target = low if low is not None else target
            elif slack < 0 or low is None:
                target = high
            if target != columns[name]:
                columns[name] = target
                moved = True
        if not moved:
            return


def _close_gaps(columns: dict[str, int]) -> None:
    dense = {column: index for index, column in enumerate(sorted(set(columns.values())))}
    for name, column in columns.items():
        columns[name] = dense[column]


def place_followers(columns: dict[str, int], follows: Mapping[str, Sequence[str]]) -> None:
    """Give each box that has no say of its own the middle column of those it is joined to, nearest first."""
    waiting = list(follows)
    while waiting:
        ready = [name for name in waiting if any(other in columns for other in follows[name])]
        if not ready:
            columns.update(dict.fromkeys(waiting, 0))
            return
        for name in ready:
            near = sorted(columns[other] for other in follows[name] if other in columns)
            columns[name] = near[len(near) // 2]
            waiting.remove(name)
