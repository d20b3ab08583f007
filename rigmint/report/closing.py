"""The closing lines of a report: counts, what was assumed, what could not be judged, what the house turned off."""

from __future__ import annotations

from collections.abc import Iterable

from rigmint.lint.finding import Unknown
from rigmint.lint.results import Report, State
from rigmint.report.layout import count, list_some, wrap
from rigmint.report.order import sort_files
from rigmint.words import CAUTIONS, Grade

_MOST_FIGURES = 8
_MOST_UNKNOWN = 8
_MOST_GONE = 8
_PART_CAUTION = (
    "A part without a fault may still be wrong: hold its figures against the data sheet, its pin-out against a meter."
)


def list_closing(report: Report, silent: int, width: int) -> list[str]:
    """The closing lines, wrapped. `silent`: files that have nothing to show and were not listed."""
    sentences = [
        _say_counts(report, silent),
        *_say_since(report),
        *_say_assumed(report),
        *_say_unknown(report),
        *_say_overrides(report),
        *_say_checks_left_out(report),
    ]
    return [line for sentence in (*sentences, *CAUTIONS) for line in wrap(sentence, width)]


def list_part_closing(report: Report, silent: int, width: int) -> list[str]:
    """The closing lines of `parts check`."""
    found = ", ".join(_list_counts(report))
    if not report.files:
        none = "No part file was checked: name one, or a library by `--library`, or say `--installed`."
        return wrap(f"{found}. {none}" if found else none, width)
    parts = sum(file.parts or 0 for file in report.files)
    rest = f" {silent} of the files have nothing to show." if silent else ""
    counted = f"{found or 'No fault found'} in {count(parts, 'part')}, {count(len(report.files), 'file')}.{rest}"
    return [line for says in (counted, _PART_CAUTION) for line in wrap(says, width)]


def _list_counts(report: Report) -> list[str]:
    unread = len(report.unread) + sum(len(file.unread) for file in report.files)
    counts = [f"{unread} unread"] if unread else []
    return counts + [f"{report.count(grade)} {grade}" for grade in Grade if report.count(grade)]


def _say_counts(report: Report, silent: int) -> str:
    counts = _list_counts(report)
    if not counts:
        counts = ["No fault found" if report.files else "No rig file found"]
    if report.accepted:
        counts.append(f"{report.accepted} accepted")
    found = ", ".join(counts)
    rigs = [file for file in report.files if not file.is_library]
    if len(rigs) > 1:
        found += f" in {count(len(rigs), 'rig file')}"
    rest = f" {silent} of them have nothing to show." if silent else ""
    return f"{found}.{rest} Checked with {count(len(report.packs), 'pack')}, {count(report.rules, 'rule')}."


def _say_since(report: Report) -> list[str]:
    """What is new, unchanged and gone since the earlier run."""
    since = report.since
    if since is None:
        return []
    new, unchanged = report.count_state(State.NEW), report.count_state(State.UNCHANGED)
    gone = f"{len(since.gone)} gone"
    if since.gone:
        gone += f" ({list_some([f'{one.code} at {one.at} in {one.file}' for one in since.gone], _MOST_GONE)})"
    said = f"Since {since.name}: {new} new, {unchanged} unchanged, {gone}. Only what is new fails."
    if since.is_elsewhere:
        said += " None of the files that it speaks of is here: it may have been written in another folder."
    return [said]


def _say_assumed(report: Report) -> list[str]:
    """How many figures are assumed, and which of them decide a finding that is shown."""
    deciding: list[str] = []
    number = 0
    for file in sort_files(report.files):
        rested_on = [figure for finding in file.findings if finding.accepted is None for figure in finding.assumed]
        number += len({*file.assumed, *rested_on})
        deciding += rested_on
    if not number:
        return []
    named = list(dict.fromkeys(sorted(deciding)))
    figures = f"{count(number, 'figure')} assumed (~)"
    if not named:
        return [f"{figures}; no finding rests on one."]
    if len(named) == number:
        return [f"{figures}: {list_some(named, _MOST_FIGURES)}."]
    return [f"{figures}; findings rest on {list_some(named, _MOST_FIGURES)}."]


def _say_unknown(report: Report) -> list[str]:
    """One line for each file that lacks figures; the file is named where there are several."""
    lines = []
    for file in sort_files(report.files):
        if file.unknown:
            where = f" in {file.file}" if len(report.files) > 1 else ""
            lines.append(f"Not judged{where}: {list_some(_name_unknown(file.unknown), _MOST_UNKNOWN)}.")
    return lines


def _name_unknown(unknown: Iterable[Unknown]) -> list[str]:
    return list(dict.fromkeys(f"{one.code} at {one.at} (needs {one.needs})" for one in unknown))


def _say_overrides(report: Report) -> list[str]:
    changed = "; ".join(override.says for override in report.overrides)
    return [f"Changed by the library: {changed}."] if changed else []


def _say_checks_left_out(report: Report) -> list[str]:
    files = ", ".join(report.checks_left_out)
    return [f"House checks not run, as asked: {files}."] if files else []
