"""Which rails are powered, with the switches as they are set, and what is missing where one is not.

A search like worst volts, on what conducts now: a rail is powered when a live source's plus reaches it and its ground
leads back to that source's minus.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from rigmint.graph.nets import find_nets
from rigmint.graph.pins import Join, JoinKind, Load, OneWay, PinNetwork, Regulator
from rigmint.rig.electric import Bridge
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.conditions import Barred, judge_when
from rigmint.study.potentials import Potentials, spread_potentials


class Feed(Enum):
    """How a rail is fed."""

    POWERED = "powered"
    NO_PLUS = "no plus"
    NO_RETURN = "no return"
    BY_SHIELD = "return through a signal lead only"
    SWITCHED_OFF = "switched off"


@dataclass(frozen=True, slots=True)
class RailFeed:
    """A loaded rail and how it is fed. `switch` names the setting that keeps it off."""

    load: Load
    feed: Feed
    switch: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Powering:
    """The study of one setup; loads of items that are off are left out."""

    rails: tuple[RailFeed, ...]

    def unpowered(self) -> tuple[RailFeed, ...]:
        """The rails that no source feeds."""
        return tuple(rail for rail in self.rails if rail.feed is not Feed.POWERED)

    def list_unpowered_keys(self) -> frozenset[tuple[str, str]]:
        """(item, rail) of the rails that no source feeds."""
        return frozenset(rail.load.key for rail in self.unpowered())

    def list_without_return(self) -> tuple[tuple[str, str], ...]:
        """(item, rail) of the loads that get plus and have no way back: no current flows there."""
        return tuple(rail.load.key for rail in self.rails if rail.feed is Feed.NO_RETURN)


def study_powering(rig: Rig, setup: Setup, network: PinNetwork) -> Powering:
    """The study, on the network of what is there."""
    closed = close_switches(rig, setup, network)
    now = NetworkReach(closed, setup)
    rails: list[RailFeed] = []
    loads = [load for load in network.loads if load.item not in setup.off]
    dead = [load for load in loads if not now.feeds(load)]
    ever = NetworkReach(network, setup) if dead else now
    by_feed = NetworkReach(without_signal_returns(rig, closed), setup) if loads else now
    for load in loads:
        if load not in dead:
            feed = Feed.POWERED if by_feed.feeds(load) else Feed.BY_SHIELD
            rails.append(RailFeed(load, feed))
        elif ever.feeds(load):
            rails.append(RailFeed(load, Feed.SWITCHED_OFF, _find_open_switch(rig, setup, network, load)))
        else:
            rails.append(RailFeed(load, Feed.NO_RETURN if now.brings_plus(load) else Feed.NO_PLUS))
    return Powering(tuple(rails))


def list_returning_ports(rig: Rig, setup: Setup, network: PinNetwork) -> set[PortRef]:
    """The power ports to which a source brings its plus and leads its minus back, signal leads left out."""
    reach = NetworkReach(without_signal_returns(rig, network), setup)
    return {
        PortRef(item, port.name)
        for item in setup.items
        for port in rig.items[item].part.ports.values()
        if port.carries_power
        and reach.stands_at(
            network.port_pins(PortRef(item, port.name), tuple(port.feeds)),
            network.port_pins(PortRef(item, port.name), port.minus_contacts),
        )
    }


def find_drops(rig: Rig, setup: Setup, network: PinNetwork, powering: Powering, item: str) -> tuple[str, ...]:
    """The items that lose power when an item is taken out of the rig, itself apart. `powering`: with it."""
    before = {rail.load.item for rail in powering.unpowered()}
    without = without_item(network, item)
    after = {rail.load.item for rail in study_powering(rig, setup, without).unpowered()}
    return tuple(sorted(after - before - {item}))


def without_item(network: PinNetwork, item: str) -> PinNetwork:
    """The network with an item and all that touches it taken out."""
    return replace(
        network,
        joins=tuple(join for join in network.joins if item not in _owners(network, join)),
        diodes=tuple(diode for diode in network.diodes if diode.owner != item),
        regulators=tuple(one for one in network.regulators if one.owner != item),
        sources=tuple(source for source in network.sources if source.item != item),
        loads=tuple(load for load in network.loads if load.item != item),
    )


def _owners(network: PinNetwork, join: Join) -> tuple[str, str]:
    return network.pins[join.first].owner, network.pins[join.second].owner


def close_switches(rig: Rig, setup: Setup, network: PinNetwork) -> PinNetwork:
    """The network with bridges whose settings keep them open taken out; unknown settings count as closed."""

    def is_open(owner: str, bridge: Bridge | None) -> bool:
        return (
            bridge is not None
            and bool(bridge.when)
            and isinstance(judge_when(rig.items[owner], bridge.when, setup), Barred)
        )

    return replace(
        network,
        joins=tuple(join for join in network.joins if not is_open(join.owner, join.bridge)),
        diodes=tuple(diode for diode in network.diodes if not is_open(diode.owner, diode.bridge)),
        regulators=tuple(reg for reg in network.regulators if not is_open(reg.owner, reg.bridge)),
    )


@dataclass(frozen=True, slots=True)
class SourceReach:
    """What a source reaches, and the net of each pin by which it is told."""

    nets: Sequence[int]
    potentials: Potentials


def is_fed(load: Load, reaches: Iterable[SourceReach]) -> bool:
    """Whether a source drives current through a load, either way round."""
    return any(
        one.potentials.across(one.nets[load.rail_pin], one.nets[load.ground]) is not None
        or (one.potentials.shorted is not None and one.nets[load.rail_pin] in one.potentials.plus)
        for one in reaches
    )


class NetworkReach:
    """What all live sources reach on a network."""

    def __init__(self, network: PinNetwork, setup: Setup) -> None:
        self._nets = find_nets(network)
        self._reaches: list[Potentials] = [
            spread_potentials(network, self._nets, source, source.highest)
            for source in network.sources
            if source.item not in setup.off
        ]

    def feeds(self, load: Load) -> bool:
        """Whether a source drives current through the load, either way round."""
        return is_fed(load, (SourceReach(self._nets, reach) for reach in self._reaches))

    def stands_at(self, feeds: tuple[int, ...], minus: tuple[int, ...]) -> bool:
        """Whether a source stands between any two of these pins, the right way round or not."""
        return any(
            reach.across(self._nets[feed], self._nets[back]) is not None
            for reach in self._reaches
            for feed in feeds
            for back in minus
        )

    def feeds_reversed(self, load: Load) -> bool:
        """Whether a source stands across the load the wrong way round."""
        rail, ground = self._nets[load.rail_pin], self._nets[load.ground]
        return any((volts := reach.across(rail, ground)) is not None and volts < 0 for reach in self._reaches)

    def brings_plus(self, load: Load) -> bool:
        """Whether a source's plus reaches the rail."""
        return any(self._nets[load.rail_pin] in reach.plus for reach in self._reaches)


def without_signal_returns(rig: Rig, network: PinNetwork) -> PinNetwork:
    """The network without the minus contacts of ports that have no feed: returns by signal."""

    def is_signal_return(join: Join) -> bool:
        if join.kind is not JoinKind.INSIDE:
            return False
        pin = network.pins[join.first]
        port = rig.items[pin.owner].part.ports.get(pin.group) if pin.owner in rig.items else None
        return port is not None and not port.feeds

    return replace(network, joins=tuple(join for join in network.joins if not is_signal_return(join)))


def _find_open_switch(rig: Rig, setup: Setup, network: PinNetwork, load: Load) -> tuple[str, str] | None:
    """The first setting that keeps a switch open without which the load is not fed."""
    elements: list[Join | OneWay | Regulator] = [*network.joins, *network.diodes, *network.regulators]
    for element in sorted(elements, key=lambda one: one.owner != load.item):
        if element.bridge is None or element.owner not in rig.items:
            continue
        item = rig.items[element.owner]
        for name, values in element.bridge.when.items():
            if setup.setting(element.owner, name) in (None, *values):
                continue
            opened = _with_setting_met(rig, setup, network, element.bridge, item.name)
            if NetworkReach(opened, setup).feeds(load):
                return item.name, name
    return None


def _with_setting_met(rig: Rig, setup: Setup, network: PinNetwork, bridge: Bridge, item: str) -> PinNetwork:
    kept = close_switches(rig, setup, network)
    joins = [join for join in network.joins if join.bridge is bridge and join.owner == item]
    diodes = [diode for diode in network.diodes if diode.bridge is bridge and diode.owner == item]
    regulators = [one for one in network.regulators if one.bridge is bridge and one.owner == item]
    return replace(
        kept,
        joins=(*kept.joins, *joins),
        diodes=(*kept.diodes, *diodes),
        regulators=(*kept.regulators, *regulators),
    )
