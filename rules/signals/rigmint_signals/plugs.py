"""Ends of leads and the ports that they could go into: what the rules of family `fit` share."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rigmint import Case, Lead, LeadEnd, Missing, Port, PortRef, Role, Sex, say_list

_SEXES = {Sex.PLUG: "plug", Sex.SOCKET: "socket"}
_MOST_LOST = 3


def list_leads(case: Case) -> Iterator[Lead]:
    """The leads that are there, as the file lists them."""
    return (lead for label, lead in case.rig.leads.items() if label in case.setup.leads)


def goes_in(end: LeadEnd, port: Port) -> bool:
    """Whether the end goes into the port, well."""
    return end.connector.id == port.connector.id and end.sex.mates(port.sex)


def is_meant_for(end: LeadEnd, port: Port) -> bool:
    """Whether the tags of the two agree, or one of them has none."""
    return end.tag is None or port.tag is None or end.tag == port.tag


def list_made_for(case: Case, lead: Lead, end: str) -> frozenset[str] | None:
    """The protocols that a lead is made to carry at an end, without those that carry no axis and no flow; None for a
    lead that says nothing of it."""
    if lead.body.carries is None:
        return None
    made = {carry.protocol for carry in lead.body.carries if carry.ends is None or end in carry.ends}
    return frozenset(name for name in made if case.rig.protocols[name].carries)


def list_spoken(case: Case, port: Port) -> frozenset[str]:
    """The protocols of a port that carry an axis or a flow."""
    return frozenset(name for name in port.speaks if case.rig.protocols[name].carries)


def list_partners(lead: Lead, end: str) -> list[str]:
    """The other plugged ends."""
    return [other for other in lead.plugged if other != end]


def brings_power(case: Case, lead: Lead, end: str) -> bool:
    """Whether a conductor joins the feeds of this end's port and another's, of which one gives and the other takes."""
    port = case.port(lead.plugged[end])
    for other in list_partners(lead, end):
        far = case.port(lead.plugged[other])
        one_way = {port.role, far.role} in ({Role.IN}, {Role.OUT})
        if not one_way and any(_joins_feeds(lead, (end, port), (other, far))):
            return True
    return False


def _joins_feeds(lead: Lead, near: tuple[str, Port], far: tuple[str, Port]) -> Iterator[bool]:
    for conductor in lead.body.conductors:
        for one, two in ((conductor.source, conductor.target), (conductor.target, conductor.source)):
            if one.end == near[0] and two.end == far[0]:
                yield one.contact in near[1].feeds and two.contact in far[1].feeds


def list_free_ports(case: Case, lead: Lead, end: str, item: str | None = None) -> Iterator[PortRef]:
    """The ports of an item (the one at the end, where none is named) that the end goes into, is meant for, and that
    nothing is plugged into in any setup in which the lead is there."""
    name = lead.plugged[end].item if item is None else item
    held = _list_held(case, lead)
    for port in case.rig.items[name].part.ports.values():
        ref = PortRef(name, port.name)
        if ref not in held and goes_in(lead.body.ends[end], port) and is_meant_for(lead.body.ends[end], port):
            yield ref


def _list_held(case: Case, lead: Lead) -> set[PortRef]:
    held = set(lead.plugged.values())
    for setup in case.rig.setups.values():
        if lead.label not in setup.leads:
            continue
        held |= {ref for label in setup.leads for ref in case.rig.leads[label].plugged.values()}
        held |= {ref for index in setup.docks for ref in (case.rig.docks[index].first, case.rig.docks[index].second)}
    return held


def replug(lead: Lead, moved: Mapping[str, PortRef]) -> dict[str, PortRef]:
    """The lead's ends and ports with some of them moved."""
    return {**lead.plugged, **moved}


def say_connector(connector_name: str, sex: Sex) -> str:
    """`D-shell, plug`."""
    return f"{connector_name}, {_SEXES[sex]}" if sex in _SEXES else connector_name


def say_lost(missing: tuple[Missing, ...]) -> str:
    """`, so that nobody has lens.focus or lens.iris and picture does not reach mon.screen`; empty where nothing is
    lost."""
    places: dict[str, list[str]] = {}
    for one in missing:
        is_axis = one.place.partition(".")[2] == one.token
        places.setdefault("nobody has" if is_axis else f"{one.token} does not reach", []).append(one.place)
    told = [f"{what} {say_list(where, joint='or', most=_MOST_LOST)}" for what, where in places.items()]
    return f", so that {say_list(told)}" if told else ""


def list_lost_places(missing: tuple[Missing, ...]) -> tuple[str, ...]:
    """The places at which something is missed."""
    return tuple(dict.fromkeys(one.place for one in missing))
