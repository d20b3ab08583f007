"""What a report must hold, and must not hold."""

from __future__ import annotations

from rigmint.lint.core_codes import CORE_CODES
from rigmint.lint.packs import load_packs
from rigmint.lint.results import FileReport, ReportedFinding
from rigmint.testing.cases import BadCase, show_report
from rigmint.words import Grade


def assert_finds(
    report: FileReport,
    code: str,
    *,
    line: int,
    at: str,
    cause: str,
    grade: Grade | None = None,
    worst: Grade = Grade.FIGHT,
) -> ReportedFinding:
    """The report holds the code once, there, and nothing else at the grade `worst` or above it. The finding is given
    back. `grade`: None takes any that the rule declares."""
    _refuse_unknown_code(code)
    found = [finding for finding in report.findings if finding.code == code]
    if len(found) != 1:
        _fail(report, f"{code} was due once and came {len(found)} times")
    finding = found[0]
    due = {"line": line, "at": at, "cause": cause, "grade": grade or finding.grade}
    got = {"line": finding.position.line, "at": finding.at, "cause": finding.cause, "grade": finding.grade}
    wrong = [f"{key} {got[key]} instead of {value}" for key, value in due.items() if got[key] != value]
    if wrong:
        _fail(report, f"{code} came with {', '.join(wrong)}")
    _refuse_worse(report, worst, besides=code)
    return finding


def assert_silent(report: FileReport, *codes: str, worst: Grade = Grade.FIGHT) -> None:
    """The report holds none of the codes, and nothing at the grade `worst` or above it."""
    for code in codes:
        _refuse_unknown_code(code)
        if any(finding.code == code for finding in report.findings):
            _fail(report, f"{code} was not due")
    _refuse_worse(report, worst)


def _refuse_worse(report: FileReport, worst: Grade, besides: str | None = None) -> None:
    others = [one.code for one in report.findings if one.code != besides and one.grade.is_at_least(worst)]
    if others:
        _fail(report, f"nothing else at `{worst.value}` or above it was due, and {', '.join(others)} came")


def _fail(report: FileReport, says: str) -> None:
    msg = f"{says}:\n{show_report(report)}"
    raise AssertionError(msg)


def _refuse_unknown_code(code: str) -> None:
    known = {rule.code for _, rule in load_packs().rules} | {one.code for one in CORE_CODES}
    if code not in known:
        msg = f"no installed rule has the code `{code}`"
        raise BadCase(msg)
