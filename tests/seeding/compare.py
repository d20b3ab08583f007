"""Holds what rigmint says of a mutant against what the judgement says."""

from __future__ import annotations

from collections import Counter
from collections.abc import Set
from dataclasses import dataclass

from rigmint.lint.results import FileReport, ReportedFinding
from rigmint.words import Grade
from tests.seeding.codes import CODES, UNJUDGED, stands_for
from tests.seeding.judge.harm import UNSOLVED, Harm

MOST_THIN, MOST_TIDY = 5, 3
"""The noise budget of a rig."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """`missed`: harms that no finding tells; `alarms`: codes at `fight` or worse for which there is no harm; `noise`:
    how the noise budget is broken; `refused`: the file was not read."""

    told: tuple[Harm, ...]
    missed: tuple[Harm, ...]
    alarms: tuple[ReportedFinding, ...]
    noise: tuple[str, ...]
    refused: bool


def compare(harms: Set[Harm], report: FileReport, sound: FileReport) -> Verdict:
    """The verdict on one mutant. `sound`: the report on the rig from which it was made."""
    grave = [one for one in report.findings if one.grade.is_at_least(Grade.FIGHT)]
    judged = [harm for harm in harms if harm.what != UNSOLVED]
    told = tuple(harm for harm in judged if any(_tells(one, harm) for one in grave))
    missed = tuple(harm for harm in judged if harm not in told)
    whats = {harm.what for harm in harms}
    explained = {code for what in whats for code in CODES[what].own}
    alarms = tuple(
        one for one in grave if one.code not in UNJUDGED and one.code not in explained and not _is_near(one, harms)
    )
    refused = bool(report.unread)
    return Verdict(told, () if refused else missed, alarms, tuple(_find_noise(report, sound)), refused)


def _tells(finding: ReportedFinding, harm: Harm) -> bool:
    """By its own code, and by naming the item, lead or link; or by a code that silences it, wherever the cause is."""
    if stands_for(harm.what, finding.code):
        return True
    if finding.code not in CODES[harm.what].own:
        return False
    subject = harm.at.partition(".")[0]
    named = {finding.at, finding.cause, *finding.also, *finding.path}
    return any(_subject(place) == subject for place in named)


def _subject(place: str) -> str:
    return place.removeprefix("link:").partition(":")[0].partition(".")[0]


def _is_near(finding: ReportedFinding, harms: Set[Harm]) -> bool:
    """Whether the finding tells one of the harms in other words: a nearer cause, a worse name."""
    return any(_tells(finding, harm) for harm in harms)


def _find_noise(report: FileReport, sound: FileReport) -> list[str]:
    """Once per cause; few thin, few tidy."""
    found = []
    twice = Counter((one.code, one.cause, one.at) for one in report.findings)
    found += [f"{code} twice at {at}" for (code, _, at), count in twice.items() if count > 1]
    for grade, most in ((Grade.THIN, MOST_THIN), (Grade.TIDY, MOST_TIDY)):
        count = sum(one.grade is grade for one in report.findings)
        if count > max(most, sum(one.grade is grade for one in sound.findings)):
            found.append(f"{count} {grade.value}")
    return found
