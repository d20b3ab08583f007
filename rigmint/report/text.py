"""The report of `check` for a person: by file, worst grade first, closing with what the reader must know."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from rigmint.library.faults import Fault
from rigmint.lint.results import FileReport, Report, ReportedFinding, ReportedFix, State
from rigmint.report.closing import list_closing, list_part_closing
from rigmint.report.faults import has_line, is_in_file, name_group
from rigmint.report.layout import INDENT, count, lay_head, list_some, wrap, wrap_chain
from rigmint.report.order import sort_files, sort_findings
from rigmint.report.safe import clean
from rigmint.report.style import UNREAD, Style

MOST_CLEAN_FILES = 12
"""Up to so many files in a run, one without findings is listed; beyond it, they are only counted."""
_MOST_ALSO = 8


def render_report(report: Report, style: Style) -> str:
    """The whole report, ending in a newline."""
    return _render(report, style, list_closing)


def render_part_report(report: Report, style: Style) -> str:
    """The report of `parts check`, likewise."""
    return _render(report, style, list_part_closing)


def _render(report: Report, style: Style, close: Callable[[Report, int, int], list[str]]) -> str:
    blocks = _render_loose_faults(report.unread, style)
    files = sort_files(report.files)
    lists_clean = len(files) <= MOST_CLEAN_FILES
    silent = 0
    clean_lines: list[str] = []
    for file in files:
        block = _render_file(file, style)
        if len(block) > 1:
            blocks += [clean_lines] if clean_lines else []
            clean_lines = []
            blocks.append(block)
        elif lists_clean:
            clean_lines += block
        else:
            silent += 1
    blocks += [clean_lines] if clean_lines else []
    blocks.append(close(report, silent, style.width))
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def render_faults(faults: Iterable[Fault], style: Style) -> str:
    """Faults alone, by file: what a command other than `check` says of a rig that it cannot read."""
    blocks = _render_loose_faults(tuple(faults), style)
    return "\n".join("\n".join(block) + "\n" for block in blocks)


def _render_loose_faults(faults: Sequence[Fault], style: Style) -> list[list[str]]:
    """A block for each file, and one for packs, in the order of the faults."""
    groups: dict[str, list[Fault]] = {}
    for fault in faults:
        groups.setdefault(name_group(fault), []).append(fault)
    return [
        [clean(name), "", *_join_entries([_render_fault(fault, name, style) for fault in found])]
        for name, found in groups.items()
    ]


def _render_file(report: FileReport, style: Style) -> list[str]:
    entries = [_render_fault(fault, report.file, style) for fault in report.unread]
    open_findings = [finding for finding in sort_findings(report) if finding.accepted is None]
    entries += [_render_finding(finding, report, style) for finding in open_findings]
    head = f"{clean(report.file)}   {_describe_size(report)}"
    if entries:
        return [head, "", *_join_entries(entries)]
    return [f"{head}   {f'{len(report.findings)} accepted' if report.findings else 'nothing found'}"]


def _describe_size(report: FileReport) -> str:
    if report.parts is not None:
        return count(report.parts, "part")
    if not report.setups:
        return "library" if report.is_library else "not checked"
    sizes = (count(report.items, "item"), count(report.leads, "lead"), count(len(report.setups), "setup"))
    return ", ".join(sizes)


def _join_entries(entries: Sequence[list[str]]) -> list[str]:
    lines: list[str] = []
    for entry in entries:
        lines += [""] if lines else []
        lines += entry
    return lines


def _render_finding(finding: ReportedFinding, report: FileReport, style: Style) -> list[str]:
    is_every = bool(report.setups) and set(finding.setups) == set(report.setups)
    setups = "every setup" if is_every else ", ".join(finding.setups)
    state = finding.state.value if finding.state is State.NEW else ""
    place = ", ".join(part for part in (state, f"line {finding.position.line}", setups) if part)
    lines = _render_head(finding.grade, finding.code, place, style)
    lines += wrap(finding.says, style.width, INDENT)
    lines += wrap_chain(finding.path, style.width, INDENT)
    if finding.also:
        lines += wrap(f"Also: {list_some(finding.also, _MOST_ALSO)}.", style.width, INDENT)
    if finding.assumed:
        lines += wrap(f"Rests on assumed figures (~): {', '.join(finding.assumed)}.", style.width, INDENT)
    for index, fix in enumerate(finding.fixes):
        lines += wrap(_describe_fix(fix, is_first=index == 0), style.width, INDENT)
    return lines


def _describe_fix(fix: ReportedFix, *, is_first: bool) -> str:
    outcome = {True: " (proved)", False: " (not proved)", None: ""}[fix.proved]
    return f"{'Fix' if is_first else 'Or'}{outcome}: {fix.says}"


def _render_fault(fault: Fault, file: str, style: Style) -> list[str]:
    other = [fault.file] if is_in_file(fault) and fault.file != file else []
    place = ", ".join([*other, *([f"line {fault.line}"] if has_line(fault) else [])])
    return [*_render_head(UNREAD, fault.code, place, style), *wrap(fault.says, style.width, INDENT)]


def _render_head(word: str, code: str, place: str, style: Style) -> list[str]:
    left = f"{word:<{INDENT - 1}} {clean(code)}"
    first, *rest = lay_head(left, place, style.width, INDENT)
    return [style.paint(word, word) + first[len(word) :], *rest]
