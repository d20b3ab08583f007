"""What a connection is there for: power, control or picture. One that is broken still belongs where it was meant."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from rigmint.graph.lead_contacts import Contact, spread_contacts
from rigmint.rig.electric import MINUS
from rigmint.rig.rig import Dock, Lead, Link, Rig
from rigmint.words import AXES


class Layer(StrEnum):
    """What a connection is there for."""

    POWER = "power"
    CONTROL = "control"
    PICTURE = "picture"


_CONTROL = frozenset(AXES) | {"range"}


def find_token_layer(token: str) -> Layer:
    """The layer of an axis or a flow; a range finder's measure is there for the lens."""
    return Layer.CONTROL if token in _CONTROL else Layer.PICTURE


def find_lead_layers(rig: Rig, lead: Lead) -> frozenset[Layer]:
    """The layers of a lead: power where a feed goes on through it, signals by what its two sides speak."""
    spoken = [rig.port(ref).speaks for ref in lead.plugged.values()]
    shared = find_protocol_layers(rig, _list_shared(spoken))
    if _brings_power(rig, lead):
        return shared | {Layer.POWER}
    layers = shared or find_protocol_layers(rig, {name for names in spoken for name in names})
    return layers or (frozenset({Layer.POWER}) if _is_between_power(rig, lead) else layers)


def find_dock_layers(rig: Rig, dock: Dock) -> frozenset[Layer]:
    """The layers of a dock; empty for a mechanical one."""
    ports = [rig.port(ref) for ref in (dock.first, dock.second)]
    layers = find_protocol_layers(rig, _list_shared([port.speaks for port in ports]))
    return layers | {Layer.POWER} if all(port.carries_power for port in ports) else layers


def find_link_layers(rig: Rig, link: Link) -> frozenset[Layer]:
    """The layers of a link, by what its radios speak."""
    spoken = [rig.radio(ref).speaks for ref in link.radios]
    return find_protocol_layers(rig, _list_shared(spoken) or {name for names in spoken for name in names})


def find_protocol_layers(rig: Rig, protocols: Iterable[str]) -> frozenset[Layer]:
    """The layers of what runs over a connection: a radio that carries pictures and hands is in both."""
    layers: set[Layer] = set()
    for name in protocols:
        carried = rig.protocols[name].carries
        layers |= {Layer.CONTROL} if carried & _CONTROL else set()
        layers |= {Layer.PICTURE} if carried - _CONTROL else set()
    return frozenset(layers)


def _list_shared(spoken: list[tuple[str, ...]]) -> set[str]:
    """What at least two of the ends speak."""
    everything = [name for names in spoken for name in set(names)]
    return {name for name in everything if everything.count(name) > 1}


def _brings_power(rig: Rig, lead: Lead) -> bool:
    """Whether a conductor takes a feed of one port to a contact that another port uses, or into the air."""
    used = _list_used_contacts(rig, lead)
    for end, ref in lead.plugged.items():
        feeds = {(end, contact) for contact in rig.port(ref).feeds}
        reached = {contact for contact in spread_contacts(feeds, lead.body.conductors) if contact[0] != end}
        reached |= _pass_regulators(lead, feeds)
        if reached and (reached & used or lead.loose & {contact[0] for contact in reached}):
            return True
    return False


def _list_used_contacts(rig: Rig, lead: Lead) -> set[Contact]:
    return {
        (end, contact)
        for end, ref in lead.plugged.items()
        for contact, role in rig.port(ref).pins.items()
        if role != MINUS or rig.port(ref).carries_power
    }


def _pass_regulators(lead: Lead, feeds: set[Contact]) -> set[Contact]:
    return {
        (one.target.end, one.target.contact)
        for one in lead.body.conductors
        if one.regulator is not None and (one.source.end, one.source.contact) in feeds
    }


def _is_between_power(rig: Rig, lead: Lead) -> bool:
    """Whether it is plugged in as a power lead, though nothing comes through."""
    return bool(lead.plugged) and all(rig.port(ref).carries_power for ref in lead.plugged.values())
