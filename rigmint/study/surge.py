"""What starts at once when a lead is plugged, and what fuses inside devices carry."""

from __future__ import annotations

from collections.abc import Iterator, Set
from dataclasses import dataclass

from rigmint.graph.pins import Source
from rigmint.physics.circuit import Solution
from rigmint.rig.rig import Setup
from rigmint.study.power import Point, Power, list_fed_loads
from rigmint.study.powering import Powering


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
    fed = {rail.load.key for rail in powered.rails} - powered.list_unpowered_keys()
    lost = without.list_unpowered_keys() & fed
    loads = [rail.load for rail in powered.rails if rail.load.key in lost]
    feeding = max(
        (source for source in _list_feeding(power, setup, lost) if typical.sources[source.place].amps > 0),
        key=lambda source: typical.sources[source.place].amps,
        default=None,
    )
    if feeding is None:
        return None
    volts = max(typical.sources[feeding.place].volts, 1.0)
    running = sum(load.draw.watts_at(volts) for load in loads)
    starting = sum(load.rail.start.watts_at(volts) for load in loads if load.rail.start is not None)
    rest = max(typical.sources[feeding.place].amps - running / volts, 0.0)
    return Surge(label, feeding, rest + starting / volts, frozenset(load.item for load in loads))


def _list_feeding(power: Power, setup: Setup, rails: Set[tuple[str, str]]) -> Iterator[Source]:
    """The live sources that feed one of these rails."""
    built = power.circuit
    for index, source in enumerate(built.sources):
        fed = (built.loads[load] for load in list_fed_loads(built, index))
        if source.item not in setup.off and any(load.key in rails for load in fed):
            yield source


def list_inner_fuses(power: Power, solution: Solution | None) -> Iterator[InnerFuse]:
    """Every fuse inside an item, with its current."""
    if solution is None:
        return
    for join, amps in zip(power.circuit.joins, solution.resistor_amps, strict=True):
        bridge = join.bridge
        if bridge is not None and bridge.fuse is not None and bridge.fuse.inside:
            yield InnerFuse(join.owner, bridge.fuse.amps, abs(float(amps)))
