"""`owner:two`: two hands on one axis."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Grade, Rule, Verdict
from rigmint_owner.fighting import report_fights


def check(case: Case) -> Iterator[Finding]:
    """One finding for each cause that puts a second hand on an axis."""
    return report_fights(case, "owner:two", Verdict.TWO, "they pull against each other")


RULE = Rule(
    code="owner:two",
    grades=(Grade.FIGHT,),
    title="Two hands on one axis",
    looks_for=(
        "An axis that two controls reach at once, by whatever path: radio links, shared motor buses, a dial on the"
        " head. Controls are counted, not persons. A control that takes over by touch or button shares by agreement;"
        " one that steps back for another hand does not count."
    ),
    why="Two inputs on one axis fight: the ring jumps or creeps in the take, and each blames the motor.",
    put_right="Take one hand off: switch the second control's axis off, unpair it, or part the bus.",
    source="common practice",
    check=check,
)
