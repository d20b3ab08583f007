"""The search for claims: from each control, along the signal map, to everything that moves an axis."""

from __future__ import annotations

import heapq
from collections import deque
from collections.abc import Container
from dataclasses import dataclass
from types import MappingProxyType
from typing import TypeAlias

from rigmint.rig.device import Control, Mover, SignalKind
from rigmint.rig.rig import Item
from rigmint.study.conditions import Assumption, Barred, join_assumptions, judge_when, resolve_choice
from rigmint.study.hands import Claim
from rigmint.study.signal_map import Hop, SignalMap

UNBOUNDED = float("inf")


@dataclass(frozen=True, slots=True)
class State:
    """Where a signal of one axis has come to, in which kind, under which assumptions."""

    item: str
    name: str
    kind: SignalKind
    assumes: Assumption


Trail: TypeAlias = "dict[State, tuple[State, Hop] | None]"


@dataclass(frozen=True, slots=True)
class Arrival:
    """A claim before it is tied to a ring or a joint."""

    axis: str
    claim: Claim
    mover_item: str


def find_arrivals(signals: SignalMap, only: Container[str] | None = None) -> list[Arrival]:
    """Every claim in the setup, by control, then by axis and mover; `only`: those of these controls, as places."""
    found = []
    for item_name in sorted(signals.setup.items - signals.setup.off):
        item = signals.rig.items[item_name]
        for control in item.part.controls.values():
            if only is not None and f"{item_name}.{control.name}" not in only:
                continue
            for axis, assumption in sorted(list_sent(item, control, signals)):
                found += _search(signals, item, control, axis, assumption)
    return _keep_simplest(found)


def list_sent(item: Item, control: Control, signals: SignalMap) -> list[tuple[str, Assumption]]:
    """The axes that a control sends in the setup, with what is assumed."""
    conditions = judge_when(item, control.when, signals.setup)
    if isinstance(conditions, Barred):
        return []
    sent = []
    for words, chosen in resolve_choice(item, control.axis, signals.setup):
        for condition in conditions:
            joined = join_assumptions(condition, chosen)
            if joined is not None:
                sent += [(axis, joined) for axis in words if axis != "none"]
    return sent


def answers(item: Item, mover: Mover, axis: str, kind: SignalKind, signals: SignalMap) -> list[Assumption]:
    """The assumptions under which a mover answers to an axis that arrives in a kind; none where it does not."""
    if mover.takes and kind not in mover.takes:
        return []
    conditions = judge_when(item, mover.when, signals.setup)
    if isinstance(conditions, Barred):
        return []
    joined = [
        join_assumptions(condition, chosen)
        for words, chosen in resolve_choice(item, mover.axis, signals.setup)
        if axis in words
        for condition in conditions
    ]
    return [assumption for assumption in joined if assumption is not None]


def _search(signals: SignalMap, item: Item, control: Control, axis: str, assumption: Assumption) -> list[Arrival]:
    start = State(item.name, control.name, control.sends, assumption)
    trail: Trail = {start: None}
    queue = deque([start])
    found = []
    while queue:
        state = queue.popleft()
        mover = signals.part(state.item).moves.get(state.name)
        if mover is not None and state.item not in signals.setup.off:
            mover_item = signals.rig.items[state.item]
            for extra in answers(mover_item, mover, axis, state.kind, signals):
                joined = join_assumptions(state.assumes, extra)
                if joined is not None:
                    claim = _make_claim(signals, item, control, state, joined, trail, axis, start)
                    found.append(Arrival(axis, claim, state.item))
        for following, hop in _onward(signals, state, axis):
            if following not in trail:
                trail[following] = (state, hop)
                queue.append(following)
    return found


def _onward(signals: SignalMap, state: State, axis: str) -> list[tuple[State, Hop]]:
    onward = []
    for hop in signals.hops(state.item, state.name, axis, state.kind):
        assumes = join_assumptions(state.assumes, hop.assumes)
        if assumes is not None and hop.kind is not None:
            onward.append((State(hop.item, hop.name, hop.kind, assumes), hop))
    return sorted(onward, key=lambda pair: (pair[0].item, pair[0].name))


def _make_claim(
    signals: SignalMap,
    item: Item,
    control: Control,
    state: State,
    assumes: Assumption,
    trail: Trail,
    axis: str,
    start: State,
) -> Claim:
    path, crosses_air = _trace(state, trail)
    return Claim(
        control=f"{item.name}.{control.name}",
        person=signals.setup.holder(item.name),
        sends=control.sends,
        arrives=state.kind,
        mover=f"{state.item}.{state.name}",
        axis=axis,
        automatic=control.automatic,
        takes_over=control.takes_over,
        path=path,
        reach=_find_reach(signals, start, state, axis) if crosses_air else None,
        assumes=MappingProxyType(dict(assumes)),
    )


def _trace(state: State, trail: Trail) -> tuple[tuple[str, ...], bool]:
    places = [f"{state.item}.{state.name}"]
    crosses_air = False
    step = trail[state]
    while step is not None:
        state, hop = step
        if hop.over is not None:
            places.append(hop.over)
        crosses_air = crosses_air or hop.link is not None
        places.append(f"{state.item}.{state.name}")
        step = trail[state]
    return tuple(reversed(places)), crosses_air


def _find_reach(signals: SignalMap, start: State, goal: State, axis: str) -> float | None:
    """The best over all paths of the worst hop, in m; None where a hop on every path states no reach."""
    heap: list[tuple[float, int, State]] = [(-UNBOUNDED, 0, start)]  # the number keeps states from being compared
    pushed = 0
    done: set[State] = set()
    while heap:
        negative, _, state = heapq.heappop(heap)
        if state in done:
            continue
        done.add(state)
        if state == goal:
            return -negative if 0 < -negative < UNBOUNDED else None
        for following, hop in _onward(signals, state, axis):
            reach = -negative
            if hop.link is not None:
                stated = signals.reach_of(state.item, state.name, hop)
                reach = min(reach, stated if stated is not None else 0.0)
            pushed += 1
            heapq.heappush(heap, (-reach, pushed, following))
    return None


def _keep_simplest(arrivals: list[Arrival]) -> list[Arrival]:
    """Of claims that differ only in what they assume, those that assume least."""
    groups: dict[tuple[str, str, str, SignalKind], list[Arrival]] = {}
    for arrival in arrivals:
        claim = arrival.claim
        groups.setdefault((claim.control, arrival.axis, claim.mover, claim.arrives), []).append(arrival)
    kept = []
    for group in groups.values():
        group.sort(key=lambda arrival: (len(arrival.claim.assumes), len(arrival.claim.path)))
        chosen: list[Arrival] = []
        for arrival in group:
            if not any(_assumes_no_more(other.claim, arrival.claim) for other in chosen):
                chosen.append(arrival)
        kept += chosen
    return sorted(kept, key=lambda arrival: (arrival.claim.control, arrival.axis, arrival.claim.mover))


def _assumes_no_more(one: Claim, other: Claim) -> bool:
    return one.assumes.items() <= other.assumes.items()
