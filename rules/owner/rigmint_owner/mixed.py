"""`owner:mixed`: an absolute and a rate control on one axis."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Grade, Rule, Verdict
from rigmint_owner.fighting import report_fights


def check(case: Case) -> Iterator[Finding]:
    """One finding for each cause that mixes the two kinds on an axis."""
    outcome = "one sends a position and the other a speed, so it snaps back from wherever it is driven"
    return report_fights(case, "owner:mixed", Verdict.MIXED, outcome)


RULE = Rule(
    code="owner:mixed",
    grades=(Grade.FIGHT,),
    title="Position and speed on one axis",
    looks_for="An axis that an absolute control (position) and a rate control (speed) reach at once.",
    why=(
        "It is the worst of two hands: each time the absolute control is touched, the axis jumps back to where that"
        " control stands."
    ),
    put_right="Take one of the two off the axis, or use a control that takes over by touch.",
    source="common practice",
    check=check,
)
