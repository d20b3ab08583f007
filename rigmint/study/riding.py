"""Where on a head each item rides, and on which head, where there are several."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping

from rigmint.rig.rig import Item, PortRef, Rig, Setup

STAGES = ("base", "pan", "roll", "tilt")
"""From the carrier up to the camera; each joint lies under the stage that is named after it."""
AWAY = "away"


class Riding:
    """The items of one setup on its heads."""

    def __init__(self, rig: Rig, setup: Setup) -> None:
        self._rig = rig
        self._setup = setup
        self.heads = tuple(name for name in sorted(setup.items) if is_head(rig.items[name]))
        self._head_of = _find_heads(rig, setup, self.heads)
        self._docked = _spread_stages(rig, setup)

    def find_stage(self, ref: PortRef, head: str) -> str:
        """The stage of a head on which a port sits: the port's own on the head itself, else that on which its item
        rides. What is on another head, or away, is below this one, as its base is."""
        item = self._rig.items[ref.item]
        if ref.item == head:
            return self._rig.port(ref).stage or _on_head(item.rides)
        if self._head_of.get(ref.item) != head:
            return STAGES[0]
        return _on_head(self._docked.get(ref.item, item.rides))

    def is_assumed(self, ref: PortRef) -> bool:
        """Whether nothing but the default of its kind says where a port's item rides."""
        item = self._rig.items[ref.item]
        return ref.item not in self._docked and _rides_by_default(item) and not is_head(item)


def is_head(item: Item) -> bool:
    """Whether it is a stabiliser head."""
    return item.part.kind == "head" or bool(item.part.joints)


def _on_head(stage: str) -> str:
    return stage if stage in STAGES else STAGES[0]


def _rides_by_default(item: Item) -> bool:
    return "rides" in item.part.assumed and item.rides == item.part.rides


def _find_heads(rig: Rig, setup: Setup, heads: tuple[str, ...]) -> dict[str, str]:
    """Item to the head that it is on: with one head all that is not away, with several the nearest along docks, then
    leads."""
    riding = [name for name in sorted(setup.items) if rig.items[name].rides != AWAY and name not in heads]
    if len(heads) < 2:
        return {name: head for head in heads for name in riding}
    docks, leads = _list_docked(rig, setup), _list_led(rig, setup)
    found = {head: head for head in heads}
    queue = deque(heads)
    while queue:
        here = queue.popleft()
        near = [(name, True) for name in docks.get(here, ())] + [(name, False) for name in leads.get(here, ())]
        for name, is_dock in near:
            if name in found or rig.items[name].rides == AWAY:
                continue
            found[name] = found[here]
            if is_dock:
                queue.appendleft(name)
            else:
                queue.append(name)
    return {name: head for name, head in found.items() if name not in heads}


def _list_docks(rig: Rig, setup: Setup) -> Iterator[tuple[PortRef, PortRef]]:
    for index in sorted(setup.docks):
        dock = rig.docks[index]
        yield dock.first, dock.second
        yield dock.second, dock.first


def _list_docked(rig: Rig, setup: Setup) -> Mapping[str, list[str]]:
    found: dict[str, list[str]] = {}
    for near, far in _list_docks(rig, setup):
        found.setdefault(near.item, []).append(far.item)
    return found


def _list_led(rig: Rig, setup: Setup) -> Mapping[str, list[str]]:
    found: dict[str, list[str]] = {}
    for label in sorted(setup.leads):
        items = [ref.item for _, ref in sorted(rig.leads[label].plugged.items())]
        for one in items:
            found.setdefault(one, []).extend(other for other in items if other != one)
    return found


def _spread_stages(rig: Rig, setup: Setup) -> dict[str, str]:
    """Item to the stage of what it is docked to, for items that ride by default: from the ports of heads and from
    items whose place is stated, along docks. A battery goes where its plate is."""
    found: dict[str, str] = {}
    queue: deque[tuple[str, str]] = deque()
    docks = list(_list_docks(rig, setup))
    for near, far in docks:
        here, item = rig.items[near.item], rig.items[far.item]
        if not _rides_by_default(item) or is_head(item):
            continue
        if is_head(here):
            queue.append((far.item, rig.port(near).stage or _on_head(here.rides)))
        elif not _rides_by_default(here):
            queue.append((far.item, here.rides))
    while queue:
        name, stage = queue.popleft()
        if name in found:
            continue
        found[name] = stage
        for near, far in docks:
            other = rig.items[far.item]
            if near.item == name and _rides_by_default(other) and not is_head(other):
                queue.append((far.item, stage))
    return found
