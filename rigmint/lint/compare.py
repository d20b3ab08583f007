"""What a change to a rig does: findings gained and lost, and everything that the studies see differently."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from rigmint.library.faults import Fault
from rigmint.lint.accepted import Signed, sign_findings
from rigmint.lint.engine import RuleRun, run_rules
from rigmint.lint.finding import Finding
from rigmint.lint.packs import Pack
from rigmint.lint.rule import Rule
from rigmint.rig.house import House
from rigmint.rig.place import Position
from rigmint.rig.rig import Rig
from rigmint.study.compared.rigs import RigDifference, compare_rigs
from rigmint.study.studies import Studies
from rigmint.words import Grade


class Turn(StrEnum):
    """What became of a finding."""

    GAINED = "gained"
    WORSE = "worse"
    MILDER = "milder"
    LOST = "lost"


@dataclass(frozen=True, slots=True)
class FindingChange:
    """A finding that nobody signed for, as it stands in the rig that has it: in the new one, unless it is lost.
    `setups`: those in which it came, went or changed; `before` is the old grade of one that changed."""

    turn: Turn
    finding: Finding
    setups: tuple[str, ...]
    position: Position
    before: Grade | None = None


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two rigs compared: the findings, worst first in each turn, then the studies. `crashes`: rules that failed."""

    old: str
    new: str
    findings: tuple[FindingChange, ...]
    rigs: RigDifference
    crashes: tuple[Fault, ...]

    @property
    def is_empty(self) -> bool:
        """Whether the change does nothing that is known here."""
        return not self.findings and self.rigs.is_empty

    def find_worsening(self, fail_on: Grade) -> tuple[FindingChange, ...]:
        """What was gained or became worse at or above a grade."""
        worsening = (Turn.GAINED, Turn.WORSE)
        return tuple(one for one in self.findings if one.turn in worsening and one.finding.grade.is_at_least(fail_on))


@dataclass(frozen=True, slots=True)
class Judged:
    """One of the two rigs: its open findings by (code, cause), those of one key apart by setups, and its studies."""

    by_key: Mapping[tuple[str, str], Sequence[Signed]]
    studies: Studies
    setups: tuple[str, ...]
    crashes: tuple[Fault, ...]

    @property
    def rig(self) -> Rig:
        """The rig."""
        return self.studies.rig


def judge_side(
    rig: Rig, house: House, rules: Sequence[tuple[Pack, Rule]], today: datetime.date, setup: str | None = None
) -> Judged:
    """Check a rig, in all its setups or in one; a rig that does not have that one is judged in none."""
    setups = tuple(name for name in rig.setups if setup in (None, name))
    run = run_rules(rig, house, rules, setups) if setups else RuleRun((), (), ())
    signing = sign_findings(run.findings, rig, house, today, {rule.code for _, rule in rules})
    by_key: dict[tuple[str, str], list[Signed]] = {}
    for one in signing.signed:
        if one.accepted is None:
            by_key.setdefault((one.merged.finding.code, one.merged.finding.cause), []).append(one)
    return Judged(by_key, Studies(rig, house), setups, run.crashes)


def compare_judged(old: Judged, new: Judged) -> Comparison:
    """What changes from one to the other."""
    changes = [
        change
        for key in dict.fromkeys((*old.by_key, *new.by_key))
        for change in _compare_findings(old.by_key.get(key, ()), new.by_key.get(key, ()), old.rig, new.rig)
    ]
    turns = list(Turn)
    changes.sort(key=lambda one: (turns.index(one.turn), one.finding.grade.rank, one.finding.code, one.finding.at))
    setups = frozenset((*old.setups, *new.setups))
    return Comparison(
        old.rig.file,
        new.rig.file,
        tuple(changes),
        compare_rigs(old.studies, new.studies, setups),
        tuple(dict.fromkeys((*old.crashes, *new.crashes))),
    )


def _compare_findings(old: Sequence[Signed], new: Sequence[Signed], was: Rig, now: Rig) -> Iterable[FindingChange]:
    before = {setup: one for one in old for setup in one.merged.setups}
    after = {setup: one for one in new for setup in one.merged.setups}
    turns: dict[Turn, list[str]] = {}
    for setup in dict.fromkeys((*before, *after)):
        turn = _find_turn(before.get(setup), after.get(setup))
        if turn is not None:
            turns.setdefault(turn, []).append(setup)
    for turn, setups in turns.items():
        is_lost = turn is Turn.LOST
        finding = (before if is_lost else after)[setups[0]].merged.finding
        position = (was if is_lost else now).position(finding.cause, setups[0])
        grade = before[setups[0]].merged.finding.grade if turn in (Turn.WORSE, Turn.MILDER) else None
        yield FindingChange(turn, finding, tuple(setups), position, grade)


def _find_turn(before: Signed | None, after: Signed | None) -> Turn | None:
    if before is None or after is None:
        return Turn.GAINED if before is None else Turn.LOST
    was, now = before.merged.finding.grade.rank, after.merged.finding.grade.rank
    if was == now:
        return None
    return Turn.WORSE if now < was else Turn.MILDER
