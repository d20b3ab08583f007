"""What `owner:two` and `owner:mixed` share: two inputs act on one axis."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import AxisHands, Case, Finding, Grade, Judgement, Verdict
from rigmint_owner.verdict import find_certain
from rigmint_owner.wording import count_hands, find_remedy, say_hands, say_meant


def report_fights(case: Case, code: str, verdict: Verdict, outcome: str) -> Iterator[Finding]:
    """One finding for each axis on which the verdict holds."""
    for axis, judgement in find_certain(case, verdict):
        yield _report(case, code, axis, judgement, outcome)


def _report(case: Case, code: str, axis: AxisHands, judgement: Judgement, outcome: str) -> Finding:
    suspects = judgement.unwanted or tuple(reversed(judgement.contenders))
    remedy = find_remedy(case, axis, suspects, all_go=bool(judgement.unwanted))
    return Finding(
        code=code,
        grade=Grade.FIGHT,
        says=f"{axis.place} answers to {say_hands(judgement.contenders)}: {outcome}. {say_meant(axis)}.",
        at=axis.place,
        cause=remedy.cause,
        path=remedy.path,
        measured=count_hands(judgement.contenders),
        fixes=remedy.fixes,
    )
