"""What a lead fails to bring: what would arrive if its wires were whole, or if it were plugged elsewhere."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import combinations
from types import MappingProxyType

from rigmint.graph.signals import contacts_of
from rigmint.rig.lead import Carry, Conductor, EndContact, LeadBody
from rigmint.rig.rig import Lead, Rig, Setup
from rigmint.study.flows import FlowArrival, find_flow_arrivals
from rigmint.study.hands import AxisHands
from rigmint.study.signal_map import SignalMap
from rigmint.study.study_hands import tie_hands
from rigmint.words import NOBODY


@dataclass(frozen=True, slots=True)
class Missing:
    """An axis that somebody is meant to have, or a flow, that does not arrive at `place` for want of a lead."""

    token: str
    place: str


def find_missing_behind(rig: Rig, setup: Setup, mended: Lead) -> tuple[Missing, ...]:
    """What arrives by no way at all and would with a lead as it is in `mended`: axes that who is meant to has then, or
    that nobody was named for and that had no hand; flows that leave their maker's item then and did not, that reach a
    screen or what the job needs."""
    other = replace(rig, leads=MappingProxyType({**rig.leads, mended.label: mended}))
    before, after = SignalMap(rig, setup, {}), SignalMap(other, setup, {})
    tokens = {token for name in _shared_protocols(rig, mended) for token in rig.protocols[name].carries}
    return (*_missing_axes(before, after), *_missing_flows(before, after, tokens))


def make_whole(rig: Rig, lead: Lead) -> Lead:
    """The lead with every wire that the protocols shared by its ports need, carrying all of them."""
    protocols = _shared_protocols(rig, lead)
    added = [
        conductor
        for near, far in combinations(sorted(lead.plugged), 2)
        for name in protocols
        for wire in rig.protocols[name].wires
        for conductor in _wires_between(rig, lead, near, far, wire)
    ]
    carries = lead.body.carries
    body: LeadBody = replace(
        lead.body,
        conductors=(*lead.body.conductors, *added),
        carries=None if carries is None else (*carries, *(Carry(name, None) for name in protocols)),
    )
    return replace(lead, body=body)


def _shared_protocols(rig: Rig, lead: Lead) -> list[str]:
    spoken = [set(rig.port(ref).speaks) for ref in lead.plugged.values()]
    return sorted({name for one, other in combinations(spoken, 2) for name in one & other})


def _wires_between(rig: Rig, lead: Lead, near: str, far: str, wire: str) -> Iterator[Conductor]:
    for one in sorted(contacts_of(rig.port(lead.plugged[near]), wire)):
        for other in sorted(contacts_of(rig.port(lead.plugged[far]), wire)):
            yield Conductor(
                index=-1,
                source=EndContact(near, one),
                target=EndContact(far, other),
                gauge=None,
                area=None,
                fuse=None,
                diode=None,
                regulator=None,
                ground=None,
                assumed=frozenset(),
            )


def _missing_axes(before: SignalMap, after: SignalMap) -> Iterator[Missing]:
    had = tie_hands(before, with_stops=False).axes
    for place, axis in tie_hands(after, with_stops=False).axes.items():
        if _is_held(axis) and (place not in had or not _is_held(had[place])):
            yield Missing(place.partition(".")[2], place)


def _is_held(axis: AxisHands) -> bool:
    """By somebody who is meant to; where nobody is named, by anybody."""
    if not axis.meant or axis.meant == (NOBODY,):
        return not axis.meant and bool(axis.claims)
    return any(claim.person in axis.meant or claim.automatic for claim in axis.claims)


def _missing_flows(before: SignalMap, after: SignalMap, tokens: set[str]) -> Iterator[Missing]:
    for flow in sorted(tokens):
        had = _leaving(find_flow_arrivals(before, flow))
        needed = set(before.setup.needs.flows.get(flow, ()))
        arrivals = find_flow_arrivals(after, flow)
        reached = {arrival.place for arrival in arrivals}
        for maker, items in _leaving(arrivals).items():
            gained = items - had.get(maker, set())
            if not gained:
                continue
            new = {item for item in gained if not _arrives(had, item)}
            screens = {f"{item}.{screen}" for item in new for screen in before.part(item).shows} & reached
            wanted = new & needed
            if not had.get(maker) and not screens:
                wanted = wanted or gained
            for place in sorted(screens | wanted):
                yield Missing(flow, place)


def _leaving(arrivals: tuple[FlowArrival, ...]) -> Mapping[str, set[str]]:
    """Maker to the other items at which its flow arrives."""
    found: dict[str, set[str]] = {}
    for arrival in arrivals:
        items = found.setdefault(arrival.maker, set())
        item = arrival.place.partition(".")[0]
        if item != arrival.maker.partition(".")[0]:
            items.add(item)
    return found


def _arrives(had: Mapping[str, set[str]], item: str) -> bool:
    return any(item in items for items in had.values())
