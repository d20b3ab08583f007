"""A single fault as a change of a rig, of a setup, and of its pin-level network."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.pins import PinNetwork, open_conductor, take_out_lead
from rigmint.graph.presence import Presence
from rigmint.rig.rig import Rig, Setup
from rigmint.study.fault_list import FaultKind, SingleFault
from rigmint.study.powering import close_switches, without_item

OPENS = frozenset({FaultKind.PLUS_OPEN, FaultKind.MINUS_OPEN})


def break_setup(rig: Rig, setup: Setup, fault: SingleFault) -> Setup:
    """What is there with the fault."""
    if fault.kind is FaultKind.LEAD_OUT:
        return replace(setup, leads=setup.leads - {fault.at})
    if fault.kind is FaultKind.LINK_LOST:
        return replace(setup, links=setup.links - {fault.at})
    if fault.kind is FaultKind.ITEM_OFF:
        return replace(setup, off=setup.off | {fault.at})
    return take_out_item(rig, setup, fault.at) if fault.kind is FaultKind.SOURCE_OUT else setup


def take_out_item(rig: Rig, setup: Setup, item: str) -> Setup:
    """The setup without an item: its leads, docks and links are gone too, as with `out:` in a rig file."""
    items = setup.items - {item}

    def is_linked(name: str) -> bool:
        radios = rig.links[name].radios
        return radios[0].item in items and sum(ref.item in items for ref in radios) > 1

    def is_docked(index: int) -> bool:
        dock = next(one for one in rig.docks if one.index == index)
        return dock.first.item in items and dock.second.item in items

    def is_plugged(label: str) -> bool:
        return all(ref.item in items for ref in rig.leads[label].plugged.values())

    return replace(
        setup,
        items=items,
        off=setup.off - {item},
        leads=frozenset(label for label in setup.leads if is_plugged(label)),
        docks=frozenset(index for index in setup.docks if is_docked(index)),
        links=frozenset(name for name in setup.links if is_linked(name)),
    )


def break_rig(rig: Rig, fault: SingleFault) -> Rig:
    """The rig with a conductor open: as if it were not soldered."""
    if fault.kind not in OPENS:
        return rig
    lead = rig.leads[fault.at]
    conductors = tuple(one for one in lead.body.conductors if one.index != fault.conductor)
    broken = replace(lead, body=replace(lead.body, conductors=conductors))
    return replace(rig, leads=MappingProxyType({**rig.leads, lead.label: broken}))


def break_network(rig: Rig, setup: Setup, closed: PinNetwork, fault: SingleFault) -> PinNetwork:
    """The network with the fault; `closed` is that of the setup, its open switches taken out. Elements that stay are
    the same objects, unless the fault changes what a USB supply agrees on: then the network is built anew."""
    if _may_renegotiate(rig, setup, fault):
        broken, left = break_rig(rig, fault), break_setup(rig, setup, fault)
        return close_switches(broken, left, build_pin_network(broken, Presence.of(left)))
    match fault.kind:
        case FaultKind.LEAD_OUT:
            return take_out_lead(closed, fault.at)
        case FaultKind.PLUS_OPEN | FaultKind.MINUS_OPEN:
            return open_conductor(closed, fault.at, fault.conductor)
        case FaultKind.SOURCE_FLAT:
            return replace(closed, sources=tuple(one for one in closed.sources if one.place != fault.at))
        case FaultKind.SOURCE_OUT:
            left = break_setup(rig, setup, fault)
            for label in sorted(setup.leads - left.leads):
                closed = take_out_lead(closed, label)
            return without_item(closed, fault.at)
        case FaultKind.LINK_LOST | FaultKind.ITEM_OFF:
            return closed


def _may_renegotiate(rig: Rig, setup: Setup, fault: SingleFault) -> bool:
    """Whether a lead that the fault touches, or a dock of what is taken out, sits in a port that offers several
    voltages."""
    if fault.kind is FaultKind.SOURCE_OUT:
        gone = set(setup.leads) - break_setup(rig, setup, fault).leads
        docked = [ref for dock in rig.docks if dock.index in setup.docks for ref in (dock.first, dock.second)]
        is_offered = any(rig.port(ref).offers for ref in docked)
    elif fault.kind is FaultKind.LEAD_OUT or fault.kind in OPENS:
        gone, is_offered = {fault.at}, False
    else:
        return False
    return is_offered or any(rig.port(ref).offers for label in gone for ref in rig.leads[label].plugged.values())
