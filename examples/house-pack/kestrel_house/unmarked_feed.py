"""`kestrel:unmarked-feed`: leads that carry the higher voltage wear the house's red tape."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Mark, Measured, Parameter, Rule, say_list, say_volts

TAPE = "red tape"


def check(case: Case) -> Iterator[Finding]:
    """One finding a rig, whose fix tapes every lead that needs it."""
    limit = case.parameters["above"]
    volts = {label: _find_highest(case, label) for label in sorted(case.setup.leads) if not _is_marked(case, label)}
    high = {label: value for label, value in volts.items() if value > limit}
    if not high:
        return
    first, *others = high
    whose = "is not marked" if len(high) == 1 else "are not marked"
    yield Finding(
        code="kestrel:unmarked-feed",
        grade=Grade.THIN,
        says=f"{say_list(list(high))} can carry {say_volts(max(high.values()))} and {whose}.",
        at=first,
        cause=first,
        also=tuple(others),
        measured=Measured(max(high.values()), limit, "V"),
        fixes=(Fix(f"Put {TAPE} on both ends.", tuple(Mark(label, TAPE) for label in high)),),
    )


def _is_marked(case: Case, label: str) -> bool:
    return case.rig.leads[label].mark is not None or label in case.rig.marked


def _find_highest(case: Case, label: str) -> float:
    """The most volts that any source can put on an end of a lead that carries power; 0 V on others."""
    if not case.carries_power(label):
        return 0.0
    worst = case.worst_volts.ports
    ports = [worst[ref] for ref in case.rig.leads[label].plugged.values() if ref in worst]
    return max((port.high.volts for port in ports if port.high is not None), default=0.0)


RULE = Rule(
    code="kestrel:unmarked-feed",
    grades=(Grade.THIN,),
    title="A lead of the higher voltage without red tape",
    looks_for="Leads that can carry more volts than the house's usual, with neither a standing mark nor `marked:`.",
    why="In the drawer it looks like the lead for 12 V gear, and most of that dies at 24 V.",
    put_right="Tape both ends, and note it under `marked:`.",
    source="house rule",
    check=check,
    parameters={"above": Parameter(20.0, "voltage", "V from which a lead is marked")},
)
