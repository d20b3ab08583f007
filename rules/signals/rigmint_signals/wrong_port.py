"""`fit:wrong-port`: a plug in a port that it was not made for."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from rigmint import Case, Finding, Fix, Grade, Lead, MoveEnd, PortRef, Rule, say_list
from rigmint_signals.plugs import (
    brings_power,
    goes_in,
    is_meant_for,
    list_free_ports,
    list_leads,
    list_lost_places,
    list_made_for,
    list_partners,
    list_spoken,
    replug,
    say_lost,
)
from rigmint_signals.signal_pairs import list_wrong_triggers
from rigmint_signals.wrong_way_round import find_turned


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead in a wrong port."""
    for lead in list_leads(case):
        if find_turned(case, lead) is None:
            yield from _judge_lead(case, lead)


def _judge_lead(case: Case, lead: Lead) -> Iterator[Finding]:
    wrong = {}
    for end, ref in lead.plugged.items():
        if goes_in(lead.body.ends[end], case.port(ref)):
            says = _find_wrong(case, lead, end)
            if says is not None:
                wrong[end] = says
    for end, says in wrong.items():
        yield _report(case, lead, end, says)
    is_told = lead.label in {pair.lead for pair in list_wrong_triggers(case)}  # by `record:kind`, which names the kinds
    if not wrong and len(lead.plugged) > 1 and not is_told:
        yield from _judge_pairs(case, lead)


def _find_wrong(case: Case, lead: Lead, end: str) -> str | None:
    """Why an end is in the wrong port, as the rest of a sentence."""
    port, ref = case.port(lead.plugged[end]), lead.plugged[end]
    plug = lead.body.ends[end]
    if not is_meant_for(plug, port):
        return f"end {end} of {lead.label} is tagged {plug.tag}, and {ref.place} is tagged {port.tag}"
    made = list_made_for(case, lead, end)
    spoken = list_spoken(case, port)
    if not made or made & spoken or _is_for_power(case, lead, end, made):
        return None
    speaks = f"speaks {_say(case, spoken)}" if spoken or not port.carries_power else "is for power alone"
    return f"its end {end} is made for {_say(case, made)}, and {ref.place} {speaks}"


def _is_for_power(case: Case, lead: Lead, end: str, made: frozenset[str]) -> bool:
    """Whether a data lead only feeds something here: from a port without data, or between two that have none of its."""
    if not brings_power(case, lead, end):
        return False
    port = case.port(lead.plugged[end])
    others = [case.port(lead.plugged[other]) for other in list_partners(lead, end)]
    return not list_spoken(case, port) or not any(made & list_spoken(case, other) for other in others)


def _judge_pairs(case: Case, lead: Lead) -> Iterator[Finding]:
    """Each port speaks something that the lead carries, and no two the same."""
    spoken = {end: list_spoken(case, case.port(ref)) for end, ref in lead.plugged.items()}
    if any(not words for words in spoken.values()) or any(brings_power(case, lead, end) for end in spoken):
        return
    for one, other in combinations(lead.plugged, 2):
        made = [list_made_for(case, lead, end) for end in (one, other)]
        if spoken[one] & spoken[other] or any(words is not None and not words for words in made):
            return
        if lead.body.carries is not None and not (made[0] or frozenset()) & (made[1] or frozenset()):
            return
    near, far = sorted(lead.plugged, key=lambda end: (_find_port(case, lead, end) is None, end))[:2]
    says = (
        f"{lead.plugged[near].place} speaks {_say(case, spoken[near])}, and {lead.plugged[far].place} at the other end"
        f" of {lead.label} speaks {_say(case, spoken[far])}"
    )
    yield _report(case, lead, near, says)


def _say(case: Case, protocols: frozenset[str]) -> str:
    return say_list(sorted(case.rig.protocols[name].name for name in protocols), joint="or", most=3) or "nothing"


def _report(case: Case, lead: Lead, end: str, says: str) -> Finding:
    here = lead.plugged[end]
    target = _find_port(case, lead, end)
    meant = target or _find_taken_port(case, lead, end)
    missing = case.missing_if_plugged(lead.label, replug(lead, {end: meant})) if meant is not None else ()
    if target is not None:
        fix = Fix(f"Plug end {end} of {lead.label} into {target.place}.", (MoveEnd(lead.label, end, target.place),))
    elif meant is not None:
        fix = Fix(f"End {end} of {lead.label} belongs into {meant.place}: free that port first.")
    else:
        fix = Fix(f"Use a lead that is made for {here.place}.")
    return Finding(
        code="fit:wrong-port",
        grade=Grade.DEAD,
        says=f"{lead.label} is in the wrong port: {says}{say_lost(missing)}.",
        at=here.place,
        cause=lead.label,
        also=list_lost_places(missing),
        fixes=(fix,),
    )


def _find_port(case: Case, lead: Lead, end: str) -> PortRef | None:
    """The free port of the same item that speaks with the other end what the lead carries; with the same tag first."""
    free = list(list_free_ports(case, lead, end))
    tag = lead.body.ends[end].tag
    free.sort(key=lambda ref: tag is None or case.port(ref).tag != tag)
    return next((ref for ref in free if _serves(case, lead, end, ref)), None)


def _find_taken_port(case: Case, lead: Lead, end: str) -> PortRef | None:
    """The port of the same item that would serve, were it free."""
    here, plug = lead.plugged[end], lead.body.ends[end]
    for port in case.rig.items[here.item].part.ports.values():
        ref = PortRef(here.item, port.name)
        if ref != here and goes_in(plug, port) and is_meant_for(plug, port) and _serves(case, lead, end, ref):
            return ref
    return None


def _serves(case: Case, lead: Lead, end: str, ref: PortRef) -> bool:
    made = list_made_for(case, lead, end)
    spoken = list_spoken(case, case.port(ref))
    if made is not None:
        spoken = spoken & made
    partners = [list_spoken(case, case.port(lead.plugged[other])) for other in list_partners(lead, end)]
    if any(spoken & words for words in partners):
        return True
    tag = lead.body.ends[end].tag
    return tag is not None and tag == case.port(ref).tag and (bool(spoken) or not made)


RULE = Rule(
    code="fit:wrong-port",
    grades=(Grade.DEAD,),
    title="A plug in the wrong port",
    looks_for=(
        "An end of a lead whose tag differs from that of its port; a port that speaks nothing of what the lead is made"
        " to carry; two ports that a lead joins and that have no language in common. A data lead that only feeds"
        " something is fine."
    ),
    why="The connector fits, so nobody looks twice, and the trigger or the bus is silent.",
    put_right="Move the plug to the port of its tag, or of the language that the lead is made for.",
    source="common practice",
    check=check,
)
