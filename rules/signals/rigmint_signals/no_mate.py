"""`fit:no-mate`: a plug that does not go into its port."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Connector, Finding, Fix, Grade, Lead, Mate, MoveEnd, Port, PortRef, Rule, Sex, SwapEnds
from rigmint_signals.plugs import (
    goes_in,
    list_free_ports,
    list_lost_places,
    list_made_for,
    list_spoken,
    replug,
    say_connector,
)


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead or dock that does not mate."""
    for mate in case.network.misfits:
        yield _report_dock(case, mate, "do not go together", Grade.DEAD) if mate.other else _report_lead(case, mate)
    for mate in case.network.mates:
        ours, theirs = case.port(mate.port).connector, _find_other(case, mate)[0]
        if ours.id != theirs.id:
            badly = "fit badly: nothing holds them" if ours.is_mechanical else "touch badly"
            yield _report_dock(case, mate, badly, Grade.THIN) if mate.other else _report_almost(case, mate)


def _find_other(case: Case, mate: Mate) -> tuple[Connector, Sex]:
    if mate.other is not None:
        return case.port(mate.other).connector, case.port(mate.other).sex
    end = case.rig.leads[mate.lead or ""].body.ends[mate.end or ""]
    return end.connector, end.sex


def _say_both(case: Case, mate: Mate) -> tuple[str, str]:
    port = case.port(mate.port)
    connector, sex = _find_other(case, mate)
    return say_connector(port.connector.name, port.sex), say_connector(connector.name, sex)


def _report_dock(case: Case, mate: Mate, says: str, grade: Grade) -> Finding:
    assert mate.other is not None
    ours, theirs = _say_both(case, mate)
    return Finding(
        code="fit:no-mate",
        grade=grade,
        says=f"{mate.port.place} ({ours}) and {mate.other.place} ({theirs}) {says}.",
        at=mate.port.place,
        cause=mate.port.item,
        also=(mate.other.place,),
        fixes=(_find_dock_fix(case, mate.port, mate.other),),
    )


def _find_dock_fix(case: Case, first: PortRef, second: PortRef) -> Fix:
    """A free port of either item that the other goes onto, else an adapter that the rig has along, else any."""
    for here, there in ((first, second), (second, first)):
        for name, port in case.rig.items[there.item].part.ports.items():
            ref = PortRef(there.item, name)
            if ref not in _list_docked(case) and _goes_well(case.port(here), port):
                return Fix(f"Dock {here.place} to {ref.place}, which it goes onto.")
    for spare in case.rig.spares:
        ports = list(spare.part.ports.values())
        if any(
            _goes_well(case.port(first), one) and _goes_well(case.port(second), other)
            for one in ports
            for other in ports
            if one is not other
        ):
            return Fix(f"Put a {spare.part.name} between {first.item} and {second.item}: it is in the case.")
    return Fix(f"Use an adapter between {first.item} and {second.item}, or parts that mate.")


def _goes_well(port: Port, other: Port) -> bool:
    return port.connector.id == other.connector.id and port.sex.mates(other.sex)


def _list_docked(case: Case) -> set[PortRef]:
    docks = [case.rig.docks[index] for index in case.setup.docks]
    return {ref for dock in docks for ref in (dock.first, dock.second)}


def _report_lead(case: Case, mate: Mate) -> Finding:
    lead, end = case.rig.leads[mate.lead or ""], mate.end or ""
    ours, theirs = _say_both(case, mate)
    fix = _find_fix(case, lead, end)
    missing = case.missing_if_plugged(lead.label, fix[1]) if fix[1] else case.missing_behind(lead.label)
    return Finding(
        code="fit:no-mate",
        grade=Grade.DEAD,
        says=f"End {end} of {lead.label} ({theirs}) does not go into {mate.port.place} ({ours}).",
        at=mate.port.place,
        cause=lead.label,
        also=tuple(place for place in list_lost_places(missing) if place != mate.port.place),
        fixes=(fix[0],),
    )


def _find_fix(case: Case, lead: Lead, end: str) -> tuple[Fix, dict[str, PortRef]]:
    """Turning it round where both ends then go in, else another port of the item, else another lead."""
    ends = sorted(lead.plugged)
    if len(ends) == 2:
        turned = {ends[0]: lead.plugged[ends[1]], ends[1]: lead.plugged[ends[0]]}
        if all(goes_in(lead.body.ends[one], case.port(ref)) for one, ref in turned.items()):
            return Fix(f"Turn {lead.label} round.", (SwapEnds(lead.label),)), turned
    for ref in list_free_ports(case, lead, end):
        made = list_made_for(case, lead, end)
        port = case.port(ref)
        if (made and made & list_spoken(case, port)) or (not made and port.carries_power):
            fix = Fix(f"Plug end {end} of {lead.label} into {ref.place}.", (MoveEnd(lead.label, end, ref.place),))
            return fix, replug(lead, {end: ref})
    return Fix(f"Use a lead whose end goes into {lead.plugged[end].place}."), {}


def _report_almost(case: Case, mate: Mate) -> Finding:
    ours, theirs = _say_both(case, mate)
    label = mate.lead or ""
    return Finding(
        code="fit:no-mate",
        grade=Grade.THIN,
        says=(
            f"End {mate.end} of {label} ({theirs}) goes into {mate.port.place} ({ours}) and touches badly: it drops out"
            " when it is moved."
        ),
        at=mate.port.place,
        cause=label,
        fixes=(Fix(f"Use a lead with the plug that {mate.port.place} is made for."),),
    )


RULE = Rule(
    code="fit:no-mate",
    grades=(Grade.DEAD, Grade.THIN),
    title="A plug does not go into its port",
    looks_for=(
        "An end of a lead, or a port that is docked, whose connector or sex does not go with that of its port; plates,"
        " rods, lens mounts and fronts too, which have sizes and no contacts. Thin where it goes in without making good"
        " contact, or without being held."
    ),
    why="It is found out on set, when the lead that was packed cannot be plugged.",
    put_right="Turn the lead round, use the port that it is made for, or pack the lead with the right ends.",
    source="common practice",
    check=check,
)
