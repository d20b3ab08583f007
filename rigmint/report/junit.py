"""The report of `check` as JUnit XML, in the form that CI systems share: a suite a file, a case a rule.

A case has the same name in every run, passed or failed, so that a CI system can tell what a change broke and what it
put right. A finding that fails the run is a failure, one that is signed for is skipped, what is below the library's
`fail_on` or known from an earlier run passes and stands in the case's output. What could not be read is an error. There
are no times: the same input gives the same bytes.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from xml.etree import ElementTree

from rigmint.library.faults import Fault
from rigmint.lint.finding import Unknown
from rigmint.lint.results import FileReport, Report, ReportedFinding, State
from rigmint.report.faults import has_line, is_in_file, name_group
from rigmint.report.order import sort_files, sort_findings
from rigmint.report.safe import clean

_NAME = "rigmint"
_SUFFIX = ".rig.yaml"
_NO_TIME = "0"
_COUNTS = {"tests": None, "failures": "failure", "errors": "error", "skipped": "skipped"}
"""Attribute to the outcome that it counts; None counts all."""
_CRASHES = frozenset({"rule:crashed", "study:failed"})


@dataclass(frozen=True, slots=True)
class _Case:
    """One case: `outcome` is failure, error, skipped or None; `message` says it in a line, `text` in full."""

    name: str
    outcome: str | None = None
    message: str = ""
    kind: str = ""
    text: Sequence[str] = ()
    output: Sequence[str] = ()


def render_junit(report: Report, *, strict: bool) -> str:
    """The document. `strict`: what a rule could not judge is an error, not skipped."""
    suites = [
        _show_suite(file.file, _name_class(file.file), _list_cases(file, report, strict))
        for file in sort_files(report.files)
    ]
    loose: dict[str, list[Fault]] = defaultdict(list)
    for fault in report.unread:
        loose[name_group(fault)].append(fault)
    suites += [_show_suite(name, name, _list_faults(faults)) for name, faults in loose.items()]
    root = ElementTree.Element("testsuites", {"name": _NAME, **_add_up(suites), "time": _NO_TIME})
    root.extend(suites)
    ElementTree.indent(root)
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{ElementTree.tostring(root, encoding="unicode")}\n'


def _name_class(file: str) -> str:
    """The file without its suffix: CI systems take what is before the last dot for a package."""
    return file.removesuffix(_SUFFIX)


def _list_cases(file: FileReport, report: Report, strict: bool) -> list[_Case]:
    found: dict[str, list[ReportedFinding]] = defaultdict(list)
    for finding in sort_findings(file):
        found[finding.code].append(finding)
    unknown: dict[str, list[Unknown]] = defaultdict(list)
    for one in file.unknown:
        unknown[one.code].append(one)
    codes = sorted({*report.codes.get(file.file, ()), *found, *unknown}) if file.setups else []
    cases = [_judge(code, found[code], unknown[code], file, report, strict) for code in codes]
    if any(fault.code in _CRASHES for fault in file.unread):
        cases = [_doubt(case) for case in cases]
    return [*_list_faults(file.unread), *cases]


def _doubt(case: _Case) -> _Case:
    """A case that passed, where a rule or a study failed: the rule may be the one that did not run."""
    if case.outcome is not None or case.output:
        return case
    return replace(case, outcome="skipped", message="not known to be clear: a rule or a study failed on this file")


def _judge(
    code: str,
    findings: Sequence[ReportedFinding],
    unknown: Sequence[Unknown],
    file: FileReport,
    report: Report,
    strict: bool,
) -> _Case:
    failing = [one for one in findings if report.is_failing(file, one)]
    rest = [line for one in findings if one not in failing for line in _describe(one)]
    rest += [f"not judged at {one.at}: it needs {one.needs}. {one.says}" for one in unknown]
    if failing:
        text = [line for one in failing for line in _describe(one)]
        return _Case(code, "failure", _sum_up(failing), failing[0].grade.value, text, rest)
    accepted = [one for one in findings if one.accepted is not None]
    if accepted and len(accepted) == len(findings):
        return _Case(code, "skipped", _describe_acceptance(accepted[0]), output=rest)
    if unknown and not findings:
        message = f"not judged: it needs {', '.join(dict.fromkeys(f'{one.needs} of {one.at}' for one in unknown))}"
        return _Case(code, "error" if strict else "skipped", message, "unknown", output=rest)
    return _Case(code, output=rest)


def _list_faults(faults: Sequence[Fault]) -> list[_Case]:
    """A case for each code, since a name stands once in a suite."""
    by_code: dict[str, list[Fault]] = defaultdict(list)
    for fault in faults:
        by_code[fault.code].append(fault)
    return [
        _Case(code, "error", found[0].says, "unread", [_describe_fault(one) for one in found])
        for code, found in by_code.items()
    ]


def _describe_fault(fault: Fault) -> str:
    where = f"{fault.file}, line {fault.line}: " if has_line(fault) else f"{fault.file}: " if is_in_file(fault) else ""
    return f"{where}{fault.says}"


def _sum_up(findings: Sequence[ReportedFinding]) -> str:
    more = f" And {len(findings) - 1} more." if len(findings) > 1 else ""
    return f"{findings[0].says}{more}"


def _describe(finding: ReportedFinding) -> list[str]:
    state = f"{finding.state.value}, " if finding.state is State.UNCHANGED else ""
    head = f"{finding.grade.value}, {state}line {finding.position.line}, {', '.join(finding.setups)}: {finding.says}"
    lines = [head, *([" > ".join(finding.path)] if finding.path else [])]
    lines += [f"Fix: {fix.says}" for fix in finding.fixes]
    return [*lines, *([_describe_acceptance(finding)] if finding.accepted is not None else [])]


def _describe_acceptance(finding: ReportedFinding) -> str:
    accepted = finding.accepted
    if accepted is None:
        return ""
    until = f", until {accepted.until}" if accepted.until else ""
    return f"accepted: {accepted.why} (signed by {accepted.by}{until})"


def _show_suite(name: str, class_name: str, cases: Sequence[_Case]) -> ElementTree.Element:
    counts = {key: str(sum(outcome in (None, case.outcome) for case in cases)) for key, outcome in _COUNTS.items()}
    suite = ElementTree.Element("testsuite", {"name": clean(name), **counts, "time": _NO_TIME})
    for case in cases:
        shown = {"name": clean(case.name), "classname": clean(class_name), "time": _NO_TIME}
        element = ElementTree.SubElement(suite, "testcase", shown)
        if case.outcome is not None:
            kind = {"type": case.kind} if case.kind else {}
            outcome = ElementTree.SubElement(element, case.outcome, {"message": clean(case.message), **kind})
            outcome.text = _join(case.text)
        if case.output:
            ElementTree.SubElement(element, "system-out").text = _join(case.output)
    return suite


def _join(lines: Sequence[str]) -> str | None:
    """Each line cleaned, since XML 1.0 has no place for control characters, not even escaped."""
    return "\n".join(clean(line) for line in lines) or None


def _add_up(suites: Sequence[ElementTree.Element]) -> dict[str, str]:
    return {key: str(sum(int(suite.get(key, "0")) for suite in suites)) for key in _COUNTS}
