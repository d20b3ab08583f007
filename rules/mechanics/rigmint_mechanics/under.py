"""`payload:under`: a head or an arm carries less than it works with."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Burden, Case, Finding, Fix, Grade, Measured, Rule, Unknown, exceeds, say_kilograms
from rigmint_mechanics.loads import list_deciding, say_load, tell_unweighed

_CODE = "payload:under"


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each head and each carrier that carries too little. Where something has no mass, that is not
    known; and one that carries nothing is not in use."""
    for load in case.payloads.loads:
        if not exceeds(load.low, load.on_platform) or not load.carried:
            continue
        yield tell_unweighed(_CODE, load, load.low) if load.unweighed else _report(case, load)


def _report(case: Case, load: Burden) -> Finding:
    gap = load.low - load.on_platform
    effect = "its motors hunt" if load.is_head else "it stays at its upper stop, and takes no shock"
    return Finding(
        code=_CODE,
        grade=Grade.THIN,
        says=f"{say_load(load)}, and works from {say_kilograms(load.low)}: {effect}.",
        at=load.carrier,
        cause=load.carrier,
        measured=Measured(load.on_platform, load.low, "kg"),
        assumed=list_deciding(case, load, gap),
        fixes=(
            Fix(f"Add {say_kilograms(gap)} of counterweight, near the balance point."),
            Fix(f"Use a {'head' if load.is_head else 'carrier'} for {say_kilograms(load.on_platform)}."),
        ),
    )


RULE = Rule(
    code=_CODE,
    grades=(Grade.THIN,),
    title="Less weight than it works with",
    looks_for="A head or a carrier with a least payload, and less than that on it.",
    why="An isolating arm under its minimum stands at its stop and passes every shock; a head oscillates.",
    put_right="Add counterweight, or use a lighter arm or head.",
    source="the maker's payload, by the part file",
    check=check,
)
