"""Feeds that arrive where feeds leave: outputs raised from outside, and sources that meet with nothing between."""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass

from rigmint.graph.pins import Pin, PinNetwork, Source
from rigmint.rig.electric import BridgeKind, Cell, Port, Role
from rigmint.rig.house import PowerFigures
from rigmint.rig.part import Part
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.lead_ohms import conductor_ohms
from rigmint.study.paths import Hop, Neighbours, Way, find_way, list_hops
from rigmint.study.potentials import Potentials
from rigmint.study.power import curve_of
from rigmint.study.worst_volts import WorstVolts

_HEAVY_LOAD = 1.0
"""W above which current pushed into a rail counts as feeding it."""
PRESENT = 0.5
"""V from which a foreign source raises an output."""


@dataclass(frozen=True, slots=True)
class Backfeed:
    """An output that a foreign source raises. `guessed`: only if a regulator conducts backwards that does not say."""

    ref: PortRef
    volts: float
    source: Source
    way: Way
    guessed: bool


@dataclass(frozen=True, slots=True)
class TiedSources:
    """Two sources that meet: the fresh one pushes `amps` into the other at its change-over."""

    giver: Source
    taker: Source
    amps: float
    way: Way


def find_backfeeds(rig: Rig, worst: WorstVolts) -> tuple[Backfeed, ...]:
    """Every port of role out whose rail can take current and that a source of another item reaches from outside."""
    network = worst.network
    hops: Neighbours | None = None
    found = []
    for ref, volts in worst.ports.items():
        part = rig.items[ref.item].part
        if volts.port.role is not Role.OUT:
            continue
        for potentials in worst.potentials:
            if potentials.source.item == ref.item or potentials.shorted is not None:
                continue
            across = _volts_at(worst, ref, volts.port, potentials)
            if across is None or across <= PRESENT:
                continue
            intake = find_intake(part, volts.port, across)
            if intake is None:
                continue
            hops = hops if hops is not None else list_hops(network, outwards=True)
            way = _find_foreign_way(network, hops, ref, volts.port, potentials, worst.nets)
            if way is not None:
                found.append(Backfeed(ref, across, potentials.source, way, intake or way.guessed))
                break
    return tuple(found)


def find_intake(part: Part, port: Port, volts: float) -> bool | None:
    """Whether current pushed into an output by so many volts goes anywhere inside the part: None, it does not; True,
    only through a regulator that does not state whether it blocks; False, it does. Plates and breakouts only hand it
    on, and a battery takes none from less than its own lowest volts."""
    pending = list(dict.fromkeys(port.feeds.values()))
    seen: set[str] = set()
    guessed = False
    while pending:
        rail = pending.pop()
        if rail in seen:
            continue
        seen.add(rail)
        load = part.rails[rail].load
        heavy = load is not None and load.watts_at(port.works.high if port.works else 12.0) > _HEAVY_LOAD
        if heavy or any(cell.rail == rail and volts > cell.volts.low for cell in part.cells.values()):
            return False
        for bridge in part.bridges:
            if bridge.kind in (BridgeKind.WIRE, BridgeKind.SWITCH) and rail in (bridge.source, bridge.target):
                pending += [bridge.source, bridge.target]
            elif bridge.source == rail:
                pending.append(bridge.target)
            elif bridge.regulator is not None and bridge.target == rail:
                if bridge.regulator.blocks is False:
                    return False
                guessed = guessed or bridge.regulator.blocks is None
    return True if guessed else None


def _find_foreign_way(
    network: PinNetwork, hops: Neighbours, ref: PortRef, port: Port, potentials: Potentials, nets: Sequence[int]
) -> Way | None:
    """The way from a source to a port's feed that does not pass through the port's own part."""
    goals = {network.index[Pin(ref.item, ref.port, contact)] for contact in port.feeds}
    if not any(nets[goal] in potentials.plus for goal in goals):
        return None

    def is_outside(pin: int) -> bool:
        return network.pins[pin].owner != ref.item and nets[pin] in potentials.plus

    return find_way(network, hops, potentials.source.plus, goals, allowed=is_outside)


def _volts_at(worst: WorstVolts, ref: PortRef, port: Port, potentials: Potentials) -> float | None:
    minus = worst.nets[worst.network.port_pins(ref, port.minus_contacts)[0]]
    found = [
        potentials.across(worst.nets[worst.network.index[Pin(ref.item, ref.port, contact)]], minus)
        for contact in port.feeds
    ]
    return max((volts for volts in found if volts is not None), default=None)


def find_tied_sources(rig: Rig, worst: WorstVolts, figures: PowerFigures) -> tuple[TiedSources, ...]:
    """Every pair of sources of which a fresh one pushes more into the other than it may take."""
    found = []
    both_hops: tuple[Neighbours, Neighbours] | None = None
    for giving in worst.potentials:
        for taking in worst.potentials:
            taker = taking.source
            if giving.source is taker or giving.source.item == taker.item or giving.shorted is not None:
                continue
            across = giving.across(worst.nets[taker.plus], worst.nets[taker.minus])
            if across is None or across <= 0:
                continue
            if both_hops is None:
                both_hops = (
                    _with_ohms(rig, worst.network, outwards=True, figures=figures),
                    _with_ohms(rig, worst.network, outwards=False, figures=figures),
                )
            tied = _measure(worst.network, giving, taker, across, *both_hops, figures)
            if tied is not None and tied.amps > taker.cell.charge + 1e-6:
                found.append(tied)
    return tuple(found)


def change_over_volts(cell: Cell, figures: PowerFigures) -> float:
    """V without load at which the crew changes a battery; a supply gives its lowest."""
    if not cell.is_battery:
        return cell.volts.low
    return curve_of(cell).find_volts(figures.change_at)


def _measure(
    network: PinNetwork,
    giving: Potentials,
    taker: Source,
    across: float,
    out_hops: Neighbours,
    back_hops: Neighbours,
    figures: PowerFigures,
) -> TiedSources | None:
    giver = giving.source
    there = _find_least_ohms(out_hops, giver.plus, taker.plus)
    back = _find_least_ohms(back_hops, giver.minus, taker.minus)
    way = find_way(network, out_hops, giver.plus, {taker.plus})
    if there is None or back is None or way is None:
        return None
    spare = giver.highest - giver.cell.volts.high if giver.fixed is None else 0.0
    volts = across - spare - change_over_volts(taker.cell, figures)
    ohms = there + back + giver.cell.resistance + taker.cell.resistance
    return TiedSources(giver, taker, volts / ohms, way) if volts > 0 else None


def _with_ohms(rig: Rig, network: PinNetwork, *, outwards: bool, figures: PowerFigures) -> Neighbours:
    hops = list_hops(network, outwards=outwards)
    wires = [(join.first, join.second, join.owner, join.conductor) for join in network.joins]
    wires += [(diode.anode, diode.cathode, diode.owner, diode.conductor) for diode in network.diodes]
    ohms = {
        frozenset((near, far)): conductor_ohms(rig.leads[label], conductor, figures.wire_temperature)
        for near, far, label, conductor in wires
        if conductor is not None
    }
    return {
        pin: [
            Hop(hop.pin, ohms.get(frozenset((pin, hop.pin)), hop.ohms), mate=hop.mate)
            for hop in following
            if not hop.guessed  # what may block ties nothing
        ]
        for pin, following in hops.items()
    }


def _find_least_ohms(hops: Neighbours, start: int, goal: int) -> float | None:
    heap = [(0.0, start)]
    done: set[int] = set()
    while heap:
        ohms, pin = heapq.heappop(heap)
        if pin == goal:
            return ohms
        if pin in done:
            continue
        done.add(pin)
        for hop in hops.get(pin, ()):
            if hop.pin not in done:
                heapq.heappush(heap, (ohms + hop.ohms, hop.pin))
    return None
