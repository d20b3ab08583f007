"""Marks the findings of a run as new or unchanged since an earlier one, and lists those that are gone."""

from __future__ import annotations

import os
from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import replace
from pathlib import Path

from rigmint.library.paths import is_there
from rigmint.lint.baseline import Baseline, KnownFinding
from rigmint.lint.fingerprint import find_home, make_fingerprint
from rigmint.lint.results import FileReport, Gone, Report, ReportedFinding, Since, State


def compare_with_baseline(report: Report, baseline: Baseline, setup: str | None) -> Report:
    """The report with the state of each finding. `setup`: the only one that the run looked at, if it was so asked.

    A finding that has become worse, or that somebody had signed for and does not any more, counts as new: it was not
    known as what it is now. Gone are findings of files that this run read whole, or that are not there any more.
    """
    known: dict[str, list[KnownFinding]] = defaultdict(list)
    for one in baseline.findings:
        known[one.fingerprint].append(one)
    homes = {file.file: find_home(file.file) for file in report.files}
    tops = {top for top, _ in homes.values()} or {os.getcwd()}
    files = tuple(_mark_file(file, homes[file.file][1], known) for file in report.files)
    seen = {make_fingerprint(finding, homes[file.file][1]) for file in files for finding in file.findings}
    looked_for = {homes[file.file][1]: frozenset(report.codes.get(file.file, ())) for file in files if file.setups}
    gone = {
        one.fingerprint: Gone(one.code, one.grade, one.says, one.file, one.line, one.column, one.at, one.fingerprint)
        for one in baseline.findings
        if one.fingerprint not in seen and _was_looked_at(one, looked_for, tops, setup)
    }
    is_elsewhere = bool(baseline.findings) and not any(_is_there(one.home, tops) for one in baseline.findings)
    ordered = sorted(gone.values(), key=lambda one: (one.file, one.grade.rank, one.line or 0, one.code, one.at))
    return replace(report, files=files, since=Since(baseline.name, tuple(ordered), is_elsewhere))


def _mark_file(file: FileReport, home: str, known: dict[str, list[KnownFinding]]) -> FileReport:
    findings = tuple(
        replace(one, state=State.UNCHANGED if _is_known(one, known[make_fingerprint(one, home)]) else State.NEW)
        for one in file.findings
    )
    return replace(file, findings=findings)


def _is_known(finding: ReportedFinding, known: list[KnownFinding]) -> bool:
    if finding.accepted is not None:
        return bool(known)
    return any(one.is_open and one.grade.is_at_least(finding.grade) for one in known)


def _was_looked_at(
    known: KnownFinding, looked_for: Mapping[str, frozenset[str]], tops: Collection[str], setup: str | None
) -> bool:
    """Whether this run would have found it again."""
    if known.home not in looked_for:
        return not _is_there(known.home, tops)
    if known.code not in looked_for[known.home]:
        return False
    return setup is None or set(known.setups) == {setup}


def _is_there(home: str, tops: Collection[str]) -> bool:
    return any(is_there(Path(top, home)) for top in tops)
