"""Riding: which head each item sits on, and what carries the head."""

from __future__ import annotations

import heapq
from collections import defaultdict
from dataclasses import dataclass

from rigmint.rig.rig import PortRef, Rig, Setup

AWAY = "away"
STAGES = ("base", "pan", "roll", "tilt")
"""From what carries the head to the camera."""
_UNDERSIDE, _TOP = "base", "head"


@dataclass(frozen=True, slots=True)
class Riding:
    """Who rides where in one setup."""

    on_head: dict[str, frozenset[str]]
    """Head to the items that sit on it, at whatever stage, without itself and what carries it."""
    unsure: frozenset[str]
    """Items that may sit on any of several heads: neither a dock nor a lead says on which."""
    carriers: dict[str, tuple[str, ...]]
    """Head to what carries it, nearest first."""
    is_order_known: bool
    """Whether it is known what carries what: docks say so, or there is one head and one carrier."""


def study_riding(rig: Rig, setup: Setup) -> Riding:
    """Docks say it, then leads, the shortest way first; with one head in the setup all that rides, rides on it."""
    there = [name for name in sorted(setup.items) if rig.items[name].rides != AWAY]
    heads = [name for name in there if rig.items[name].part.kind == "head"]
    carriers = {head: _find_carriers(rig, setup, head) for head in heads}
    loose = [name for name in there if rig.items[name].part.kind == "carrier"]
    is_known = any(carriers.values()) or not loose or not heads
    if not is_known and len(heads) == len(loose) == 1:
        carriers, is_known = {heads[0]: (loose[0],)}, True
    carrying = {name for chain in carriers.values() for name in chain}
    unplaced = set() if is_known else set(loose)
    riders = [name for name in there if name not in {*heads, *carrying, *unplaced}]
    if len(heads) == 1:
        return Riding({heads[0]: frozenset(riders)}, frozenset(), carriers, is_known)
    owners = _find_owners(rig, setup, heads, riders)
    on_head = {head: frozenset(name for name in riders if owners.get(name) == head) for head in heads}
    unsure = frozenset(name for name in riders if heads and name not in owners and name not in loose)
    return Riding(on_head, unsure, carriers, is_known)


def _find_carriers(rig: Rig, setup: Setup, head: str) -> tuple[str, ...]:
    """The carriers that docks join to a head, nearest first: over ports that do not sit on its moving stages, and over
    adaptors of whatever kind, but not over another head."""
    joined = _list_docked(rig, setup)
    chain: list[str] = []
    seen = {head}
    front = [head]
    while front:
        following = {
            far.item
            for name in front
            for near, far in joined[name]
            if _is_below(rig, near) and _is_no_head(rig, far) and not _goes_up(rig, near, far)
        }
        front = sorted(following - seen)
        seen.update(front)
        chain += [name for name in front if rig.items[name].part.kind == "carrier"]
    return tuple(chain)


def _goes_up(rig: Rig, near: PortRef, far: PortRef) -> bool:
    """Whether what is docked sits on top, as another head's arm on the same car: a carrier's underside is its port
    `base` and its top its port `head`, as in the catalogue. Other names do not tell, and both ways are gone."""
    return far.port == _UNDERSIDE or (near.port == _TOP and rig.items[near.item].part.kind == "carrier")


def _is_no_head(rig: Rig, port: PortRef) -> bool:
    return rig.items[port.item].part.kind != "head"


def _is_below(rig: Rig, port: PortRef) -> bool:
    """Whether a port of a head sits at its base; a carrier has no other ports."""
    item = rig.items[port.item]
    return item.part.kind != "head" or item.part.ports[port.port].stage in (None, "base")


def _list_docked(rig: Rig, setup: Setup) -> dict[str, list[tuple[PortRef, PortRef]]]:
    joined: dict[str, list[tuple[PortRef, PortRef]]] = defaultdict(list)
    for dock in rig.docks:
        if dock.index in setup.docks:
            joined[dock.first.item].append((dock.first, dock.second))
            joined[dock.second.item].append((dock.second, dock.first))
    return joined


def _find_owners(rig: Rig, setup: Setup, heads: list[str], riders: list[str]) -> dict[str, str]:
    """The nearest head of each rider, over docks (no way at all) and leads (one each) between riders; riders that are
    as near to two heads, or reach none, have no owner."""
    ways = _list_ways(rig, setup, {*heads, *riders})
    distances = {head: _measure(head, ways, set(heads)) for head in heads}
    owners = {}
    for name in riders:
        reached = sorted((distances[head][name], head) for head in heads if name in distances[head])
        if reached and (len(reached) == 1 or reached[0][0] < reached[1][0]):
            owners[name] = reached[0][1]
    return owners


def _list_ways(rig: Rig, setup: Setup, among: set[str]) -> dict[str, dict[str, int]]:
    ways: dict[str, dict[str, int]] = defaultdict(dict)
    for label in setup.leads:
        ends = sorted({ref.item for ref in rig.leads[label].plugged.values()} & among)
        for one in ends:
            ways[one].update({other: 1 for other in ends if other != one})
    for name, pairs in _list_docked(rig, setup).items():
        if name in among:
            ways[name].update({far.item: 0 for _, far in pairs if far.item in among})
    return ways


def _measure(start: str, ways: dict[str, dict[str, int]], heads: set[str]) -> dict[str, int]:
    """Leads on the shortest way from a head to each item; no way goes on through another head."""
    distances: dict[str, int] = {}
    heap = [(0, start)]
    while heap:
        distance, name = heapq.heappop(heap)
        if name in distances:
            continue
        distances[name] = distance
        if name in heads and name != start:
            continue
        for other, step in ways[name].items() if name in ways else ():
            if other not in distances:
                heapq.heappush(heap, (distance + step, other))
    return distances
