"""Proves a fix: written into the text of the rig file in memory, read again and checked again, its finding is gone and
nothing at `thin` or worse has come."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from rigmint.library.build_rig import ReadRig, reassemble_rig
from rigmint.library.document import Document
from rigmint.library.house_schemas import HouseSchemas
from rigmint.library.library_file import Library
from rigmint.library.text_edits import TextEdit, apply_text_edits, plan_text_edits
from rigmint.library.tree_edits import Edit, EditRefused
from rigmint.lint.accepted import Signed, sign_findings
from rigmint.lint.engine import RuleRun, run_rules
from rigmint.lint.finding import MergedFinding
from rigmint.lint.packs import PackSet
from rigmint.rig.rig import Rig
from rigmint.words import Grade

_Weighty: TypeAlias = Mapping[tuple[str, str, str], tuple[Grade, frozenset[str]]]
"""(code, cause, setup) to the grade and all the places at which the finding shows."""


@dataclass(frozen=True, slots=True)
class CheckedRig:
    """A rig file as read, and what all rules say of it in all its setups."""

    document: Document
    rig: Rig
    run: RuleRun
    signed: tuple[Signed, ...]
    own: tuple[MergedFinding, ...]
    """The core's own findings, of acceptances."""

    @property
    def open(self) -> tuple[MergedFinding, ...]:
        """The findings that nobody signed for, worst first."""
        return tuple(one.merged for one in self.signed if one.accepted is None)


@dataclass(frozen=True, slots=True)
class Proof:
    """A fix that holds: the replacements, the text that they give, and the rig that it reads as."""

    text_edits: tuple[TextEdit, ...]
    text: str
    checked: CheckedRig


class Prover:
    """Tries fixes on one rig. `others`: the other rigs of its job; `schemas`: what the house asks of rig files;
    `checked`: what is known of the rig already."""

    def __init__(
        self,
        read: ReadRig,
        library: Library,
        packs: PackSet,
        today: datetime.date,
        others: tuple[Rig, ...] = (),
        schemas: HouseSchemas | None = None,
        checked: CheckedRig | None = None,
    ) -> None:
        self._read = read
        self._library = library
        self._packs = packs
        self._today = today
        self._others = others
        self._schemas = schemas
        self._checked = checked

    @property
    def checked(self) -> CheckedRig | None:
        """The rig as it stands; None for one that cannot be read."""
        if self._checked is None:
            self._checked = self._check(self._read)
        return self._checked

    def prove(self, merged: MergedFinding, edits: Sequence[Edit]) -> Proof | None:
        """The proof that the edits clear the finding and bring nothing new; None where they do not. Raises EditRefused
        where they cannot be written."""
        before = self.checked
        if before is None:
            return None
        text_edits = plan_text_edits(before.document, edits)
        text = apply_text_edits(before.document.text, text_edits)
        read = reassemble_rig(before.document, text, self._library)
        if read.rig is None or self._still_finds(read.rig, merged):
            return None
        after = self._check(read)
        if after is None or _is_there(merged, after) or not _brings_nothing_new(before, after):
            return None
        if not self._keeps_schemas(before.document, after.document):
            return None
        return Proof(text_edits, text, after)

    def is_proved(self, merged: MergedFinding, edits: Sequence[Edit]) -> bool:
        """Whether there is a proof."""
        try:
            return self.prove(merged, edits) is not None
        except EditRefused:
            return False

    def continue_from(self, checked: CheckedRig) -> Prover:
        """A prover for the rig as it stands after a fix."""
        return Prover(self._read, self._library, self._packs, self._today, self._others, self._schemas, checked)

    def _check(self, read: ReadRig) -> CheckedRig | None:
        if read.rig is None or read.document is None:
            return None
        house, rules = self._library.house, self._packs.rules
        run = run_rules(read.rig, house, rules, others=self._others)
        codes = {rule.code for _, rule in rules}
        judged = sign_findings(run.findings, read.rig, house, self._today, codes)
        return CheckedRig(read.document, read.rig, run, judged.signed, judged.own)

    def _keeps_schemas(self, before: Document, after: Document) -> bool:
        """Whether a house's own schema has nothing against the rig that it had not before."""
        if self._schemas is None:
            return True
        known = [fault.says for fault in self._schemas.check_rig(before)]
        return all(fault.says in known for fault in self._schemas.check_rig(after))

    def _still_finds(self, rig: Rig, merged: MergedFinding) -> bool:
        """Whether the rule alone still finds it: most fixes that fail, fail here, at a fraction of the cost."""
        own = [pair for pair in self._packs.rules if pair[1].code == merged.finding.code]
        setups = [name for name in merged.setups if name in rig.setups]
        return not _is_clear_of(run_rules(rig, self._library.house, own, setups, self._others), merged)


def _is_clear_of(run: RuleRun, merged: MergedFinding) -> bool:
    finding = merged.finding
    return not any(one.finding.code == finding.code and one.finding.cause == finding.cause for one in run.findings)


def _is_there(merged: MergedFinding, checked: CheckedRig) -> bool:
    """Whether a finding stands. One of an acceptance is known by its words, since entries are counted."""
    return not _is_clear_of(checked.run, merged) or any(
        one.finding.code == merged.finding.code and one.finding.says == merged.finding.says for one in checked.own
    )


def _brings_nothing_new(before: CheckedRig, after: CheckedRig) -> bool:
    """No crash, nothing that can no longer be judged, and no finding at a new cause or place, in a new setup, or of a
    worse grade."""
    known = _list_weighty(before)
    return (
        _are_among(after.run.crashes, before.run.crashes)
        and _are_among(
            ((one.code, one.needs, one.at) for one in after.run.unknown),
            [(one.code, one.needs, one.at) for one in before.run.unknown],
        )
        and all(_is_known(key, held, known) for key, held in _list_weighty(after).items())
    )


def _list_weighty(checked: CheckedRig) -> _Weighty:
    found: dict[tuple[str, str, str], tuple[Grade, frozenset[str]]] = {}
    for merged in (*checked.open, *checked.own):
        finding = merged.finding
        if finding.grade.is_at_least(Grade.THIN):
            held = (finding.grade, frozenset({finding.at, *finding.also}))
            found |= {(finding.code, finding.cause, setup): held for setup in merged.setups}
    return found


def _are_among(found: Iterable[object], known: Sequence[object]) -> bool:
    return all(one in known for one in found)


def _is_known(key: tuple[str, str, str], held: tuple[Grade, frozenset[str]], before: _Weighty) -> bool:
    known = before.get(key)
    return known is not None and known[0].is_at_least(held[0]) and held[1] <= known[1]
