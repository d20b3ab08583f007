"""What lies within reach of what: the stage that a port rides on, and of which of several rigs it is part."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint.rig.rig import PortRef, Rig, Setup

AWAY = "away"
_CORES = frozenset({"head", "camera"})
"""Kinds that a rig is built around."""


class Places:
    """Where the ports of a setup are."""

    def __init__(self, rig: Rig, setup: Setup) -> None:
        self._rig = rig
        self._assembly = _find_assemblies(rig, setup)

    def are_near(self, one: PortRef, other: PortRef) -> bool:
        """Whether both are away from the rig, or ride on one stage of one rig. Two rigs in one file are apart where no
        lead or dock joins what rides on them; what is joined to no camera and no head may be on either."""
        stages = self._stage_of(one), self._stage_of(other)
        if stages[0] != stages[1]:
            return False
        if stages[0] == AWAY:
            return True
        rigs = {self._assembly[ref.item] for ref in (one, other) if ref.item in self._assembly}
        return len(rigs) < 2

    def _stage_of(self, ref: PortRef) -> str:
        item = self._rig.items[ref.item]
        return item.part.ports[ref.port].stage or item.rides


def _find_assemblies(rig: Rig, setup: Setup) -> dict[str, str]:
    """Item to the first item of what it is joined to, for what a camera or a head is part of."""
    riding = {name for name in setup.items if rig.items[name].rides != AWAY}
    beside: dict[str, set[str]] = {name: set() for name in riding}
    for items in _list_joined(rig, setup):
        for name in items & riding:
            beside[name] |= items & riding
    found: dict[str, str] = {}
    for first in sorted(riding):
        if first in found:
            continue
        group = _gather(first, beside)
        if any(rig.items[name].part.kind in _CORES for name in group):
            found |= dict.fromkeys(group, first)
    return found


def _list_joined(rig: Rig, setup: Setup) -> Iterator[set[str]]:
    for label in setup.leads:
        yield {ref.item for ref in rig.leads[label].plugged.values()}
    for index in setup.docks:
        yield {rig.docks[index].first.item, rig.docks[index].second.item}


def _gather(first: str, beside: dict[str, set[str]]) -> set[str]:
    group, pending = {first}, [first]
    while pending:
        for name in beside[pending.pop()] - group:
            group.add(name)
            pending.append(name)
    return group
