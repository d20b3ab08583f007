"""`fit:no-wire`: a lead that lacks a wire."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint import Case, Connection, Finding, Fix, Grade, Lead, Rule, say_list
from rigmint_signals.plugs import goes_in, list_lost_places, list_made_for, say_lost


@dataclass(frozen=True, slots=True)
class _Lack:
    """A protocol that both ports speak and the lead does not bring. `wires`: those that no conductor joins."""

    connection: Connection
    protocol: str
    wires: tuple[str, ...]
    is_meant: bool


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead in which something is not joined."""
    for connection in case.connections:
        if connection.lead is None or not _goes_in_at_both(case, case.rig.leads[connection.lead], connection):
            continue
        lead = case.rig.leads[connection.lead]
        lacks = [lack for name, _ in connection.stops if (lack := _find_lack(case, lead, connection, name))]
        meant = [lack for lack in lacks if lack.is_meant]
        missing = case.missing_behind(lead.label) if lacks else ()
        behind = {one.token for one in missing}
        needed = [lack for lack in lacks if case.rig.protocols[lack.protocol].carries & behind]
        if meant or needed:
            yield _report(case, lead, (meant or needed)[0], needed=bool(needed))


def _goes_in_at_both(case: Case, lead: Lead, connection: Connection) -> bool:
    refs = (connection.first, connection.second)
    return all(goes_in(lead.body.ends[end], case.port(ref)) for end, ref in lead.plugged.items() if ref in refs)


def _find_lack(case: Case, lead: Lead, connection: Connection, name: str) -> _Lack | None:
    """None where one port does not speak it, or where every wire is there."""
    ports = case.port(connection.first), case.port(connection.second)
    if not all(name in port.speaks for port in ports) or not case.rig.protocols[name].carries:
        return None
    ends = [end for end, ref in lead.plugged.items() if ref in (connection.first, connection.second)]
    wires = case.missing_wires(lead.label, (ends[0], ends[1]), name)
    if not wires:
        return None
    made = [list_made_for(case, lead, end) for end in ends]
    return _Lack(connection, name, wires, all(words is not None and name in words for words in made))


def _report(case: Case, lead: Lead, lack: _Lack, *, needed: bool) -> Finding:
    protocol = case.rig.protocols[lack.protocol]
    missing = case.missing_behind(lead.label) if needed else ()
    first, second = lack.connection.first.place, lack.connection.second.place
    wires = say_list(lack.wires, joint="or")
    if lack.is_meant:
        says = f"{lead.label} is to carry {protocol.name} from {first} to {second}, and none of its wires joins {wires}"
    else:
        says = f"{lead.label} looks like a data lead and has no wire for {wires} between {first} and {second}"
    return Finding(
        code="fit:no-wire",
        grade=Grade.DEAD,
        says=f"{says}{say_lost(missing)}.",
        at=second,
        cause=lead.label,
        also=list_lost_places(missing),
        assumed=case.assumed_of_lead(lead.label),
        fixes=(Fix(f"Swap {lead.label} for a lead that joins {say_list(lack.wires)} at both ends, and ring it out."),),
    )


RULE = Rule(
    code="fit:no-wire",
    grades=(Grade.DEAD,),
    title="A lead lacks a wire",
    looks_for=(
        "A lead between two ports of one language, made for it, of which no conductor joins the wires that it needs;"
        " and a lead that nobody made for it, such as one that only charges, where what should arrive comes by no"
        " other way."
    ),
    why="A charging lead and a data lead look alike. The motor lights up and does not turn.",
    put_right="Use a lead with all wires, and mark the one that only charges.",
    source="common practice",
    check=check,
)
