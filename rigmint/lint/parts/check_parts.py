"""Checks part files: those named, those of a library, or those that installed packages bring."""

from __future__ import annotations

import dataclasses
from collections import defaultdict
from collections.abc import Sequence
from importlib.metadata import version
from pathlib import Path

from rigmint.library.catalogue import Catalogue
from rigmint.library.faults import Fault
from rigmint.library.find_files import find_catalogue_files
from rigmint.library.library_file import Library, find_library_file, load_library
from rigmint.lint.core_codes import CORE_CODES
from rigmint.lint.parts.checks import PART_CHECKS
from rigmint.lint.parts.hint import Hint, PartView
from rigmint.lint.results import FileReport, Report, ReportedFinding, ReportedFix
from rigmint.rig.place import Position
from rigmint.words import Grade

_GRADES = {core.code: core.grade for core in CORE_CODES if core.grade is not None and core.is_of_parts}


def check_part_files(paths: Sequence[Path], *, library: Path | None, installed: bool, today: str) -> Report:
    """Check catalogue files and folders of them; without a path those of the library, with `installed` those that
    installed packages bring. `library` is taken instead of the one nearest to each file."""
    files, unread = find_catalogue_files(paths)
    by_library: dict[Path | None, list[Path]] = defaultdict(list)
    for file in files:
        by_library[library if library is not None else find_library_file(file)].append(file)
    if not paths:
        by_library[library if library is not None else find_library_file(Path("any.part.yaml"))] = []
    reports: dict[str, FileReport] = {}
    fail_on: dict[str, Grade] = {}
    faults = list(unread)
    for at, beside in by_library.items():
        loaded = load_library(at, beside=beside)
        names = _name_files(loaded.catalogue, beside, installed=installed)
        found, others = _check_files(loaded, names)
        faults += others
        reports |= {report.file: report for report in found}
        fail_on |= dict.fromkeys((report.file for report in found), loaded.house.fail_on)
    return Report(
        version=version("rigmint"),
        today=today,
        packs={},
        rules=len(_GRADES),
        files=tuple(reports.values()),
        unread=tuple(dict.fromkeys(faults)),
        overrides=(),
        fail_on=fail_on,
        codes=dict.fromkeys(reports, tuple(sorted(_GRADES))),
    )


def _name_files(catalogue: Catalogue, files: Sequence[Path], *, installed: bool) -> tuple[str, ...]:
    if files:
        return tuple(name for file in files if (name := catalogue.shown_name(file)) is not None)
    return catalogue.installed_files() if installed else catalogue.own_files()


def _check_files(loaded: Library, names: Sequence[str]) -> tuple[list[FileReport], list[Fault]]:
    """A report for each file, with a finding once per cause: in the file that states it, which may be another one
    where a part starts from a part. Then the faults that are in none of the files."""
    catalogue = loaded.catalogue
    ids = {name: catalogue.ids_in(name) for name in names}
    faults = list(loaded.faults)
    found: dict[str, dict[tuple[str, Position, str], ReportedFinding]] = {name: {} for name in names}
    for part_id in (part_id for name in names for part_id in ids[name]):
        hints = _list_hints(catalogue, part_id)
        faults += catalogue.faults_of(part_id)
        for hint in hints:
            file, position = _locate(catalogue, part_id, hint)
            here = found.setdefault(file, {})
            key = (hint.code, position, hint.at)
            here[key] = _join(here.get(key), _report(hint, part_id, position))
    reports = [
        FileReport(
            file=name,
            items=0,
            leads=0,
            setups=(),
            findings=tuple(findings.values()),
            unknown=(),
            unread=tuple(dict.fromkeys(sorted(fault for fault in faults if fault.file == name))),
            assumed=(),
            parts=len(ids.get(name, catalogue.ids_in(name))),
        )
        for name, findings in found.items()
    ]
    return reports, [fault for fault in faults if fault.file not in found]


def _list_hints(catalogue: Catalogue, part_id: str) -> list[Hint]:
    """What is found of a part, with what it starts from; nothing of one that cannot be read."""
    part = catalogue.part(part_id)
    if part is None:
        return []
    view = PartView(part, catalogue.tree_of(part_id), catalogue.tokens)
    return [hint for check in PART_CHECKS for hint in check(view)]


def _locate(catalogue: Catalogue, part_id: str, hint: Hint) -> tuple[str, Position]:
    """Where a key stands. A missing one is put down to the part that this starts from, if that has the fault too."""
    document = catalogue.document_of(part_id)
    if document is None:
        return catalogue.file_of(part_id), Position(1, 1)
    base = document.base.as_mapping().get("id") if document.base is not None else None
    if isinstance(base, str) and not document.has(hint.path):
        told = [one for one in _list_hints(catalogue, base) if (one.code, one.at) == (hint.code, hint.at)]
        if told:
            return _locate(catalogue, base, told[0])
    return document.locate(hint.path)


def _report(hint: Hint, part_id: str, position: Position) -> ReportedFinding:
    place = f"{part_id}.{hint.at}" if hint.at else part_id
    return ReportedFinding(
        code=hint.code,
        grade=hint.grade if hint.grade is not None else _GRADES[hint.code],
        says=f"{part_id}: {hint.says}",
        at=place,
        cause=place,
        also=(),
        position=position,
        setups=(),
        path=(),
        measured=None,
        assumed=(),
        fixes=(ReportedFix(hint.write, None, ()),),
        accepted=None,
    )


def _join(held: ReportedFinding | None, other: ReportedFinding) -> ReportedFinding:
    """One finding for one cause: the first one, with the other parts that start from the same line."""
    if held is None:
        return other
    also = tuple(dict.fromkeys((*held.also, *([other.at] if other.at != held.at else []))))
    return dataclasses.replace(held, also=also)
