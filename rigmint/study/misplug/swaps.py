"""Leads swapped: in the place of one, another lead of the rig, of the case or of the library whose ends go in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from rigmint.rig.connector import go_together
from rigmint.rig.electric import Role
from rigmint.rig.lead import LeadBody
from rigmint.rig.part import Part
from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.misplug.mistakes import How, Mistake
from rigmint.study.misplug.places import Places
from rigmint.study.misplug.turns import is_same_turned

MOST_WAYS = 720
"""Ways in which one lead may go in for another that are tried: all of six ends."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A lead that may be taken for another. `name`: its label, or its part's id."""

    name: str
    body: LeadBody
    length: float
    is_at_hand: bool
    """In the case of this rig, not only in the library."""
    plugged: tuple[PortRef, ...]


def list_candidates(rig: Rig, library: Sequence[Part]) -> tuple[Candidate, ...]:
    """The leads of the rig, those in the case besides, and those of the library, each build once."""
    found = [
        Candidate(label, lead.body, lead.length, True, tuple(lead.plugged.values()))
        for label, lead in sorted(rig.leads.items())
    ]
    spare = {one.part.id: one.part for one in rig.spares}
    for part in [*spare.values(), *(part for part in library if part.id not in spare)]:
        if part.lead is not None:
            found.append(Candidate(part.id, part.lead, part.lead.length, part.id in spare, ()))
    return tuple(found)


def list_swaps(rig: Rig, setup: Setup, candidates: Sequence[Candidate]) -> Iterator[Mistake]:
    """Every lead of a setup replaced by every candidate whose ends go into its ports, in every way they do. Ends that
    are alike in every respect are taken in one order."""
    places = Places(rig, setup)
    alike = {candidate.name: _list_alike(candidate.body) for candidate in candidates}
    for label in sorted(setup.leads):
        lead = rig.leads[label]
        meant = tuple(ref for _, ref in sorted(lead.plugged.items()))
        if len(meant) < 2:
            continue
        for candidate in candidates:
            if candidate.name != label:
                ways = _fit_ends(rig, meant, candidate.body, alike[candidate.name], frozenset())
                for plugged in islice(ways, MOST_WAYS):
                    yield _make_mistake(rig, setup, lead, candidate, plugged, places)


def _fit_ends(
    rig: Rig, meant: tuple[PortRef, ...], body: LeadBody, alike: Mapping[str, str], used: frozenset[str]
) -> Iterator[dict[str, PortRef]]:
    """Every way in which ends of a lead go into all of these ports."""
    if not meant:
        yield {}
        return
    port = rig.port(meant[0])
    tried = set()
    for name, end in body.ends.items():
        if name not in used and alike[name] not in tried and go_together(port, end):
            tried.add(alike[name])
            for others in _fit_ends(rig, meant[1:], body, alike, used | {name}):
                yield {name: meant[0], **others}


def _list_alike(body: LeadBody) -> dict[str, str]:
    """End to the first of the ends that it could be exchanged with and nobody would know."""
    found: dict[str, str] = {}
    for name in body.ends:
        found[name] = next((first for first in found.values() if _are_alike(body, first, name)), name)
    return found


def _are_alike(body: LeadBody, one: str, other: str) -> bool:
    return replace(body.ends[one], name=other) == body.ends[other] and is_same_turned(body, one, other)


def _make_mistake(
    rig: Rig, setup: Setup, lead: Lead, candidate: Candidate, plugged: Mapping[str, PortRef], places: Places
) -> Mistake:
    end, into = min(plugged.items(), key=lambda one: rig.port(one[1]).role is Role.OUT)  # where it is fed is no victim
    body = candidate.body
    return Mistake(
        how=How.SWAPPED,
        lead=candidate.name,
        end=end,
        meant=lead.label,
        into=into,
        same_place=_is_near(setup, lead, candidate, places),
        leads={
            lead.label: replace(
                lead,
                body=body,
                part=None,
                plugged=plugged,
                loose=frozenset(body.ends) - frozenset(plugged),
                length=candidate.length,
            )
        },
        ways=tuple(sorted((name, ref.place) for name, ref in plugged.items())),
    )


def _is_near(setup: Setup, lead: Lead, candidate: Candidate, places: Places) -> bool:
    """Whether the other lead lies where this one does; what is in the case without a place may lie anywhere."""
    there = [ref for ref in candidate.plugged if ref.item in setup.items]
    if not there:
        return candidate.is_at_hand
    return any(places.are_near(one, other) for one in there for other in lead.plugged.values())
