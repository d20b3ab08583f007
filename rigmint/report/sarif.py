"""The report of `check` as SARIF 2.1.0 (OASIS standard, 27 March 2020): one run, no timestamps."""

from __future__ import annotations

import os
from typing import Any
from urllib.parse import quote

from rigmint.library.faults import Fault
from rigmint.lint.finding import Unknown
from rigmint.lint.fingerprint import FINGERPRINT, find_home, make_fingerprint
from rigmint.lint.packs import PackSet
from rigmint.lint.results import Accepted, FileReport, Gone, Report, ReportedFinding, ReportedFix
from rigmint.report.faults import is_in_file
from rigmint.report.json import to_json
from rigmint.report.order import sort_files, sort_findings
from rigmint.report.safe import clean
from rigmint.report.sarif_rules import LEVELS, ToolPart, describe_tool, escape_message

Object = dict[str, Any]

VERSION = "2.1.0"
SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_ABSENT = "absent"


def render_sarif(report: Report, packs: PackSet, *, strict: bool) -> str:
    """The log. Remedies stand in the message; those that are edits of the rig file are `fixes` too."""
    part = describe_tool(report.version, packs)
    files = sort_files(report.files)
    status = report.status(strict=strict)
    notifications = [_notify_fault(fault, part) for fault in report.unread]
    for file in files:
        notifications += [_notify_fault(fault, part) for fault in file.unread]
        notifications += [_notify_unknown(unknown, file.file, part) for unknown in file.unknown]
    run: Object = {
        "tool": part.tool,
        "columnKind": "unicodeCodePoints",
        "invocations": [
            {
                "executionSuccessful": status != 2,
                "exitCode": status,
                "toolExecutionNotifications": notifications,
            }
        ],
        "results": [_show_result(finding, file, part) for file in files for finding in sort_findings(file)],
    }
    if report.since is not None:
        run["results"] = [*run["results"], *(_show_gone(one, part) for one in report.since.gone)]
    return to_json({"$schema": SCHEMA, "version": VERSION, "runs": [run]})


def _show_result(finding: ReportedFinding, file: FileReport, part: ToolPart) -> Object:
    _, home = find_home(file.file)
    result: Object = {
        "ruleId": finding.code,
        "rule": _refer(finding.code, part),
        "level": LEVELS[finding.grade],
        "message": _show_message(" ".join([finding.says, *(f"Fix: {fix.says}" for fix in finding.fixes)])),
        "locations": [
            {
                **_locate(file.file, finding.position.line, finding.position.column),
                "logicalLocations": [{"fullyQualifiedName": finding.at}],
            }
        ],
        "partialFingerprints": {FINGERPRINT: make_fingerprint(finding, home)},
        "properties": {
            "grade": finding.grade,
            "home": _quote(home),
            "at": finding.at,
            "cause": finding.cause,
            "also": finding.also,
            "setups": finding.setups,
            "path": finding.path,
            "assumed": finding.assumed,
        },
    }
    if finding.accepted is not None:
        result["suppressions"] = [_show_suppression(finding.accepted)]
    if finding.state is not None:
        result["baselineState"] = finding.state.value
    fixes = [_show_fix(fix, file.file) for fix in finding.fixes if fix.text_edits]
    if fixes:
        result["fixes"] = fixes
    return result


def _show_gone(gone: Gone, part: ToolPart) -> Object:
    """A finding of the earlier run, as far as it is known."""
    return {
        "ruleId": gone.code,
        "rule": _refer(gone.code, part),
        "level": LEVELS[gone.grade],
        "message": {"text": gone.says},
        "locations": [
            {**_locate(gone.file, gone.line or 0, gone.column), "logicalLocations": [{"fullyQualifiedName": gone.at}]}
        ],
        "partialFingerprints": {FINGERPRINT: gone.fingerprint},
        "baselineState": _ABSENT,
        "properties": {"grade": gone.grade, "at": gone.at},
    }


def _show_fix(fix: ReportedFix, file: str) -> Object:
    """Regions are in characters, as `columnKind` says, and an inserted text deletes an empty one."""
    replacements = [
        {
            "deletedRegion": {
                "startLine": one.line,
                "startColumn": one.column,
                "endLine": one.end_line,
                "endColumn": one.end_column,
            },
            "insertedContent": {"text": one.text},
        }
        for one in fix.text_edits
    ]
    return {
        "description": _show_message(fix.says),
        "artifactChanges": [{"artifactLocation": _locate_file(file), "replacements": replacements}],
        "properties": {"proved": fix.proved},
    }


def _show_suppression(accepted: Accepted) -> Object:
    until = f", until {accepted.until}" if accepted.until else ""
    justification = clean(f"{accepted.why} (signed by {accepted.by}{until})")
    kind = "inSource" if accepted.is_in_rig else "external"
    return {"kind": kind, "status": "accepted", "justification": justification}


def _notify_fault(fault: Fault, part: ToolPart) -> Object:
    notification: Object = {
        "descriptor": _refer(fault.code, part),
        "level": "error",
        "message": _show_message(fault.says),
    }
    if is_in_file(fault):
        notification["locations"] = [_locate(fault.file, fault.line, fault.column)]
    return notification


def _notify_unknown(unknown: Unknown, file: str, part: ToolPart) -> Object:
    return {
        "associatedRule": _refer(unknown.code, part),
        "level": "note",
        "message": _show_message(f"Not judged: {unknown.code} at {unknown.at} needs {unknown.needs}. {unknown.says}"),
        "locations": [{**_locate(file, 0, 0), "logicalLocations": [{"fullyQualifiedName": unknown.at}]}],
    }


def _refer(code: str, part: ToolPart) -> Object:
    return part.references.get(code, {"id": code})


def _show_message(text: str) -> Object:
    return {"text": escape_message(clean(text))}


def _locate(file: str, line: int, column: int) -> Object:
    """A place in a file; without a region where no line is known."""
    physical: Object = {"artifactLocation": _locate_file(file)}
    if line > 0:
        physical["region"] = {"startLine": line, "startColumn": max(column, 1)}
    return {"physicalLocation": physical}


def _locate_file(file: str) -> Object:
    """Relative to the working folder."""
    return {"uri": _quote(file)}


def _quote(path: str) -> str:
    """A path as a relative URI, also one that is not UTF-8."""
    return quote(os.fsencode(path), safe="/")
