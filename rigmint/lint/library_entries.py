"""What the core says of the library's own acceptances, once all rigs of a run have been seen."""

from __future__ import annotations

from collections.abc import Container, Sequence
from pathlib import Path

from rigmint.library.find_files import find_rig_files
from rigmint.library.library_file import Library, find_library_file
from rigmint.library.paths import resolve_path
from rigmint.lint.accepted import Verdict, say_verdicts
from rigmint.lint.results import FileReport, ReportedFinding, ReportedFix
from rigmint.rig.place import Position


def report_library_entries(
    library: Library, library_file: Path, reports: Sequence[FileReport], checked: Sequence[Path], codes: Container[str]
) -> FileReport | None:
    """The library's file as one more file of the report, with its entries that do not hold, and those that match
    nothing; None where there is nothing to say. `reports`: of the rigs of this library in the run; `checked`: the
    rigs' files. That an entry matches nothing is said only where all rigs of the library were checked.
    """
    entries = library.house.accepted
    if not entries or library.house.file is None:
        return None
    verdicts: dict[str, set[Verdict]] = {entry.place: set() for entry in entries}
    for report in reports:
        for place, verdict in report.library_entries:
            verdicts[place].add(Verdict(verdict))
    is_whole = all(report.setups for report in reports) and _covers_library(library_file, checked)
    findings = []
    for entry in entries:
        found = verdicts[entry.place]
        told = say_verdicts(entry, found, ()) if found or (is_whole and entry.code in codes) else None
        if told is not None:
            finding = told.finding
            findings.append(
                ReportedFinding(
                    code=finding.code,
                    grade=finding.grade,
                    says=finding.says,
                    at=finding.at,
                    cause=finding.cause,
                    also=(),
                    position=entry.position or Position(1, 1),
                    setups=(),
                    path=(),
                    measured=None,
                    assumed=(),
                    fixes=tuple(ReportedFix(fix.says, None, ()) for fix in finding.fixes),
                    accepted=None,
                )
            )
    return FileReport(library.house.file, 0, 0, (), tuple(findings), (), (), ()) if findings else None


def _covers_library(library_file: Path, checked: Sequence[Path]) -> bool:
    """Whether every rig below the library's folder that belongs to it is among those checked."""
    files, faults = find_rig_files([resolve_path(library_file).parent])
    seen = {resolve_path(path) for path in checked}
    own = [path for path in files if find_library_file(path) == resolve_path(library_file)]
    return bool(own) and not faults and all(resolve_path(path) in seen for path in own)
