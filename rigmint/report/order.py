"""The order of findings in every report: worst first, then as they stand in the file."""

from __future__ import annotations

from collections.abc import Iterable

from rigmint.lint.results import FileReport, ReportedFinding


def sort_findings(report: FileReport) -> list[ReportedFinding]:
    """The findings of a file, worst grade first, in an order that no pack's turn can change."""
    return sorted(
        report.findings,
        key=lambda f: (f.grade.rank, f.position.line, f.position.column, f.code, f.cause, f.at, f.says),
    )


def sort_files(reports: Iterable[FileReport]) -> list[FileReport]:
    """Reports by file name."""
    return sorted(reports, key=lambda report: report.file)
