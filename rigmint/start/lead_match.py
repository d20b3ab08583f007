"""The one lead of a catalogue that fits two ports: its ends mate, it carries what both speak, and it is wired right."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from rigmint.library.catalogue import Catalogue
from rigmint.rig.electric import Port, Role
from rigmint.rig.lead import LeadBody, LeadEnd
from rigmint.rig.part import Part

_SUPPLY_ROLES = frozenset({"plus", "minus"})


@dataclass(frozen=True, slots=True)
class LeadFit:
    """A lead and how it lies: `is_turned` where its end a belongs to the second port."""

    part: Part
    is_turned: bool


class LeadMatch:
    """Leads of two ends, read from the catalogue once."""

    def __init__(self, catalogue: Catalogue) -> None:
        parts = [part for part_id in catalogue.part_ids if (part := catalogue.part(part_id)) is not None]
        self._leads = [part for part in parts if part.lead is not None and len(part.lead.ends) == 2]
        self._connectors = {end.connector.id for part in self._leads for end in _list_ends(part)}

    def has_leads_for(self, port: Port) -> bool:
        """Whether any lead of the catalogue has an end of the port's connector."""
        return port.connector.id in self._connectors

    def find(self, first: Port, second: Port, length: float | None) -> LeadFit | None:
        """The lead for two ports; None where none fits, or several that are wired differently. Leads that are made for
        what these ports are come before those that would do. Of those that differ by length alone it is the nearest to
        `length`, in m, else the shortest."""
        fits = [fit for part in self._leads if (fit := lay_lead(part, first, second)) is not None]
        for is_made_for in (_has_tag, _feeds, _names_protocol):
            fits = [fit for fit in fits if is_made_for(fit, first, second)] or fits
        if len({_describe_wiring(fit, first, second) for fit in fits}) != 1:
            return None
        aim = length if length is not None else 0.0
        return min(fits, key=lambda fit: (abs(_find_length(fit.part) - aim), fit.part.id))


def lay_lead(part: Part, first: Port, second: Port) -> LeadFit | None:
    """How a lead of two ends lies between two ports; None where it does not fit."""
    if part.lead is None or len(part.lead.ends) != 2:
        return None
    near, far = part.lead.ends.values()
    if _fits(part.lead, near, far, first, second):
        return LeadFit(part, False)
    if _fits(part.lead, near, far, second, first):
        return LeadFit(part, True)
    return None


def _list_ends(part: Part) -> Iterable[LeadEnd]:
    return part.lead.ends.values() if part.lead is not None else ()


def _fits(lead: LeadBody, near: LeadEnd, far: LeadEnd, first: Port, second: Port) -> bool:
    pairs = ((near, first), (far, second))
    if not all(end.connector.id == port.connector.id and end.sex.mates(port.sex) for end, port in pairs):
        return False
    if any(end.tag is not None and end.tag != port.tag for end, port in pairs):
        return False
    return _carries(lead, first, second) and _is_wired_right(lead, near, far, first, second)


def _carries(lead: LeadBody, first: Port, second: Port) -> bool:
    """Whether it carries a protocol that both speak; where they share none, whether it is for power alone."""
    made = None if lead.carries is None else {carry.protocol for carry in lead.carries}
    shared = set(first.speaks) & set(second.speaks)
    if shared:
        return made is None or bool(shared & made)
    return not made


def _is_wired_right(lead: LeadBody, near: LeadEnd, far: LeadEnd, first: Port, second: Port) -> bool:
    """Whether no conductor joins a plus to a minus, or a supply to a signal."""
    ports = {near.name: first, far.name: second}
    for conductor in lead.conductors:
        ends = (conductor.source, conductor.target)
        roles = {ports[end.end].pins.get(end.contact) for end in ends}
        known = {role for role in roles if role is not None}
        if len(known) > 1 and known & _SUPPLY_ROLES:
            return False
    return True


def _turn(fit: LeadFit, first: Port, second: Port) -> tuple[Port, Port]:
    """The ports at the lead's ends a and b."""
    return (second, first) if fit.is_turned else (first, second)


def _has_tag(fit: LeadFit, first: Port, second: Port) -> bool:
    ports = _turn(fit, first, second)
    return any(
        end.tag is not None and end.tag == port.tag for end, port in zip(_list_ends(fit.part), ports, strict=True)
    )


def _feeds(fit: LeadFit, first: Port, second: Port) -> bool:
    """Whether plus is joined, where one port gives what the other takes."""
    if not (first.carries_power and second.carries_power) or Role.OUT not in (first.role, second.role):
        return True
    near, far = _turn(fit, first, second)
    return any(
        (source in near.feeds and target in far.feeds) or (source in far.feeds and target in near.feeds)
        for source, target in _list_wires(fit)
    )


def _names_protocol(fit: LeadFit, first: Port, second: Port) -> bool:
    """Whether it says that it is made for what both speak."""
    carries = (fit.part.lead.carries if fit.part.lead is not None else None) or ()
    return bool({carry.protocol for carry in carries} & set(first.speaks) & set(second.speaks))


def _list_wires(fit: LeadFit) -> list[tuple[str, str]]:
    conductors = fit.part.lead.conductors if fit.part.lead is not None else ()
    return [(one.source.contact, one.target.contact) for one in conductors]


def _describe_wiring(fit: LeadFit, first: Port, second: Port) -> tuple[object, ...]:
    """Two leads with one description do the same between these ports: they differ by length, gauge, sleeve, and by
    contacts and protocols that one of the ports has no use for."""
    lead = fit.part.lead
    if lead is None:
        return ()
    ports = dict(zip(lead.ends, _turn(fit, first, second), strict=True))
    wires = sorted(
        (
            one.source.end,
            one.source.contact,
            one.target.end,
            one.target.contact,
            one.diode is None,
            one.regulator is None,
        )
        for one in lead.conductors
        if all(end.contact in ports[end.end].pins for end in (one.source, one.target))
    )
    carried = sorted({carry.protocol for carry in lead.carries or ()} & set(first.speaks) & set(second.speaks))
    return (tuple(wires), tuple(carried))


def _find_length(part: Part) -> float:
    return part.lead.length if part.lead is not None else 0.0
