"""The library under `examples/`: sound rigs are quiet, and each fault rig is told its one fault, at its line.

A fault rig marks the line that is at fault with `# fault: CODE`. What else is said of it must be said of the sound rig
too that it starts from, or be minor and within the noise budget.
"""

from __future__ import annotations

import datetime
import re
from functools import cache
from pathlib import Path

import pytest

from rigmint.lint.packs import load_packs
from rigmint.lint.results import FileReport, ReportedFinding
from rigmint.lint.run import check_paths
from rigmint.testing import show_report
from rigmint.words import Grade

EXAMPLES = Path(__file__).parent.parent / "examples"
SOUND = sorted((EXAMPLES / "rigs").glob("*.rig.yaml"))
FAULTY = sorted((EXAMPLES / "faults").glob("*.rig.yaml"))
MARK = re.compile(r"# fault: (\S+)")
LIKE = re.compile(r"^like: (\S+)", re.MULTILINE)
DAY = datetime.date(2026, 5, 2)
MOST_THIN, MOST_TIDY = 5, 3
"""The noise budget of a sound rig."""


@cache
def check_examples() -> dict[str, FileReport]:
    """Every rig of the library, by folder and name, in one run: the library is read once."""
    folders = [EXAMPLES / "rigs", EXAMPLES / "faults"]
    report = check_paths(folders, library=None, today=DAY, setup=None, prove=False, house_checks=True)
    assert not report.unread

    return {"/".join(Path(one.file).parts[-2:]): one for one in report.files}


def report_on(path: Path) -> FileReport:
    """What was found in one file, which must have been read whole."""
    report = check_examples()[f"{path.parent.name}/{path.name}"]
    assert [(fault.line, fault.says) for fault in report.unread] == []

    return report


def find_mark(path: Path) -> tuple[int, str]:
    """The line and the code of the only mark."""
    lines = path.read_text(encoding="utf-8").splitlines()
    marks = [(number, match[1]) for number, line in enumerate(lines, start=1) if (match := MARK.search(line))]
    assert len(marks) == 1, f"{path.name} marks {len(marks)} lines with `# fault: CODE`, not one"

    return marks[0]


def find_base(path: Path) -> Path | None:
    """The sound rig that a fault rig starts from; None where it is written whole."""
    match = LIKE.search(path.read_text(encoding="utf-8"))
    return (path.parent / match[1]).resolve() if match else None


def name_finding(finding: ReportedFinding) -> tuple[str, str, str]:
    """What makes two findings on two rigs the same."""
    return finding.code, finding.at, finding.cause


def is_within_budget(findings: list[ReportedFinding]) -> bool:
    """Whether thin and tidy findings are few enough to be read."""
    thin, tidy = (sum(one.grade is grade for one in findings) for grade in (Grade.THIN, Grade.TIDY))
    return thin <= MOST_THIN and tidy <= MOST_TIDY


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.name)
def test_a_sound_rig_is_quiet(path: Path) -> None:
    report = report_on(path)
    worse = [one for one in report.findings if one.grade.is_at_least(Grade.FIGHT)]

    assert worse == [], show_report(report)
    assert is_within_budget(list(report.findings)), show_report(report)


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.name)
def test_a_sound_rig_has_a_real_size(path: Path) -> None:
    assert 15 <= report_on(path).items <= 40


def test_there_are_sound_rigs_of_each_size() -> None:
    items = [report_on(path).items for path in SOUND]

    assert len(items) >= 9
    assert sum(count >= 25 for count in items) >= 3


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.name)
def test_a_fault_rig_is_told_its_fault_once_at_its_line(path: Path) -> None:
    line, code = find_mark(path)
    report = report_on(path)
    found = [(one.position.line, one.code) for one in report.findings if one.code == code]

    assert found == [(line, code)], show_report(report)


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.name)
def test_a_fault_rig_is_told_nothing_else(path: Path) -> None:
    _, code = find_mark(path)
    base = find_base(path)
    known = {name_finding(one) for one in report_on(base).findings} if base is not None else set()
    report = report_on(path)
    others = [one for one in report.findings if one.code != code and name_finding(one) not in known]

    assert [one.code for one in others if one.grade.is_at_least(Grade.FIGHT)] == [], show_report(report)
    assert is_within_budget(others), show_report(report)


@pytest.mark.parametrize("path", [*SOUND, *FAULTY], ids=lambda path: f"{path.parent.name}/{path.name}")
def test_only_fault_rigs_bear_a_mark(path: Path) -> None:
    has_mark = MARK.search(path.read_text(encoding="utf-8")) is not None

    assert has_mark == (path.parent.name == "faults")


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.name)
def test_a_fault_rig_starts_from_a_sound_one(path: Path) -> None:
    base = find_base(path)

    assert base is None or base in SOUND


def test_every_rule_has_a_fault_rig() -> None:
    codes = {rule.code for _, rule in load_packs().rules}
    shown = {find_mark(path)[1] for path in FAULTY}

    assert sorted(codes - shown) == []
    assert sorted(shown - codes) == []
