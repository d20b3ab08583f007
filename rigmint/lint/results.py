"""What a run gives back: frozen records that reports turn into text and compute nothing from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from rigmint.library.faults import Fault
from rigmint.library.text_edits import TextEdit
from rigmint.library.tree_edits import Edit
from rigmint.lint.finding import Measured, Unknown
from rigmint.lint.packs import Pack
from rigmint.rig.place import Position
from rigmint.words import Grade


class State(StrEnum):
    """What a finding is to an earlier run."""

    NEW = "new"
    UNCHANGED = "unchanged"


@dataclass(frozen=True, slots=True)
class ReportedFix:
    """A remedy; `proved` is None where it was not tried."""

    says: str
    proved: bool | None
    edits: tuple[Edit, ...]
    text_edits: tuple[TextEdit, ...] = ()
    """The edits as replacements in the file, where that was asked for and can be done."""


@dataclass(frozen=True, slots=True)
class Accepted:
    """Who signed for a finding, why, until when."""

    why: str
    by: str
    until: str | None
    is_in_rig: bool = True
    """The entry stands in the rig file; else in the library."""


@dataclass(frozen=True, slots=True)
class ReportedFinding:
    """One finding over all setups in which it holds."""

    code: str
    grade: Grade
    says: str
    at: str
    cause: str
    also: tuple[str, ...]
    position: Position
    setups: tuple[str, ...]
    path: tuple[str, ...]
    measured: Measured | None
    assumed: tuple[str, ...]
    fixes: tuple[ReportedFix, ...]
    accepted: Accepted | None
    state: State | None = None
    """New or unchanged, where the run is compared with an earlier one."""


@dataclass(frozen=True, slots=True)
class FileReport:
    """One rig file; or the library's, for what is found of its acceptances."""

    file: str
    items: int
    leads: int
    setups: tuple[str, ...]
    findings: tuple[ReportedFinding, ...]
    unknown: tuple[Unknown, ...]
    unread: tuple[Fault, ...]
    assumed: tuple[str, ...]
    """Every figure for which a default stands in."""
    library_entries: tuple[tuple[str, str], ...] = ()
    """Place of each acceptance of the library that matched something here, and what became of it."""
    parts: int | None = None
    """How many parts it holds, where it is a part file."""

    @property
    def is_library(self) -> bool:
        """Whether this is the library's file, which is in a report only where the core has a finding of it."""
        return self.parts is None and not self.setups and bool(self.findings)


@dataclass(frozen=True, slots=True)
class Override:
    """A burn or hurt rule that a library turned off or regraded."""

    code: str
    says: str


@dataclass(frozen=True, slots=True)
class Gone:
    """A finding of an earlier run that is there no more."""

    code: str
    grade: Grade
    says: str
    file: str
    line: int | None
    column: int
    at: str
    fingerprint: str


@dataclass(frozen=True, slots=True)
class Since:
    """The earlier run with which this one is compared: its log's name, and what is gone."""

    name: str
    gone: tuple[Gone, ...]
    is_elsewhere: bool
    """None of the files of which it speaks is there, as seen from the working folder."""


@dataclass(frozen=True, slots=True)
class Report:
    """One run of `check`."""

    version: str
    today: str
    packs: Mapping[str, str]
    rules: int
    files: tuple[FileReport, ...]
    unread: tuple[Fault, ...]
    """Not tied to a rig: packs, libraries."""
    overrides: tuple[Override, ...]
    fail_on: Mapping[str, Grade]
    """File to the grade at or above which it fails."""
    codes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """File to the codes that were looked for on it."""
    house_packs: tuple[Pack, ...] = ()
    """Files of house checks that ran, each as a pack."""
    checks_left_out: tuple[str, ...] = ()
    """Files of house checks that the run was told not to run."""
    since: Since | None = None

    def count(self, grade: Grade) -> int:
        """Findings of a grade that nobody signed for."""
        return sum(f.grade is grade and f.accepted is None for report in self.files for f in report.findings)

    @property
    def accepted(self) -> int:
        """Findings that somebody signed for."""
        return sum(finding.accepted is not None for report in self.files for finding in report.findings)

    def count_state(self, state: State) -> int:
        """Findings of a state that nobody signed for."""
        return sum(f.state is state and f.accepted is None for report in self.files for f in report.findings)

    def is_failing(self, file: FileReport, finding: ReportedFinding) -> bool:
        """Whether a finding fails the run: open, at or above `fail_on`, and not known from an earlier run."""
        is_open = finding.accepted is None and finding.state is not State.UNCHANGED
        return is_open and finding.grade.is_at_least(self.fail_on[file.file])

    def status(self, *, strict: bool) -> int:
        """The exit status: 2 could not check, 1 findings at or above `fail_on`, 0 neither. Findings that are known from
        an earlier run do not count."""
        if self.unread or not self.files or any(report.unread for report in self.files):
            return 2
        if strict and any(report.unknown for report in self.files):
            return 2
        failing = any(self.is_failing(report, finding) for report in self.files for finding in report.findings)
        return 1 if failing else 0
