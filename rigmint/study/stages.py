"""On which stage of its head each port sits."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator

from rigmint.rig.rig import Item, PortRef, Rig, Setup
from rigmint.study.riding import STAGES, Riding


class StagePlaces:
    """The ports of one setup on the stages of its heads; each joint lies under the stage that is named after it."""

    def __init__(self, rig: Rig, setup: Setup, riding: Riding) -> None:
        self._rig = rig
        self.heads = tuple(riding.on_head)
        self._head_of = {name: head for head, names in riding.on_head.items() for name in names}
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
        return ref.item not in self._docked and not item.states_rides and not _is_head(item)


def _is_head(item: Item) -> bool:
    """Whether it is a stabiliser head."""
    return item.part.kind == "head" or bool(item.part.joints)


def _on_head(stage: str) -> str:
    return stage if stage in STAGES else STAGES[0]


def _list_docks(rig: Rig, setup: Setup) -> Iterator[tuple[PortRef, PortRef]]:
    for index in sorted(setup.docks):
        dock = rig.docks[index]
        yield dock.first, dock.second
        yield dock.second, dock.first


def _spread_stages(rig: Rig, setup: Setup) -> dict[str, str]:
    """Item to the stage of what it is docked to, for items that ride by default: from the ports of heads and from
    items whose place is stated, along docks. A battery goes where its plate is."""
    found: dict[str, str] = {}
    queue: deque[tuple[str, str]] = deque()
    docks = list(_list_docks(rig, setup))
    for near, far in docks:
        here, item = rig.items[near.item], rig.items[far.item]
        if item.states_rides or _is_head(item):
            continue
        if _is_head(here):
            queue.append((far.item, rig.port(near).stage or _on_head(here.rides)))
        elif here.states_rides:
            queue.append((far.item, here.rides))
    while queue:
        name, stage = queue.popleft()
        if name in found:
            continue
        found[name] = stage
        for near, far in docks:
            other = rig.items[far.item]
            if near.item == name and not other.states_rides and not _is_head(other):
                queue.append((far.item, stage))
    return found
