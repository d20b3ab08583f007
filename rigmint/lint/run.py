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
from rigmint.lint.cache import FileCache
from rigmint.lint.cache_store import CacheStore
from rigmint.lint.check_file import Asked
from rigmint.lint.check_files import OnDone, check_files
from rigmint.lint.house_checks import count_rules, say_unsaid
from rigmint.lint.library_entries import report_library_entries
from rigmint.lint.open_library import OpenLibrary, open_library
from rigmint.lint.outcome import Task
from rigmint.lint.packs import PackSet, find_missing, load_packs
from rigmint.lint.parameters import check_overrides
from rigmint.lint.results import FileReport, Override, Report
from rigmint.lint.run_memory import RunMemory
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
    memory: RunMemory | None = None,
    on_done: OnDone | None = None,
) -> Report:
    """Check rig files and folders of them.

    `library` is taken instead of the one found beside each rig; `setup` restricts the run; `prove`: try each fix, for a
    person to read; `house_checks`: whether to run checks in Python that a library lists, where None leaves the rigs of
    such a library unchecked, as a fault; `plan`: give each fix as replacements in the file's text; `memory`: takes what
    is known of a file from the cache, and notes what the run rests on; `on_done`: told how far it is.
    """
    memory = memory if memory is not None else RunMemory(CacheStore(None))
    memory.note_paths(paths)
    files, unread = find_rig_files(paths)
    packs = load_packs()
    memory.note_packs(packs)
    shelf = _Shelf(packs, memory, house_checks)
    tasks = []
    for path in files:
        if library is None:
            library_file = find_library_file(path)
            memory.note_place(path, library_file)
        else:
            library_file = library
        opened = shelf.open(library_file)
        if opened is not None:
            tasks.append(Task(path, opened))
    cache = FileCache(memory.store, shelf.contexts, asked := Asked(today, setup, prove, plan), fresh=memory.fresh)
    outcomes, checked = check_files(tasks, asked, cache, on_done=on_done)
    memory.note_outcomes([task.path for task in tasks], outcomes, cache.list_digests(checked))
    reports = [outcome.report for outcome in outcomes]
    if not files and not unread:
        unread = (Fault("", 1, 1, "file:unreadable", "no rig files (`*.rig.yaml`) were found"),)
    libraries = list(shelf.libraries.values())
    by_library = [(report, task.opened) for report, task in zip(reports, tasks, strict=True)]
    if setup is None:
        reports += _report_libraries(shelf.libraries, by_library, files)
    tied = {fault for report in reports for fault in report.unread}
    loose = [*(fault for one in libraries for fault in _library_faults(one)), *shelf.list_unsaid()]
    missing = _missing_packs(packs, [one.library for one in libraries])
    everything = [*unread, *packs.faults, *missing, *(fault for fault in loose if fault not in tied)]
    sets = [packs, *(one.packs for one in libraries)]
    return Report(
        version=version("rigmint"),
        today=today.isoformat(),
        packs={pack.name: pack.version for one in sets for pack in one.packs},
        rules=count_rules(sets),
        files=tuple(reports),
        unread=tuple(dict.fromkeys(everything)),
        overrides=tuple(o for one in libraries for o in _list_overrides(one)),
        fail_on={report.file: opened.library.house.fail_on for report, opened in by_library}
        | {str(one.library.house.file): one.library.house.fail_on for one in libraries},
        codes={report.file: opened.codes for report, opened in by_library}
        | {str(one.library.house.file): one.codes for one in libraries},
        house_packs=tuple(pack for one in libraries for pack in one.checks.packs),
        checks_left_out=tuple(file for one in libraries for file in one.left_out),
    )


class _Shelf:
    """The libraries of a run, each opened once."""

    def __init__(self, packs: PackSet, memory: RunMemory, house_checks: bool | None) -> None:
        self._packs = packs
        self._memory = memory
        self._house_checks = house_checks
        self._unsaid: Counter[Path | None] = Counter()
        self.libraries: dict[Path | None, OpenLibrary] = {}
        self.contexts: dict[int, str] = {}
        """Identity of a library to the digest of all that judges its rigs."""

    def open(self, library_file: Path | None) -> OpenLibrary | None:
        """The library for one rig more; None where its rigs are not checked, since nobody said whether to run its house
        checks."""
        if library_file not in self.libraries:
            self._memory.note_library_file(library_file)
            opened = open_library(library_file, self._packs, house_checks=self._house_checks)
            self.libraries[library_file] = opened
            context = self._memory.make_context(opened, library_file)
            if context is not None:
                self.contexts[id(opened)] = context
        if self.libraries[library_file].is_unsaid:
            self._unsaid[library_file] += 1
            return None
        return self.libraries[library_file]

    def list_unsaid(self) -> list[Fault]:
        """A fault for each library whose rigs are not checked."""
        return [say_unsaid(self.libraries[file].library, number) for file, number in self._unsaid.items()]


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
