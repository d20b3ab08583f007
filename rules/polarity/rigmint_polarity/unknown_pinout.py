"""`polarity:unknown`: power leads whose pin-out nobody described."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Rule, say_list


def check(case: Case) -> Iterator[Finding]:
    """One roll-up of the leads that carry power and are only assumed straight."""
    of_rig = [
        label
        for label in sorted(case.rig.leads)
        if case.rig.leads[label].body.straight and label not in case.rig.metered and case.carries_power(label)
    ]
    labels = [label for label in of_rig if label in case.setup.leads]
    if not labels:
        return
    first = of_rig[0]  # of the whole rig, so that all setups speak of one cause
    others = [label for label in labels if label != first]
    whose = "its pin-out is" if len(labels) == 1 else "their pin-outs are"
    yield Finding(
        code="polarity:unknown",
        grade=Grade.THIN,
        says=f"Nobody described {say_list(labels)}: {whose} taken to run straight, contact to contact.",
        at=first,
        cause=first,
        also=tuple(others),
        assumed=tuple(f"{label} conductors" for label in labels),
        fixes=(Fix("Meter each at its far plug and note it under `metered:`, or name its part."),),
    )


RULE = Rule(
    code="polarity:unknown",
    grades=(Grade.THIN,),
    title="Power leads of unknown pin-out",
    looks_for="Leads that carry power, are written without a part or conductors, and have no meter reading.",
    why="A lead that looks straight may be soldered crossed for another maker's device.",
    put_right="Meter them and write the reading under `metered:`, or describe the lead by its part.",
    source="common practice",
    check=check,
)
