"""One run of `check`: find the files, load the packs, read each rig, run the rules, put the report together."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Mapping, Sequence
from importlib.metadata import version
from pathlib import Path

from rigmint.library.faults import Fault
from rigmint.library.find_files import find_rig_files
from rigmint.library.library_file import Library, find_library_file
from rigmint.lint.check_file import Asked
from rigmint.lint.check_files import Task, check_files
from rigmint.lint.house_checks import count_rules, say_unsaid
from rigmint.lint.library_entries import report_library_entries
from rigmint.lint.open_library import OpenLibrary, open_library
from rigmint.lint.packs import PackSet, find_missing, load_packs
from rigmint.lint.parameters import check_overrides
from rigmint.lint.results import FileReport, Override, Report
from rigmint.words import Grade

_WORST = frozenset({Grade.HURT, Grade.BURN})


def check_paths(
    paths: Sequence[Path],
    *,
    library: Path | None,
    today: datetime.date,
    setup: str | None,
    prove: bool,
    house_checks: bool | None = None,
    plan: bool = False,
) -> Report:
    """Check rig files and folders of them.

    `library` is taken instead of the one found beside each rig; `setup` restricts the run; `prove`: try each fix, for a
    person to read; `house_checks`: whether to run checks in Python that a library lists, where None leaves the rigs of
    such a library unchecked, as a fault; `plan`: give each fix as replacements in the file's text.
    """
    files, unread = find_rig_files(paths)
    packs = load_packs()
    libraries: dict[Path | None, OpenLibrary] = {}
    unsaid: Counter[Path | None] = Counter()
    tasks = []
    for path in files:
        library_file = library if library is not None else find_library_file(path)
        if library_file not in libraries:
            libraries[library_file] = open_library(library_file, packs, house_checks=house_checks)
        if libraries[library_file].is_unsaid:
            unsaid[library_file] += 1
            continue
        tasks.append(Task(path, libraries[library_file]))
    reports = check_files(tasks, Asked(today, setup, prove, plan))
    by_library = [(report, task.opened) for report, task in zip(reports, tasks, strict=True)]
    if setup is None:
        reports += _report_libraries(libraries, by_library, files)
    if not files and not unread:
        unread = (Fault("", 1, 1, "file:unreadable", "no rig files (`*.rig.yaml`) were found"),)
    tied = {fault for report in reports for fault in report.unread}
    loose = [fault for one in libraries.values() for fault in _library_faults(one)]
    loose += [say_unsaid(libraries[file].library, number) for file, number in unsaid.items()]
    missing = _missing_packs(packs, [one.library for one in libraries.values()])
    everything = [*unread, *packs.faults, *missing, *(fault for fault in loose if fault not in tied)]
    sets = [packs, *(one.packs for one in libraries.values())]
    return Report(
        version=version("rigmint"),
        today=today.isoformat(),
        packs={pack.name: pack.version for one in sets for pack in one.packs},
        rules=count_rules(sets),
        files=tuple(reports),
        unread=tuple(dict.fromkeys(everything)),
        overrides=tuple(o for one in libraries.values() for o in _list_overrides(one)),
        fail_on={report.file: opened.library.house.fail_on for report, opened in by_library}
        | {str(one.library.house.file): one.library.house.fail_on for one in libraries.values()},
        codes={report.file: opened.codes for report, opened in by_library}
        | {str(one.library.house.file): one.codes for one in libraries.values()},
        house_packs=tuple(pack for one in libraries.values() for pack in one.checks.packs),
        checks_left_out=tuple(file for one in libraries.values() for file in one.left_out),
    )


def _report_libraries(
    libraries: Mapping[Path | None, OpenLibrary],
    by_library: Sequence[tuple[FileReport, OpenLibrary]],
    files: Sequence[Path],
) -> list[FileReport]:
    """The libraries' own files, where the core has something to say of them."""
    found = []
    for path, opened in libraries.items():
        if path is not None:
            reports = [report for report, its in by_library if its is opened]
            codes = {rule.code for _, rule in opened.packs.rules}
            found.append(report_library_entries(opened.library, path, reports, files, codes))
    return [report for report in found if report is not None]


def find_loose_faults(packs: PackSet, opened: OpenLibrary) -> tuple[Fault, ...]:
    """What is wrong with packs and a library, so that nothing is judged whole."""
    return (*packs.faults, *_missing_packs(packs, [opened.library]), *_library_faults(opened))


def _library_faults(opened: OpenLibrary) -> list[Fault]:
    library = opened.library
    owned = [fault for faults in library.catalogue.check_owned().values() for fault in faults]
    rules = {rule.code: rule for _, rule in opened.packs.rules}
    return [*opened.faults, *owned, *check_overrides(library, rules)]


def _missing_packs(packs: PackSet, libraries: Sequence[Library]) -> list[Fault]:
    houses = [library.house for library in libraries]
    left_out = set.intersection(*(set(house.packs_left_out) for house in houses)) if houses else set()
    needed = [name for house in houses for name in house.packs_needed]
    return list(find_missing(packs, needed, left_out))


def _list_overrides(opened: OpenLibrary) -> list[Override]:
    """What a library did to rules that concern burns and injuries: said at the end of each report."""
    library = opened.library
    grades = {rule.code: rule.grades for _, rule in opened.packs.rules}
    shown = []
    for code, override in sorted(library.house.rules.items()):
        if not _WORST & set(grades.get(code, ())):
            continue
        if override.is_off:
            shown.append(Override(code, f"{code} is turned off in {library.house.file}"))
        elif override.grade is not None and override.grade not in _WORST:
            shown.append(Override(code, f"{code} is graded {override.grade.value} in {library.house.file}"))
    return shown
