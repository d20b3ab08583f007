"""`polarity:unknown`: power leads whose pin-out nobody described."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Lead, Rule, say_list


def check(case: Case) -> Iterator[Finding]:
    """One roll-up of the leads that carry power and are only assumed straight."""
    of_rig = [
        label
        for label in sorted(case.rig.leads)
        if case.rig.leads[label].body.straight
        and label not in case.rig.metered
        and case.carries_power(label)
        and not _is_standard(case.rig.leads[label])
    ]
    labels = [label for label in of_rig if label in case.setup.leads]
    if not labels:
        return
    first = of_rig[0]  # of the whole rig, so that all setups speak of one cause
    others = [label for label in labels if label != first]
    whose, each = ("its pin-out is", "it") if len(labels) == 1 else ("their pin-outs are", "each")
    yield Finding(
        code="polarity:unknown",
        grade=Grade.THIN,
        says=f"Nobody described {say_list(labels)}: {whose} assumed.",
        at=first,
        cause=first,
        also=tuple(others),
        assumed=tuple(f"{label} conductors" for label in labels),
        fixes=(Fix(f"Meter {each} at the far plug and note it under `metered:`, or name the part."),),
    )


def _is_standard(lead: Lead) -> bool:
    """A lead between two USB connectors, whose pin-out a standard fixes."""
    return all(end.connector.id.startswith("usb-") for end in lead.body.ends.values())


RULE = Rule(
    code="polarity:unknown",
    grades=(Grade.THIN,),
    title="Power leads of unknown pin-out",
    looks_for="Leads that carry power, are written without a part or conductors, and have no meter reading.",
    why="A lead that looks straight may be soldered crossed for another maker's device.",
    put_right="Meter them and write the reading under `metered:`, or describe the lead by its part.",
    source="common practice; USB leads are fixed by the USB Type-C specification",
    check=check,
)
