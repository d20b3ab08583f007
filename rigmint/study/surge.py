"""What starts at once when a lead is plugged, and what fuses inside devices carry."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from rigmint.graph.pins import Source
from rigmint.physics.circuit import Solution
from rigmint.rig.rig import Setup
from rigmint.study.power import Point, Power, list_fed_loads
from rigmint.study.powering import Powering, RailFeed


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


def find_surge(setup: Setup, power: Power, label: str, powered: Powering, without: Powering) -> Surge | None:
    """The surge of plugging `label`: the starting watts of what it alone feeds, over the volts of its source at
    typical, on top of what the source gives to the rest."""
    typical = power.points[Point.TYPICAL]
    if not typical.solved:
        return None
    live = _name_rails(powered.rails) - _name_rails(powered.unpowered())
    lost = _name_rails(without.unpowered()) & live
    loads = [rail.load for rail in powered.rails if _name_rail(rail) in lost]
    feeding = max(
        (source for source in _list_feeding(power, setup, lost) if typical.sources[source.place].amps > 0),
        key=lambda source: typical.sources[source.place].amps,
        default=None,
    )
    if feeding is None:
        return None
    volts = max(typical.sources[feeding.place].volts, 1.0)
    running = sum(load.rail.load.watts_at(volts) for load in loads if load.rail.load is not None)
    starting = sum(load.rail.start.watts_at(volts) for load in loads if load.rail.start is not None)
    rest = max(typical.sources[feeding.place].amps - running / volts, 0.0)
    return Surge(label, feeding, rest + starting / volts, frozenset(load.item for load in loads))


def _name_rail(rail: RailFeed) -> tuple[str, str]:
    """Item and rail: two items of one part share the rail's description, so that alone does not tell them apart."""
    return rail.load.item, rail.load.rail.name


def _name_rails(rails: Iterable[RailFeed]) -> set[tuple[str, str]]:
    return {_name_rail(rail) for rail in rails}


def _list_feeding(power: Power, setup: Setup, rails: set[tuple[str, str]]) -> Iterator[Source]:
    """The live sources that feed one of these rails."""
    built = power.circuit
    for index, source in enumerate(built.sources):
        fed = (built.loads[load] for load in list_fed_loads(built, index))
        if source.item not in setup.off and any((load.item, load.rail.name) in rails for load in fed):
            yield source


def list_inner_fuses(power: Power, solution: Solution | None) -> Iterator[InnerFuse]:
    """Every fuse inside an item, with its current."""
    if solution is None:
        return
    for join, amps in zip(power.circuit.joins, solution.resistor_amps, strict=True):
        bridge = join.bridge
        if bridge is not None and bridge.fuse is not None and bridge.fuse.inside:
            yield InnerFuse(join.owner, bridge.fuse.amps, abs(float(amps)))
