"""`kestrel:few-batteries`: enough of the same battery in the case."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Parameter, Rule


def check(case: Case) -> Iterator[Finding]:
    """One finding for each kind of battery that is short."""
    on_rig = Counter(item.part.id for item in case.items if item.part.kind == "battery")
    in_case: Counter[str] = Counter()
    for spare in case.rig.spares:
        in_case[spare.part.id] += spare.count
    for part_id, number in sorted(on_rig.items()):
        due = round(case.parameters["spares"] * number)
        if in_case[part_id] >= due:
            continue
        first = next(item.name for item in case.items if item.part.id == part_id)
        yield Finding(
            code="kestrel:few-batteries",
            grade=Grade.THIN,
            says=f"{in_case[part_id]} of {part_id} in the case for {number} on the rig; the house sends {due}.",
            at=first,
            cause=first,
            measured=Measured(in_case[part_id], due, ""),
            fixes=(Fix(f"Pack {due - in_case[part_id]} more and list them under `also:`."),),
        )


RULE = Rule(
    code="kestrel:few-batteries",
    grades=(Grade.THIN,),
    title="Too few spare batteries",
    looks_for="Batteries on the rig for which fewer spares stand under `also:` than the house sends along.",
    why="One on the rig, one that is cool and full, one on the charger: with fewer, a day stops for a battery.",
    put_right="Pack more of the same battery, and list them under `also:`.",
    source="house rule",
    check=check,
    parameters={"spares": Parameter(2, None, "spares for each battery on the rig")},
)
