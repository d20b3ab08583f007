"""For authors of packs: rigs as YAML text through the real reader and the real engine, with the packs installed.

Strict on purpose, so that no test passes on nothing: text that cannot be read, an unknown key, a code that no installed
rule has, a mark that is not there, an empty collection of rigs, each raise `BadCase`. An expectation that is not met
raises `AssertionError` with the whole report in its message.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

from rigmint.lint.core_codes import CORE_CODES
from rigmint.lint.packs import load_packs
from rigmint.lint.results import FileReport, Report, ReportedFinding
from rigmint.lint.rule import Rule
from rigmint.lint.run import check_paths
from rigmint.report.explain import render_rule
from rigmint.report.style import Style
from rigmint.words import Grade

MARK = "# here"
_LIBRARY = "rigmint_library: 1\nparts: [parts]\n"
_DAY = datetime.date(2026, 5, 2)
_SUFFIX = ".rig.yaml"
_ROW = re.compile(r"^\| `([a-z:-]+)` \| ([^|]+?) \| ([^|]+?) \|$", re.MULTILINE)


class BadCase(ValueError):
    """A test that could not fail: its rig, its parts or its expectation is not whole."""


def check_text(
    rig_yaml: str,
    parts_yaml: str | None = None,
    connectors_yaml: str | None = None,
    protocols_yaml: str | None = None,
    *,
    library_yaml: str = _LIBRARY,
    today: datetime.date = _DAY,
    prove: bool = False,
) -> FileReport:
    """Check one rig; with `prove`, try each fix. The other texts are a part file, a connector file and a protocol file,
    which stand beside the installed catalogues; `library_yaml` names their folder `parts`. Raises BadCase where any of
    them cannot be read."""
    files = {
        "parts.part.yaml": parts_yaml,
        "own.connectors.yaml": connectors_yaml,
        "own.protocols.yaml": protocols_yaml,
    }
    return check_texts({"case": rig_yaml}, files, library_yaml=library_yaml, today=today, prove=prove)["case"]


def check_texts(
    rigs: Mapping[str, str],
    files: Mapping[str, str | None],
    *,
    library_yaml: str = _LIBRARY,
    today: datetime.date = _DAY,
    prove: bool = False,
) -> dict[str, FileReport]:
    """Check several rigs, by name, in one run of one library. `files`: name to text of what lies in its folder
    `parts`; None is left out. House checks that the library names there, as `parts/checks.py`, are run. Raises BadCase
    as `check_text` does, and where there is no rig."""
    if not rigs:
        msg = "there are no rigs to check"
        raise BadCase(msg)
    with TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "parts").mkdir()
        (folder / "rigmint.yaml").write_text(library_yaml, encoding="utf-8")
        for file, text in files.items():
            if text is not None:
                (folder / "parts" / file).write_text(text, encoding="utf-8")
        paths = [folder / f"{rig}{_SUFFIX}" for rig in rigs]
        for path, text in zip(paths, rigs.values(), strict=True):
            path.write_text(text, encoding="utf-8")
        report = check_paths(paths, library=None, today=today, setup=None, prove=prove, house_checks=True)
    _refuse_unread(report)
    by_name = {Path(one.file).name.removesuffix(_SUFFIX): one for one in report.files}
    return {rig: replace(by_name[rig], file=f"{rig}{_SUFFIX}") for rig in rigs}


def find_line(text: str, mark: str = MARK) -> int:
    """The number, from 1, of the only line that holds the mark."""
    lines = [number for number, line in enumerate(text.splitlines(), start=1) if mark in line]
    if len(lines) != 1:
        msg = f"`{mark}` must stand on one line, not on {len(lines)}"
        raise BadCase(msg)
    return lines[0]


def edit_text(text: str, *changes: tuple[str, str]) -> str:
    """The text with each (old, new) applied in turn; each `old` must stand in it once, and differ from its `new`."""
    for old, new in changes:
        if not old or text.count(old) != 1 or old == new:
            msg = f"`{old}` must stand in the text once, and be changed; it stands there {text.count(old)} times"
            raise BadCase(msg)
        text = text.replace(old, new)
    return text


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


def assert_pack(name: str, folder: Path) -> None:
    """The installed pack is whole: each rule can be explained in full sentences and has a test file of its own,
    `folder`/tests/test_MODULE.py; the table of `folder`/README.md lists exactly its rules, one row each:
    `| `code` | grades, worst first | title |`. Raises BadCase where no such pack is installed."""
    pack = next((one for one in load_packs().packs if one.name == name), None)
    if pack is None:
        msg = f"no pack `{name}` is installed"
        raise BadCase(msg)
    for rule in pack.rules:
        _judge_texts(rule, render_rule(rule, pack, Style()))
        module = rule.check.__module__.rpartition(".")[2]
        if not (folder / "tests" / f"test_{module}.py").is_file():
            msg = f"{rule.code} has no tests/test_{module}.py"
            raise AssertionError(msg)
    listed = _ROW.findall((folder / "README.md").read_text(encoding="utf-8"))
    due = [(rule.code, ", ".join(rule.grades), rule.title) for rule in pack.rules]
    if sorted(listed) != sorted(due):
        wrong = sorted(set(listed) ^ set(due))
        msg = f"the table of README.md does not list the rules of pack {name} as they are: {wrong or listed}"
        raise AssertionError(msg)


def _judge_texts(rule: Rule, explained: str) -> None:
    sentences = [rule.looks_for, rule.why, rule.put_right, *([rule.caution] if rule.caution else [])]
    if not all(text.endswith(".") for text in sentences) or rule.title.endswith(".") or rule.code not in explained:
        msg = f"{rule.code}: its texts are sentences, its title is none, and `explain` prints them:\n{explained}"
        raise AssertionError(msg)


def show_report(report: FileReport) -> str:
    """The report in a few lines, for the message of a test that fails."""
    lines = [
        f"  line {one.position.line}: {one.grade.value} {one.code} at {one.at}, cause {one.cause}"
        f" ({', '.join(one.setups)}): {one.says}"
        for one in report.findings
    ]
    return "\n".join([report.file, *(lines or ["  no findings"])])


def _refuse_worse(report: FileReport, worst: Grade, besides: str | None = None) -> None:
    others = [one.code for one in report.findings if one.code != besides and one.grade.is_at_least(worst)]
    if others:
        _fail(report, f"nothing else at `{worst.value}` or above it was due, and {', '.join(others)} came")


def _fail(report: FileReport, says: str) -> None:
    msg = f"{says}:\n{show_report(report)}"
    raise AssertionError(msg)


def _refuse_unread(report: Report) -> None:
    faults = [*report.unread, *(fault for one in report.files for fault in one.unread)]
    if faults:
        listed = "\n".join(f"  {Path(one.file).name} line {one.line}: {one.code}: {one.says}" for one in faults)
        msg = f"it could not be checked:\n{listed}"
        raise BadCase(msg)


def _refuse_unknown_code(code: str) -> None:
    known = {rule.code for _, rule in load_packs().rules} | {one.code for one in CORE_CODES}
    if code not in known:
        msg = f"no installed rule has the code `{code}`"
        raise BadCase(msg)
