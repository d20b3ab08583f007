"""Cached results of rig files in one run: found where all that a result rests on is as it was, kept at the end.

A result rests on the bytes of its file and of those from which it starts, on the library with its parts, connectors,
protocols, schemas and checks, on the code of rigmint and of the packs, on what was asked, on the other rigs of its job,
and on the day where somebody signed for something until a day.
"""

from __future__ import annotations

import os
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from rigmint.library.build_rig import read_job
from rigmint.library.library_file import show_path
from rigmint.lint.cache_store import CacheStore, digest, make_key
from rigmint.lint.check_file import Asked
from rigmint.lint.digests import Unreadable, digest_file, read_bytes
from rigmint.lint.job import fold_job, guess_job
from rigmint.lint.outcome import Bases, Outcome, Task, strip_mark
from rigmint.lint.records import from_plain, to_plain


@dataclass(frozen=True, slots=True)
class _File:
    """A task's file as it is when the run begins. `found`: what the cache has of it, unless a mate says otherwise."""

    digest: str | None
    text_digest: str | None = None
    """Without a byte order mark."""
    job: str | None = None
    found: Outcome | None = None
    mates_then: str = ""


class FileCache:
    """The cache of a run's single files. Without a store it only says which files share a job."""

    def __init__(self, store: CacheStore, contexts: Mapping[int, str], asked: Asked, *, fresh: bool = False) -> None:
        """`contexts`: by the identity of an opened library, the digest of all that judges its rigs; a library without
        one is not cached. `fresh`: find nothing, keep everything."""
        self._store = store
        self._contexts = contexts
        self._asked = asked
        self._fresh = fresh
        self._files: list[_File] = []
        self._tasks: Sequence[Task] = ()

    def look_up(self, tasks: Sequence[Task]) -> tuple[list[Outcome | None], list[Task]]:
        """For each task what is known already, or None; and the tasks with their mates."""
        self._files = [self._read(task) for task in tasks]
        groups = _group_by_job(tasks, [file.job for file in self._files])
        outcomes: list[Outcome | None] = [file.found for file in self._files]
        with_mates = list(tasks)
        for members in groups:
            is_whole = all(self._files[index].found is not None for index in members)
            state = self._digest_mates(tasks, members, {index: self._bases_of(index) for index in members})
            for index in members:
                if not is_whole or self._files[index].mates_then != state:
                    outcomes[index] = None
                mates = tuple(tasks[other].path for other in members if other != index)
                with_mates[index] = replace(tasks[index], mates=mates)
        self._tasks = with_mates
        return outcomes, with_mates

    def keep(self, checked: Mapping[int, Outcome], outcomes: Sequence[Outcome]) -> None:
        """Write the outcomes of the tasks that were checked, by index. `outcomes`: of all tasks."""
        groups = _group_by_job(self._tasks, [outcome.job for outcome in outcomes])
        states = {}
        for members in groups:
            state = self._digest_mates(self._tasks, members, {index: outcomes[index].bases for index in members})
            states.update(dict.fromkeys(members, state))
        for index, outcome in checked.items():
            task, file = self._tasks[index], self._files[index]
            key = self._key(task, file.digest)
            if key is not None and outcome.lasts and self._was_read_so(index, outcome):
                self._write(key, outcome, states.get(index, ""))

    def list_digests(self, outcomes: Sequence[Outcome]) -> dict[str, str]:
        """Path and digest of each file that was read as it was when the run began."""
        return {
            os.fspath(task.path.absolute()): file.digest
            for index, (task, file) in enumerate(zip(self._tasks, self._files, strict=True))
            if file.digest is not None and (outcomes[index] is file.found or self._was_read_so(index, outcomes[index]))
        }

    def _was_read_so(self, index: int, outcome: Outcome) -> bool:
        """Whether what was read of a file is what it was when the run began. Of what could not be parsed only the
        present state tells."""
        file = self._files[index]
        if outcome.digest is None:
            return _is_as_it_was(self._tasks[index].path, file.digest)
        return outcome.digest == file.text_digest

    def _write(self, key: str, outcome: Outcome, mates: str) -> None:
        try:
            self._store.keep(key, {"outcome": to_plain(outcome), "mates": mates})
        except TypeError:  # a pack may put into a fix what JSON does not have: then it is computed each time
            return

    def _key(self, task: Task, file_digest: str | None) -> str | None:
        context = self._contexts.get(id(task.opened))
        if context is None or file_digest is None:
            return None
        asked = self._asked
        return make_key("file", context, show_path(task.path), file_digest, asked.setup, asked.prove, asked.plan)

    def _read(self, task: Task) -> _File:
        """The file's digest, what the cache has of it, and its job: by the cache, else by a look into it."""
        try:
            data = read_bytes(os.fspath(task.path))
        except Unreadable:
            return _File(None)
        file_digest, text_digest = digest(data), digest(strip_mark(data))
        key = self._key(task, file_digest)
        value = self._store.find(key) if key is not None and not self._fresh else None
        if value is not None:
            found, mates = _read_value(value)
            if found is not None and found.days.hold(self._asked.today.isoformat()) and _hold(found.bases):
                return _File(file_digest, text_digest, found.job, found, mates)
        return _File(file_digest, text_digest, _find_job(task, data))

    def _bases_of(self, index: int) -> Bases:
        found = self._files[index].found
        return found.bases if found is not None else ()

    def _digest_mates(self, tasks: Sequence[Task], members: Iterable[int], bases: Mapping[int, Bases]) -> str:
        return make_key(
            *((show_path(tasks[index].path), self._files[index].digest, bases[index]) for index in sorted(members))
        )


def _group_by_job(tasks: Sequence[Task], jobs: Sequence[str | None]) -> list[list[int]]:
    """Indices of the tasks that share a library and a job, where there are two or more."""
    groups: dict[tuple[int, str], list[int]] = defaultdict(list)
    for index, (task, job) in enumerate(zip(tasks, jobs, strict=True)):
        if job is not None:
            groups[id(task.opened), job].append(index)
    return [members for members in groups.values() if len(members) > 1]


def _find_job(task: Task, data: bytes) -> str | None:
    try:
        is_sure, job = guess_job(data.decode("utf-8-sig"))
    except UnicodeDecodeError:
        return None
    if is_sure:
        return job
    read = read_job(task.path, task.opened.library)
    return fold_job(read) if read is not None else None


def _read_value(value: Any) -> tuple[Outcome | None, str]:
    try:
        return from_plain(Outcome, value["outcome"]), value["mates"]
    except (TypeError, ValueError, KeyError, AttributeError):
        return None, ""


def _hold(bases: Bases) -> bool:
    return all(_is_as_it_was(Path(path), known) for path, known in bases)


def _is_as_it_was(path: Path, known: str | None) -> bool:
    try:
        return digest_file(os.fspath(path)) == known
    except Unreadable:
        return False
