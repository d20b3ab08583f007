"""`fit:loose-live-end`: an end in the air with volts on it."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Lead, Mark, Measured, Rule, end_place, say_volts
from rigmint_signals.plugs import list_leads


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead with a live end in the air."""
    for lead in list_leads(case):
        if lead.label in case.rig.marked:
            continue
        for end in sorted(lead.loose):
            volts = case.find_loose_volts(lead.label, end)
            if volts is not None and end_place(lead.label, end) not in case.rig.marked:
                yield _report(case, lead, end, volts)


def _report(case: Case, lead: Lead, end: str, volts: float) -> Finding:
    place = end_place(lead.label, end)
    return Finding(
        code="fit:loose-live-end",
        grade=Grade.THIN,
        says=f"End {end} of {lead.label} hangs loose with {say_volts(volts)} on it.",
        at=place,
        cause=lead.label,
        measured=Measured(volts, None, "V"),
        assumed=case.assumed_of_lead(lead.label),
        fixes=(Fix(f"Cap or tape {place}, or take the lead off.", (Mark(place, "taped"),)),),
    )


RULE = Rule(
    code="fit:loose-live-end",
    grades=(Grade.THIN,),
    title="A live end hangs loose",
    looks_for=(
        "An end of a lead that is plugged into nothing while a battery or a supply puts volts on it; `marked:` answers"
        " it."
    ),
    why="A bare plug that swings against rods or a cage shorts a battery, and one that dangles is plugged somewhere.",
    put_right="Tape or cap it and write that under `marked:`, or leave the lead in the case.",
    source="common practice",
    check=check,
)
