"""Every fault rig of the examples that has a proved fix: mended, it is clean of its fault, only the lines concerned have
changed, and mending it again changes nothing."""

from __future__ import annotations

import datetime
import re
import shutil
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

import pytest

from rigmint.library.build_rig import read_rig
from rigmint.library.document import Document
from rigmint.library.library_file import Library, load_library
from rigmint.library.tree_edits import Edit
from rigmint.lint.mend import Mending, plan_mending, write_mending
from rigmint.lint.open_library import OpenLibrary, open_library
from rigmint.lint.packs import load_packs
from rigmint.lint.results import FileReport
from rigmint.lint.run import check_paths
from rigmint.testing import show_report
from rigmint.words import Grade

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
FAULTY = sorted((EXAMPLES / "faults").glob("*.rig.yaml"))
MARK = re.compile(r"# fault: (\S+)")
DAY = datetime.date(2026, 5, 2)
LEAST_PROVED = 28
"""So many fault rigs have a proved fix, at least: a change that loses some should be seen."""


@cache
def copy_examples() -> Path:
    """A copy of the examples, once for all tests; what is mended is written under another name."""
    folder = Path(mkdtemp(prefix="rigmint-examples-"))
    shutil.copytree(EXAMPLES, folder / "examples")
    return folder / "examples"


@cache
def read_library() -> OpenLibrary:
    """The library of the copy."""
    return open_library(copy_examples() / "rigmint.yaml", load_packs(), house_checks=None)


@cache
def mend(name: str) -> tuple[Mending, FileReport, FileReport]:
    """What mending a fault rig came to, and the reports before and after."""
    path = copy_examples() / "faults" / name
    before = check(path)
    mending, held = plan_mending(path, read_library(), DAY)
    write_mending(path, mending, held)
    return mending, before, check(path)


def check(path: Path) -> FileReport:
    """The report on one file, with every fix tried."""
    report = check_paths([path], library=None, today=DAY, setup=None, prove=True)
    assert [(fault.code, fault.says) for one in report.files for fault in one.unread] == []
    return report.files[0]


def find_code(path: Path) -> str:
    """The code that the fault rig shows."""
    found = MARK.search(path.read_text(encoding="utf-8"))
    assert found is not None
    return found[1]


def list_proved(report: FileReport) -> list[tuple[str, tuple[Edit, ...]]]:
    """Code and edits of the first proved fix of each finding that has one."""
    found = []
    for finding in report.findings:
        proved = [fix.edits for fix in finding.fixes if fix.proved]
        found += [(finding.code, edits) for edits in proved[:1]]
    return found


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.name)
def test_what_has_a_proved_fix_is_clear_after_mending(path: Path) -> None:
    mending, before, after = mend(path.name)
    proved = {code for code, _ in list_proved(before)}

    assert [one.code for one in mending.mended if one.code not in proved] == []
    assert {one.code for one in after.findings} & proved == set(), show_report(after)
    assert (find_code(path) in proved) == (find_code(path) not in {one.code for one in after.findings})


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.name)
def test_mending_brings_nothing_new(path: Path) -> None:
    _, before, after = mend(path.name)
    known = {(one.code, one.cause) for one in before.findings}
    came = [one for one in after.findings if (one.code, one.cause) not in known and one.grade.is_at_least(Grade.THIN)]

    assert came == [], show_report(after)


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.name)
def test_mending_again_changes_nothing(path: Path) -> None:
    mend(path.name)
    again, _ = plan_mending(copy_examples() / "faults" / path.name, read_library(), DAY)

    assert (again.is_changed, again.mended) == (False, ())


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.name)
def test_only_the_lines_that_the_fixes_name_change(path: Path) -> None:
    mending, before, _ = mend(path.name)
    document = read_rig(path, read_library_of_source()).document
    assert document is not None
    named = {line for _, edits in list_proved(before) for edit in edits for line in list_lines(document, edit)}
    kept = set(mending.after.splitlines())
    gone = {number for number, line in enumerate(mending.before.splitlines(), start=1) if line not in kept}

    assert gone <= named


@cache
def read_library_of_source() -> Library:
    """The library of the examples themselves."""
    return load_library(EXAMPLES / "rigmint.yaml")


def list_lines(document: Document, edit: Edit) -> set[int]:
    """The lines of what an edit names; of what it is to be put into, the first and the last, where it is not there."""
    path = tuple(edit.path)
    while path and not document.owns(path):
        path = path[:-1]
    span = document.marks.values.get(path)
    if span is None or not path:
        return set()
    first = document.position(path).line
    last = first + document.text.count(
        "\n", document.marks.keys[path].start if path in document.marks.keys else 0, span.end
    )
    parent = document.position(path[:-1]).line
    return {*range(first, last + 1), parent}


def test_most_fault_rigs_that_an_edit_can_mend_have_a_proved_fix() -> None:
    proved = [path for path in FAULTY if find_code(path) in {code for code, _ in list_proved(mend(path.name)[1])}]

    assert len(proved) >= LEAST_PROVED
