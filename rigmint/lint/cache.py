"""Cached results of rig files in one run: found where all that a result rests on is as it was, kept at the end.

A result rests on the bytes of its file and of those from which it starts, on the library with its parts, connectors,
protocols, schemas and checks, on the code of rigmint and of the packs, on what was asked, on the other rigs of its job,
and on the day where somebody signed for something until a day. All but the day is in its key.
"""

from __future__ import annotations

import os
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from rigmint.library.library_file import show_path
from rigmint.lint.cache_store import CacheStore, digest, make_key
from rigmint.lint.check_file import Asked
from rigmint.lint.digests import Unreadable, digest_file, read_bytes
from rigmint.lint.job import fold_job, guess_job
from rigmint.lint.outcome import Bases, Outcome, Task, read_roots, strip_mark
from rigmint.lint.records import from_plain, to_plain


@dataclass(frozen=True, slots=True)
class _File:
    """A task's file as it is when the run begins; nothing of one that cannot be read. `text_digest`: without a byte
    order mark; `bases`: None where they are not known."""

    digest: str = ""
    text_digest: str = ""
    bases: Bases | None = None
    job: str | None = None


class FileCache:
    """The cache of a run's single files. Without a store it only says which files share a job."""

    def __init__(self, store: CacheStore, contexts: Mapping[int, str], asked: Asked, *, fresh: bool = False) -> None:
        """`contexts`: by the identity of an opened library, the digest of all that judges its rigs; a library without
        one is not cached. `fresh`: find nothing, keep everything."""
        self._store = store
        self._contexts = contexts
        self._asked = asked
        self._fresh = fresh
        self._tasks: Sequence[Task] = ()
        self._files: list[_File] = []
        self._mates: dict[int, list[int]] = {}
        """Index of a task to those of all rigs of its job, itself among them."""

    def look_up(self, tasks: Sequence[Task]) -> tuple[list[Outcome | None], Sequence[Task]]:
        """For each task what is known already, or None; and the tasks with their mates."""
        self._files = [self._read(task, is_alone=len(tasks) == 1) for task in tasks]
        groups: dict[tuple[int, str], list[int]] = defaultdict(list)
        for index, (task, file) in enumerate(zip(tasks, self._files, strict=True)):
            if file.job is not None:
                groups[id(task.opened), file.job].append(index)
        self._mates = {index: group for group in groups.values() if len(group) > 1 for index in group}
        self._tasks = [
            replace(task, mates=tuple(tasks[other].path for other in self._mates.get(index, ()) if other != index))
            for index, task in enumerate(tasks)
        ]
        return [None if self._fresh else self._find(index) for index in range(len(tasks))], self._tasks

    def keep(self, checked: Mapping[int, Outcome]) -> None:
        """Write the outcomes of the tasks that were checked, by index."""
        for index, outcome in checked.items():
            key = self._key(index)
            group = self._mates.get(index, [index])
            read_so = all(self._was_read_so(one, checked[one]) for one in group if one in checked)
            if key is not None and outcome.lasts and read_so:
                self._write(key, outcome)

    def list_digests(self, checked: Mapping[int, Outcome]) -> dict[str, str]:
        """Path and digest of each file that was read as it was when the run began, or not at all."""
        return {
            os.fspath(task.path.absolute()): file.digest
            for index, (task, file) in enumerate(zip(self._tasks, self._files, strict=True))
            if file.digest and (index not in checked or self._was_read_so(index, checked[index]))
        }

    def _was_read_so(self, index: int, outcome: Outcome) -> bool:
        """Whether what was read is what was there when the run began. Of what could not be parsed only the present
        state tells."""
        file = self._files[index]
        if outcome.digest is None:
            return _is_as_it_was(os.fspath(self._tasks[index].path), file.digest)
        return outcome.digest == file.text_digest and outcome.bases == file.bases

    def _find(self, index: int) -> Outcome | None:
        key = self._key(index)
        value = self._store.find(key) if key is not None else None
        if value is None:
            return None
        try:
            outcome = from_plain(Outcome, value)
        except (TypeError, ValueError, KeyError, AttributeError):
            return None
        return outcome if outcome.days.hold(self._asked.today.isoformat()) else None

    def _write(self, key: str, outcome: Outcome) -> None:
        try:
            self._store.keep(key, to_plain(outcome))
        except TypeError:  # a pack may put into a fix what JSON does not have: then it is computed each time
            return

    def _key(self, index: int) -> str | None:
        """The key of a task's outcome; None where not all is known on which it rests."""
        group = self._mates.get(index, [index])
        context = self._contexts.get(id(self._tasks[index].opened))
        if context is None or not all(self._files[one].digest for one in group) or self._files[index].bases is None:
            return None
        asked, own = (self._asked.setup, self._asked.prove, self._asked.plan), self._describe(index)
        return make_key("file", context, asked, own, [self._describe(one) for one in group])

    def _describe(self, index: int) -> tuple[object, ...]:
        file = self._files[index]
        return show_path(self._tasks[index].path), file.digest, file.bases

    def _read(self, task: Task, *, is_alone: bool) -> _File:
        try:
            data = read_bytes(os.fspath(task.path))
            text = strip_mark(data).decode()
        except (Unreadable, UnicodeDecodeError):
            return _File()
        is_sure, job = guess_job(text)
        whole, bare = digest(data), digest(strip_mark(data))
        if is_sure or (is_alone and "like" not in text and "\\" not in text):
            return _File(whole, bare, (), job)
        return _File(whole, bare, *self._look_into(task, whole))

    def _look_into(self, task: Task, file_digest: str) -> tuple[Bases | None, str | None]:
        """From which files a rig starts, and its job: as they were found before, else by parsing."""
        context = self._contexts.get(id(task.opened))
        key = make_key("roots", context, show_path(task.path), file_digest) if context is not None else None
        value = self._store.find(key) if key is not None and not self._fresh else None
        if value is not None and _holds(value):
            return tuple((path, known) for path, known in value["bases"]), value["job"]
        bases, job = read_roots(task)
        folded = fold_job(job) if job is not None else None
        if key is not None and bases is not None:
            self._store.keep(key, {"bases": bases, "job": folded})
        return bases, folded


def _holds(value: Any) -> bool:
    try:
        return all(_is_as_it_was(path, known) for path, known in value["bases"]) and "job" in value
    except (TypeError, ValueError, KeyError):
        return False


def _is_as_it_was(path: str, known: str) -> bool:
    try:
        return digest_file(path) == known
    except Unreadable:
        return False
