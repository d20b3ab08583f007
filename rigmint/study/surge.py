"""What starts at once when a lead is plugged, and what fuses inside devices carry."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import TypeAlias

from rigmint.graph.pins import Source
from rigmint.physics.circuit import Solution
from rigmint.rig.rig import Setup
from rigmint.study.power import Point, Power, list_fed_loads
from rigmint.study.powering import Powering

Key: TypeAlias = tuple[str, str]
"""(item, rail) of a load."""
_ROUNDING = 1e-6


@dataclass(frozen=True, slots=True)
class Surge:
    """A lead, the source behind it, and the A that it gives in the moment of plugging."""

    label: str
    source: Source
    amps: float
    items: frozenset[str]
    """What starts."""


@dataclass(frozen=True, slots=True)
class InnerFuse:
    """A fuse inside an item and the A that it carries."""

    item: str
    limit: float
    amps: float


def find_surge(
    power: Power, feeding: Sequence[tuple[Source, Set[Key]]], label: str, powered: Powering, unpowered: Set[Key]
) -> Surge | None:
    """The surge of plugging `label`: the starting watts of what it alone feeds, over the volts of its source at
    typical, on top of what the source gives to the rest. `feeding`: by `list_feeding`; `unpowered`: without the lead.
    """
    typical = power.points[Point.TYPICAL]
    if not typical.solved:
        return None
    fed = {rail.load.key for rail in powered.rails} - powered.list_unpowered_keys()
    lost = unpowered & fed
    loads = [rail.load for rail in powered.rails if rail.load.key in lost]
    source = max(
        (one for one, rails in feeding if not lost.isdisjoint(rails) and typical.sources[one.place].amps > 0),
        key=lambda one: typical.sources[one.place].amps,
        default=None,
    )
    if source is None:
        return None
    volts = max(typical.sources[source.place].volts, 1.0)
    running = sum(load.draw.watts_at(volts) for load in loads)
    starting = sum(load.rail.start.watts_at(volts) for load in loads if load.rail.start is not None)
    rest = max(typical.sources[source.place].amps - running / volts, 0.0)
    return Surge(label, source, rest + starting / volts, frozenset(load.item for load in loads))


def list_feeding(power: Power, setup: Setup) -> tuple[tuple[Source, Set[Key]], ...]:
    """Each live source with the (item, rail) of what it feeds."""
    built = power.circuit
    return tuple(
        (source, frozenset(built.loads[load].key for load in list_fed_loads(built, index)))
        for index, source in enumerate(built.sources)
        if source.item not in setup.off
    )


def may_trip(power: Power, setup: Setup, islands: Mapping[str, int]) -> bool:
    """Whether any lead might trip a source by being plugged: not where each source stands the starting of all that is
    joined to it, on top of what it gives already, which no single lead can surpass. `islands`: of items."""
    typical = power.points[Point.TYPICAL]
    if not typical.solved:
        return False
    built = power.circuit
    for source in built.sources:
        if source.item in setup.off or not _has_trip(source):
            continue
        volts = max(typical.sources[source.place].volts, 1.0)
        joined = (load.rail.start for load in built.loads if islands.get(load.item) == islands.get(source.item))
        starting = sum(start.watts_at(volts) for start in joined if start is not None)
        if max(typical.sources[source.place].amps, 0.0) + starting / volts > (source.cell.trips or 0.0) - _ROUNDING:
            return True
    return False


def trips(surge: Surge) -> bool:
    """Whether a surge passes what its source stands."""
    return _has_trip(surge.source) and surge.amps > (surge.source.cell.trips or 0.0)


def _has_trip(source: Source) -> bool:
    return source.cell.trips is not None and not math.isinf(source.cell.trips)


def list_inner_fuses(power: Power, solution: Solution | None) -> Iterator[InnerFuse]:
    """Every fuse inside an item, with its current."""
    if solution is None:
        return
    for join, amps in zip(power.circuit.joins, solution.resistor_amps, strict=True):
        bridge = join.bridge
        if bridge is not None and bridge.fuse is not None and bridge.fuse.inside:
            yield InnerFuse(join.owner, bridge.fuse.amps, abs(float(amps)))
