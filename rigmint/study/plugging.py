"""The order in which a rig is plugged: loads before sources, power before signals, batteries last. It is verified mate
by mate: nothing that is plugged so far breaks a limit, and no return runs through a signal lead.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import IntEnum

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.presence import Presence
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.layers import Layer, find_dock_layers, find_lead_layers
from rigmint.study.powering import Feed, study_powering
from rigmint.study.worst_volts import REVERSED_MARGIN, WorstVolts, study_worst_volts

SOURCE_KINDS = ("battery", "supply")


class Turn(IntEnum):
    """When a mate has its turn."""

    POWER = 0
    SIGNAL = 1
    SOURCE = 2


@dataclass(frozen=True, slots=True)
class Mating:
    """A lead, or a dock that conducts (`dock:INDEX`), and the ports that it joins."""

    place: str
    turn: Turn
    refs: tuple[PortRef, ...]


@dataclass(frozen=True, slots=True)
class Conflict:
    """A mate for which no turn was found: with it, and what was plugged before, a limit breaks that the whole rig
    keeps. `victim` is the place, `says` what happens there."""

    place: str
    victim: str
    says: str


@dataclass(frozen=True, slots=True)
class PluggingOrder:
    """The mates in their order; unplugging is the reverse. Mechanical docks are made before any of them."""

    matings: tuple[Mating, ...]
    conflicts: tuple[Conflict, ...]


def find_plugging_order(rig: Rig, setup: Setup) -> PluggingOrder:
    """By class, then whatever is farthest from a source first; a mate that would break a limit waits for another."""
    waiting = _sort(rig, setup, list_matings(rig, setup))
    allowed = _Limits(rig, setup).list_breaches({mating.place for mating in waiting}, setup.items)
    limits = _Limits(rig, setup)
    done: list[Mating] = []
    conflicts: list[Conflict] = []
    while waiting:
        chosen, breach = _choose(limits, done, waiting, allowed)
        waiting.remove(chosen)
        done.append(chosen)
        limits.join(chosen)
        if breach is not None:
            conflicts.append(Conflict(chosen.place, *breach))
    return PluggingOrder(tuple(done), tuple(conflicts))


def list_matings(rig: Rig, setup: Setup) -> list[Mating]:
    """Every lead and every dock that carries power or signals, in the order of the file."""
    matings = []
    for label, lead in rig.leads.items():
        if label in setup.leads and lead.plugged:
            refs = tuple(ref for _, ref in sorted(lead.plugged.items()))
            matings.append(Mating(label, _find_turn(rig, refs, find_lead_layers(rig, lead)), refs))
    for dock in rig.docks:
        layers = find_dock_layers(rig, dock)
        if dock.index in setup.docks and layers:
            refs = (dock.first, dock.second)
            matings.append(Mating(f"dock:{dock.index}", _find_turn(rig, refs, layers), refs))
    return matings


def _find_turn(rig: Rig, refs: Sequence[PortRef], layers: frozenset[Layer]) -> Turn:
    if any(rig.items[ref.item].part.kind in SOURCE_KINDS and rig.port(ref).carries_power for ref in refs):
        return Turn.SOURCE
    return Turn.POWER if Layer.POWER in layers else Turn.SIGNAL


def _sort(rig: Rig, setup: Setup, matings: list[Mating]) -> list[Mating]:
    distances = measure_from_sources(rig, setup, matings)
    far = len(rig.items) + 1
    order = {mating.place: index for index, mating in enumerate(matings)}
    return sorted(
        matings,
        key=lambda one: (
            one.turn,
            one.place.startswith("dock:") if one.turn is Turn.SOURCE else False,
            -min(distances.get(ref.item, far) for ref in one.refs),
            order[one.place],
        ),
    )


def measure_from_sources(rig: Rig, setup: Setup, matings: Sequence[Mating]) -> Mapping[str, int]:
    """Item to the number of power mates between it and the nearest battery or supply; items that none reaches lack."""
    near: dict[str, set[str]] = {}
    for mating in matings:
        if mating.turn is not Turn.SIGNAL:
            items = {ref.item for ref in mating.refs}
            for item in items:
                near.setdefault(item, set()).update(items - {item})
    front = [name for name in setup.items if rig.items[name].part.kind in SOURCE_KINDS and name not in setup.off]
    distances = dict.fromkeys(front, 0)
    for item in (queue := sorted(front)):
        for other in sorted(near.get(item, ())):
            if other not in distances:
                distances[other] = distances[item] + 1
                queue.append(other)
    return distances


_Breach = tuple[str, str]
"""(place, what happens there)."""


def _choose(
    limits: _Limits, done: Sequence[Mating], waiting: Sequence[Mating], allowed: frozenset[_Breach]
) -> tuple[Mating, _Breach | None]:
    """The first that breaks nothing; where each does, the first, and what it breaks."""
    first: _Breach | None = None
    for mating in waiting:
        breaches = limits.list_with(done, mating) - allowed
        if not breaches:
            return mating, None
        first = first or min(breaches)
    return waiting[0], first


class _Limits:
    """What breaks in a rig of which only some mates are plugged. Islands are kept, so that only what holds a live
    source is looked at, and of the rig only that part."""

    def __init__(self, rig: Rig, setup: Setup) -> None:
        self._rig = rig
        self._setup = setup
        self._island = {item: frozenset((item,)) for item in setup.items}
        mechanical = {dock.index for dock in rig.docks if dock.index in setup.docks and not find_dock_layers(rig, dock)}
        self._mechanical = frozenset(mechanical)
        for index in sorted(mechanical):
            self._unite((rig.docks[index].first.item, rig.docks[index].second.item))

    def join(self, mating: Mating) -> None:
        """Plug one for good."""
        self._unite([ref.item for ref in mating.refs])

    def _unite(self, items: Sequence[str]) -> None:
        whole = frozenset().union(*(self._island[item] for item in items))
        self._island |= dict.fromkeys(whole, whole)

    def list_with(self, done: Sequence[Mating], mating: Mating) -> frozenset[_Breach]:
        """What breaks on the island that a mate makes, with what is plugged."""
        island = frozenset().union(*(self._island[ref.item] for ref in mating.refs))
        if not any(self._rig.items[item].part.cells and item not in self._setup.off for item in island):
            return frozenset()
        return self.list_breaches({one.place for one in (*done, mating)}, island)

    def list_breaches(self, plugged: set[str], items: frozenset[str]) -> frozenset[_Breach]:
        """What breaks among some items with these mates plugged."""
        rig, setup = self._rig, self._setup
        docks = self._mechanical | {index for index in setup.docks if f"dock:{index}" in plugged}
        presence = Presence(
            items,
            frozenset(
                label
                for label in setup.leads & plugged
                if all(ref.item in items for ref in rig.leads[label].plugged.values())
            ),
            frozenset(i for i in docks if rig.docks[i].first.item in items and rig.docks[i].second.item in items),
            setup.off & items,
        )
        network = build_pin_network(rig, presence)
        volts = study_worst_volts(rig, network, setup.off)
        powering = study_powering(rig, setup, network)
        shielded = [
            (rail.load.item, f"{rail.load.item} returns through a signal lead")
            for rail in powering.rails
            if rail.feed is Feed.BY_SHIELD
        ]
        return frozenset((*list_volt_breaches(volts), *shielded))


def list_volt_breaches(volts: WorstVolts) -> Iterator[_Breach]:
    """What worst volts break: ports over or under what they survive, plus on signals, sources shorted."""
    for ref, port in volts.ports.items():
        survives = port.port.survives
        if survives is None:
            continue
        if port.high is not None and port.high.volts > survives.high:
            yield ref.place, f"{ref.place} gets more than the {survives.high:g} V that it survives"
        if port.low is not None and port.low.volts < survives.low - REVERSED_MARGIN:
            yield ref.place, f"{ref.place} is fed the wrong way round"
    for signal in volts.signals:
        yield signal.ref.place, f"{signal.ref.place} gets plus on {signal.signal}"
    for source in volts.shorts:
        yield source.source.place, f"{source.source.place} is shorted"
