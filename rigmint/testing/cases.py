"""Rigs as YAML text through the real reader and the real engine, with the packs installed."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

from rigmint.lint.results import FileReport, Report
from rigmint.lint.run import check_paths

MARK = "# here"
LIBRARY = "rigmint_library: 1\nparts: [parts]\n"
DAY = datetime.date(2026, 5, 2)
_SUFFIX = ".rig.yaml"


class BadCase(ValueError):
    """A test that could not fail: its rig, its parts or its expectation is not whole."""


def check_text(
    rig_yaml: str,
    parts_yaml: str | None = None,
    connectors_yaml: str | None = None,
    protocols_yaml: str | None = None,
    *,
    library_yaml: str = LIBRARY,
    today: datetime.date = DAY,
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
    library_yaml: str = LIBRARY,
    today: datetime.date = DAY,
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
    refuse_unread(report)
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


def show_report(report: FileReport) -> str:
    """The report in a few lines, for the message of a test that fails."""
    lines = [
        f"  line {one.position.line}: {one.grade.value} {one.code} at {one.at}, cause {one.cause}"
        f" ({', '.join(one.setups)}): {one.says}"
        for one in report.findings
    ]
    return "\n".join([report.file, *(lines or ["  no findings"])])


def refuse_unread(report: Report) -> None:
    """Raise BadCase where anything of a run could not be read."""
    faults = [*report.unread, *(fault for one in report.files for fault in one.unread)]
    if faults:
        listed = "\n".join(f"  {Path(one.file).name} line {one.line}: {one.code}: {one.says}" for one in faults)
        msg = f"it could not be checked:\n{listed}"
        raise BadCase(msg)
