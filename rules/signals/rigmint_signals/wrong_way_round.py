"""`fit:wrong-way-round`: a lead whose ends are exchanged."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from rigmint import Case, Finding, Fix, Grade, Lead, MoveEnd, PortRef, Rule, SwapEnds, end_place
from rigmint_signals.plugs import goes_in, is_meant_for, list_leads, list_lost_places, replug, say_lost


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead that is turned round."""
    for lead in list_leads(case):
        turned = find_turned(case, lead)
        if turned is not None:
            yield _report(case, lead, turned)


def find_turned(case: Case, lead: Lead) -> dict[str, PortRef] | None:
    """Two ends, each with the port of the other, that make all tags agree; None where the tags agree as it is, or
    where nothing is won: an end or a port that lost its tag's partner must find it."""
    odd = {end for end, ref in lead.plugged.items() if not _agrees(case, lead, end, ref)}
    if not odd:
        return None
    for one, other in combinations(sorted(lead.plugged), 2):
        moved = {one: lead.plugged[other], other: lead.plugged[one]}
        if odd <= moved.keys() and all(_suits(case, lead, end, ref) for end, ref in moved.items()):
            tags = [(lead.body.ends[end].tag, case.port(ref).tag) for end, ref in moved.items()]
            if any(ours is not None and ours == theirs for ours, theirs in tags):
                return moved
    return None


def _suits(case: Case, lead: Lead, end: str, ref: PortRef) -> bool:
    return goes_in(lead.body.ends[end], case.port(ref)) and _agrees(case, lead, end, ref)


def _agrees(case: Case, lead: Lead, end: str, ref: PortRef) -> bool:
    return is_meant_for(lead.body.ends[end], case.port(ref))


def _report(case: Case, lead: Lead, turned: dict[str, PortRef]) -> Finding:
    end = next(one for one in sorted(turned) if not _agrees(case, lead, one, lead.plugged[one]))
    here = lead.plugged[end]
    missing = case.missing_if_plugged(lead.label, replug(lead, turned))
    return Finding(
        code="fit:wrong-way-round",
        grade=Grade.DEAD,
        says=(
            f"{lead.label} is the wrong way round: its end tagged {lead.body.ends[end].tag} is in {here.place}, which"
            f" is tagged {case.port(here).tag}{say_lost(missing)}."
        ),
        at=here.place,
        cause=lead.label,
        also=list_lost_places(missing),
        fixes=(_find_fix(lead, turned),),
    )


def _find_fix(lead: Lead, turned: dict[str, PortRef]) -> Fix:
    if len(lead.plugged) == 2:
        return Fix(f"Turn {lead.label} round.", (SwapEnds(lead.label),))
    changes = tuple(MoveEnd(lead.label, end, ref.place) for end, ref in turned.items())
    one, other = (end_place(lead.label, end) for end in turned)
    return Fix(f"Exchange {one} and {other}.", changes)


RULE = Rule(
    code="fit:wrong-way-round",
    grades=(Grade.DEAD,),
    title="A lead is the wrong way round",
    looks_for="A lead of which exchanging two ends would make the tags on its ends agree with those at the sockets.",
    why="A lead whose two ends look alike and differ inside does nothing, or harm, when it is turned round.",
    put_right="Turn it round, and put the tag where both hands see it.",
    source="common practice",
    check=check,
)
