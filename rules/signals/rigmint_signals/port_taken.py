"""`fit:port-taken`: two plugs for one port."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from rigmint import Case, Finding, Fix, Grade, Lead, MoveEnd, PortRef, Rule, say_list
from rigmint_signals.plugs import (
    goes_in,
    is_meant_for,
    list_free_ports,
    list_leads,
    list_lost_places,
    list_made_for,
    list_spoken,
    replug,
)

_TAKES_SEVERAL = ("ring-terminal", "clamp")
_RODS = "rods"


@dataclass(frozen=True, slots=True)
class _Holder:
    """What is plugged into a port: the end of a lead, or the port of another item."""

    lead: Lead | None
    end: str
    other: PortRef | None

    @property
    def name(self) -> str:
        return self.lead.label if self.lead is not None else self.other.place if self.other is not None else ""


def check(case: Case) -> Iterator[Finding]:
    """One finding for each plug that is one too many."""
    for ref, holders in _list_holders(case).items():
        if len(holders) > 1 and not _takes_several(case, ref):
            yield _report(case, ref, holders)


def _takes_several(case: Case, ref: PortRef) -> bool:
    """Terminals stack on a stud, clamps on a post, and rods carry many."""
    connector = case.port(ref).connector
    return connector.id in _TAKES_SEVERAL or (connector.is_mechanical and connector.id.startswith(_RODS))


def _list_holders(case: Case) -> dict[PortRef, list[_Holder]]:
    holders: dict[PortRef, list[_Holder]] = defaultdict(list)
    for index in sorted(case.setup.docks):
        dock = case.rig.docks[index]
        holders[dock.first].append(_Holder(None, "", dock.second))
        holders[dock.second].append(_Holder(None, "", dock.first))
    for lead in list_leads(case):
        for end, ref in lead.plugged.items():
            holders[ref].append(_Holder(lead, end, None))
    return holders


def _report(case: Case, ref: PortRef, holders: list[_Holder]) -> Finding:
    names = [holder.name for holder in holders]
    odd = _find_odd(case, ref, holders)
    cause = odd.lead.label if odd.lead is not None else odd.other.item if odd.other is not None else ref.item
    target = _find_port(case, odd)
    if target is not None and odd.lead is not None:
        change = MoveEnd(odd.lead.label, odd.end, target.place)
        fix = Fix(f"Plug {odd.name} into {target.place}, which is free.", (change,))
        missing = case.missing_if_plugged(odd.lead.label, replug(odd.lead, {odd.end: target}))
    else:
        fix = Fix(f"Feed one of {say_list(names, joint='or')} from another port, or by a lead with three ends.")
        missing = ()
    return Finding(
        code="fit:port-taken",
        grade=Grade.DEAD,
        says=f"{ref.place} takes one plug, and {say_list(names)} are to go into it.",
        at=ref.place,
        cause=cause,
        also=list_lost_places(missing),
        fixes=(fix,),
    )


def _find_odd(case: Case, ref: PortRef, holders: list[_Holder]) -> _Holder:
    """The plug that has least business there; the last that the file lists, where none has less."""
    port = case.port(ref)

    def rank(holder: _Holder) -> int:
        if holder.lead is None:
            return 3
        end = holder.lead.body.ends[holder.end]
        made = list_made_for(case, holder.lead, holder.end)
        if not goes_in(end, port) or not is_meant_for(end, port):
            return 0
        return 1 if made and not made & list_spoken(case, port) else 2

    return min(reversed(holders), key=rank)


def _find_port(case: Case, odd: _Holder) -> PortRef | None:
    """A free port of the same item that gives and speaks as the taken one does."""
    if odd.lead is None:
        return None
    here = case.port(odd.lead.plugged[odd.end])
    for ref in list_free_ports(case, odd.lead, odd.end):
        port = case.port(ref)
        same_power = (port.carries_power, port.role) == (here.carries_power, here.role) or not here.carries_power
        if same_power and list_spoken(case, here) <= list_spoken(case, port):
            return ref
    return None


RULE = Rule(
    code="fit:port-taken",
    grades=(Grade.DEAD,),
    title="Two plugs for one port",
    looks_for=(
        "A port into which two leads, or a lead and another item, are to go in one setup. Studs, battery posts and"
        " rods take several."
    ),
    why="One of the two stays in the air, and nobody has said which.",
    put_right="Move one to a free port, or take a breakout or a lead with three ends.",
    source="common practice",
    check=check,
)
