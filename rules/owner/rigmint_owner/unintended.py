"""`owner:unintended`: somebody has an axis who is not meant to."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Grade, Rule, Verdict
from rigmint_owner.verdict import find_certain
from rigmint_owner.wording import find_remedy, say_hands, say_meant


def check(case: Case) -> Iterator[Finding]:
    """One finding for each cause that gives an axis to the wrong person."""
    for axis, judgement in find_certain(case, Verdict.UNINTENDED):
        remedy = find_remedy(case, axis, judgement.unwanted, all_go=True)
        yield Finding(
            code="owner:unintended",
            grade=Grade.FIGHT,
            says=f"{axis.place} answers to {say_hands(judgement.unwanted)}. {say_meant(axis)}.",
            at=axis.place,
            cause=remedy.cause,
            path=remedy.path,
            fixes=remedy.fixes,
        )


RULE = Rule(
    code="owner:unintended",
    grades=(Grade.FIGHT,),
    title="The wrong person has an axis",
    looks_for="An axis whose hand belongs to nobody whom `who:` names for it, an axis meant for nobody included.",
    why="The one who is meant to hold it does not, and the one who does will not know it.",
    put_right="Set the control, the link or the crew so that the person meant has it; or write down what is meant.",
    source="common practice",
    check=check,
)
