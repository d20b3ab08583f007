"""A text of an editor, judged: what is wrong with the file, and what the rules find on the rig."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from rigmint.editor.text_lines import TextLines
from rigmint.library.build_rig import read_rig_text
from rigmint.library.document import Document, Span
from rigmint.library.faults import Fault, FaultList
from rigmint.library.library_file import show_path
from rigmint.library.schemas import decode_document
from rigmint.library.tree_edits import EditRefused
from rigmint.library.walk import CATALOGUE_KINDS, LIBRARY_NAME, RIG_SUFFIX
from rigmint.library.yaml import parse_yaml
from rigmint.lint.accepted import sign_findings
from rigmint.lint.edits import list_edits
from rigmint.lint.engine import run_rules
from rigmint.lint.finding import Fix, MergedFinding
from rigmint.lint.open_library import OpenLibrary
from rigmint.lint.prove import CheckedRig, Proof, Prover
from rigmint.rig.place import Position
from rigmint.study.studies import Studies
from rigmint.words import Grade


@dataclass(frozen=True, slots=True)
class Remark:
    """Something said of a text, from one character offset to another. `grade`: of a finding; None for a fault of the
    file, without which nothing is judged."""

    start: int
    end: int
    code: str
    says: str
    grade: Grade | None = None
    merged: MergedFinding | None = None


class Judged:
    """One text as it stood. `document`: None where it cannot be parsed; `studies`: of a rig without faults."""

    def __init__(
        self,
        text: str,
        document: Document | None,
        opened: OpenLibrary,
        faults: tuple[Fault, ...],
        prover: Prover | None = None,
        studies: Studies | None = None,
    ) -> None:
        self.text = text
        self.document = document
        self.opened = opened
        self.faults = faults
        self.studies = studies
        self._prover = prover

    @cached_property
    def remarks(self) -> tuple[Remark, ...]:
        """Faults in the order of the text, then findings, the worst first."""
        found = [self._place_fault(fault) for fault in self.faults]
        checked = self._prover.checked if self._prover is not None else None
        if checked is not None:
            found += [self._place_finding(merged, checked) for merged in (*checked.open, *checked.own)]
        return tuple(found)

    def list_proofs(self, merged: MergedFinding) -> list[tuple[Fix, Proof]]:
        """The fixes of a finding that hold, each with its proof. Each is tried now: that takes as long as judging."""
        checked = self._prover.checked if self._prover is not None else None
        if self._prover is None or checked is None:
            return []
        found = []
        for fix in merged.finding.fixes:
            try:
                edits = list_edits(fix.changes, checked.rig, checked.document.tree, merged.setups)
                proof = self._prover.prove(merged, edits) if edits else None
            except EditRefused:
                proof = None
            if proof is not None:
                found.append((fix, proof))
        return found

    def find_span(self, position: Position) -> tuple[int, int]:
        """From where to where the node at a position reaches, its key where it has one; else to the end of the line."""
        start = TextLines(self.text, "utf-32").find_offset(position.line - 1, position.column - 1)
        marks = self.document.marks if self.document is not None else None
        for spans in (marks.keys, marks.values) if marks is not None else ():
            starting = [span for span in spans.values() if span.start == start]
            if starting:
                return start, self._trim(min(starting, key=lambda span: span.end))
        return start, self._end_of_line(start)

    def _trim(self, span: Span) -> int:
        """The end of what a span holds, of one that goes over several lines that of the first."""
        text = self.text[span.start : span.end].partition("\n")[0].rstrip()
        return span.start + len(text)

    def _end_of_line(self, start: int) -> int:
        line = self.text[start:].partition("\n")[0].partition("\r")[0]
        return start + max(len(line), 1)

    def _place_fault(self, fault: Fault) -> Remark:
        is_here = self.document is None or fault.file == self.document.file
        start, end = self.find_span(Position(fault.line, fault.column) if is_here else Position(1, 1))
        says = fault.says if is_here else f"{fault.file}:{fault.line}: {fault.says}"
        return Remark(start, end, fault.code, says)

    def _place_finding(self, merged: MergedFinding, checked: CheckedRig) -> Remark:
        finding = merged.finding
        start, end = self.find_span(checked.rig.position(finding.cause, merged.setups[0]))
        setups = f" (in {', '.join(merged.setups)})" if len(merged.setups) < len(checked.rig.setups) else ""
        remedies = [fix.says for fix in finding.fixes[:2]]
        says = "\n".join([f"{finding.says}{setups}", *(f"Fix: {remedy}" for remedy in remedies)])
        return Remark(start, end, finding.code, says, finding.grade, merged)


def judge_text(text: str, path: Path, opened: OpenLibrary, today: datetime.date) -> Judged:
    """Judge the text of a file by what its name says that it is."""
    if path.name.endswith(RIG_SUFFIX):
        return _judge_rig(text, path, opened, today)
    shown = show_path(path)
    faults = FaultList()
    document = parse_yaml(text, shown, faults)
    kind = next((kind for suffix, kind in CATALOGUE_KINDS.items() if path.name.endswith(suffix)), None)
    if path.name == LIBRARY_NAME and document is not None:
        decode_document(document, "library", faults)
    elif kind is not None:  # the library was read with this text in the place of the file's
        library = opened.library
        owned = [fault for one in library.catalogue.check_owned().values() for fault in one]
        faults.found += [fault for fault in (*library.faults, *owned) if fault.file == shown]
    return Judged(text, document, opened, tuple(sorted(set(faults.found))))


def _judge_rig(text: str, path: Path, opened: OpenLibrary, today: datetime.date) -> Judged:
    read = read_rig_text(text, path, opened.library)
    if read.rig is None or read.document is None:
        document = read.document or parse_yaml(text, show_path(path), FaultList())
        return Judged(text, document, opened, read.faults)
    house, packs = opened.library.house, opened.packs
    studies = Studies(read.rig, house)
    run = run_rules(read.rig, house, packs.rules, studies=studies)
    signing = sign_findings(run.findings, read.rig, house, today, {rule.code for _, rule in packs.rules})
    checked = CheckedRig(read.document, read.rig, run, signing.signed, signing.own)
    prover = Prover(read, opened.library, packs, today, schemas=opened.schemas).continue_from(checked)
    return Judged(text, read.document, opened, (*run.crashes, *signing.faults), prover, studies)
