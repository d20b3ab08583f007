"""The machine-readable output: the contracts of `check` and `owners`, and the one way in which values are printed."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping, Sequence
from typing import Any

from rigmint.library.faults import Fault
from rigmint.library.tree_edits import Edit
from rigmint.lint.finding import Measured, Unknown
from rigmint.lint.results import FileReport, Report, ReportedFinding, ReportedFix, Since, State
from rigmint.report.held_back import find_held_back
from rigmint.report.order import sort_files, sort_findings
from rigmint.study.hands import AxisHands, Claim, Hands, Stopped
from rigmint.words import Grade

_DIGITS = 6


def to_json(value: object) -> str:
    """JSON text with sorted keys and floats to 6 significant digits, in ASCII: no locale changes a byte of it.

    Raises ValueError for a number that is none (NaN, infinity), TypeError for what JSON does not have.
    """
    return json.dumps(_simplify(value, ""), indent=2, sort_keys=True, ensure_ascii=True, allow_nan=False) + "\n"


def render_check_json(report: Report) -> str:
    """The object of `check`."""
    shown: dict[str, object] = {
        "rigmint": report.version,
        "today": report.today,
        "packs": report.packs,
        "counts": {grade.value: report.count(grade) for grade in Grade},
        "accepted": report.accepted,
        "files": [_show_file(file) for file in sort_files(report.files)],
        "unread": [_show_fault(fault) for fault in report.unread],
    }
    if report.since is not None:
        shown["since"] = _show_since(report, report.since)
    return to_json(shown)


def render_owners_json(version: str, file: str, setups: Mapping[str, Hands]) -> str:
    """The object of `owners`."""
    shown = {name: {axis.name: _show_axis(axis) for axis in hands.axes.values()} for name, hands in setups.items()}
    return to_json({"rigmint": version, "file": file, "setups": shown})


def render_unread_json(faults: Sequence[Fault]) -> str:
    """What `power`, `owners` and `misplug` print for a rig that cannot be read."""
    return to_json({"unread": [_show_fault(fault) for fault in faults]})


def _simplify(value: object, where: str) -> Any:
    """Plain JSON values; `where` names the place in a message."""
    match value:
        case None | bool() | int():
            return value
        case str():
            return str(value)
        case float():
            if not math.isfinite(value):
                msg = f"{where or 'the value'} is {value}, which is no number"
                raise ValueError(msg)
            return float(f"{value:.{_DIGITS}g}") + 0.0  # adding zero makes -0.0 plain
        case Mapping():
            return {_simplify_key(key, where): _simplify(item, f"{where}.{key}") for key, item in value.items()}
        case list() | tuple():
            return [_simplify(item, f"{where}[{index}]") for index, item in enumerate(value)]
        case _:
            msg = f"{where or 'the value'} is of type {type(value).__name__}, which JSON does not have"
            raise TypeError(msg)


def _simplify_key(key: object, where: str) -> str:
    if not isinstance(key, str):
        msg = f"{where or 'the value'} has the key {key!r}, which is no text"
        raise TypeError(msg)
    return str(key)


def _show_file(report: FileReport) -> dict[str, object]:
    return {
        "file": report.file,
        "items": report.items,
        "leads": report.leads,
        "setups": report.setups,
        "findings": [_show_finding(finding) for finding in sort_findings(report)],
        "unknown": [_show_unknown(unknown) for unknown in report.unknown],
        "unread": [_show_fault(fault) for fault in report.unread],
    }


def _show_finding(finding: ReportedFinding) -> dict[str, object]:
    accepted = finding.accepted
    state = {"state": finding.state.value} if finding.state is not None else {}
    return {
        **state,
        "code": finding.code,
        "grade": finding.grade,
        "says": finding.says,
        "at": finding.at,
        "cause": finding.cause,
        "also": finding.also,
        "line": finding.position.line,
        "column": finding.position.column,
        "setups": finding.setups,
        "path": finding.path,
        "measured": _show_measured(finding.measured),
        "assumed": finding.assumed,
        "fixes": [_show_fix(fix) for fix in finding.fixes],
        "accepted": {"why": accepted.why, "by": accepted.by, "until": accepted.until} if accepted else None,
    }


def _show_measured(measured: Measured | None) -> dict[str, object] | None:
    if measured is None:
        return None
    return {"value": measured.value, "limit": measured.limit, "unit": measured.unit}


def _show_since(report: Report, since: Since) -> dict[str, object]:
    """Counts of open findings, and what is gone."""
    gone = [{"code": one.code, "grade": one.grade, "file": one.file, "at": one.at} for one in since.gone]
    return {**{state.value: report.count_state(state) for state in State}, "gone": gone}


def _show_fix(fix: ReportedFix) -> dict[str, object]:
    return {"says": fix.says, "proved": fix.proved, "edits": [_show_edit(edit) for edit in fix.edits]}


def _show_edit(edit: Edit) -> dict[str, object]:
    return {"do": edit.do, "path": edit.path, "value": edit.value}


def _show_unknown(unknown: Unknown) -> dict[str, object]:
    return {"code": unknown.code, "needs": unknown.needs, "at": unknown.at, "says": unknown.says}


def _show_fault(fault: Fault) -> dict[str, object]:
    return {
        "code": fault.code,
        "says": fault.says,
        "file": fault.file,
        "line": fault.line,
        "column": fault.column,
    }


def _show_axis(axis: AxisHands) -> dict[str, object]:
    return {
        "meant": axis.meant,
        "claims": [_show_claim(claim) for claim in axis.certain],
        "stopped": [_show_stopped(stopped) for stopped in find_held_back(axis)],
    }


def _show_claim(claim: Claim) -> dict[str, object]:
    return {
        "control": claim.control,
        "person": claim.person,
        "sends": claim.sends,
        "arrives": claim.arrives,
        "mover": claim.mover,
        "automatic": claim.automatic,
        "path": claim.path,
        "reach": claim.reach,
    }


def _show_stopped(stopped: Stopped) -> dict[str, object]:
    return {"control": stopped.control, "by": stopped.by, "says": stopped.says}
