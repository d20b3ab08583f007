"""What lies within reach of what: the stage that a port rides on, and of which of several rigs it is part."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from rigmint.rig.rig import PortRef, Rig, Setup

AWAY = "away"
_CORES = frozenset({"head", "camera"})
"""Kinds that a rig is built around."""


Zone: TypeAlias = tuple[str, str | None]
"""A stage, and the rig that it is of, as the first item of that; None for what is joined to no camera and no head."""


def are_near(one: Zone, other: Zone) -> bool:
    """Whether both are away from the rig, or on one stage of one rig. What is joined to no camera and no head may be on
    either of two rigs."""
    return one[0] == other[0] and (one[1] == other[1] or one[1] is None or other[1] is None or one[0] == AWAY)


class Places:
    """Where the ports of a setup are. Two rigs in one file are apart where no lead or dock joins what rides on them."""

    def __init__(self, rig: Rig, setup: Setup) -> None:
        self._rig = rig
        self._assembly = _find_assemblies(rig, setup)
        self._zones: dict[PortRef, Zone] = {}

    def zone_of(self, ref: PortRef) -> Zone:
        """Where a port is."""
        if ref not in self._zones:
            item = self._rig.items[ref.item]
            stage = item.part.ports[ref.port].stage or item.rides
            self._zones[ref] = stage, self._assembly.get(ref.item)
        return self._zones[ref]

    def are_near(self, one: PortRef, other: PortRef) -> bool:
        """Whether two ports are within reach of each other."""
        return are_near(self.zone_of(one), self.zone_of(other))


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
