"""The outcome of checking one file: its report, and what the report rests on."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from rigmint.library.build_rig import ReadRig, read_document, read_rig
from rigmint.library.document import Document
from rigmint.library.faults import FaultList
from rigmint.lint.cache_store import digest
from rigmint.lint.check_file import Asked, check_file
from rigmint.lint.digests import Unreadable, read_bytes
from rigmint.lint.job import find_job_rigs
from rigmint.lint.lasting import ALL_DAYS, Days, find_days, is_lasting
from rigmint.lint.open_library import OpenLibrary
from rigmint.lint.results import FileReport

Bases = tuple[tuple[str, str], ...]
"""Path and digest of each file from which a rig starts."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """A report, and what it rests on. `digest`: of the text that was read, where it was; `lasts`: it holds as long as
    what it rests on does."""

    report: FileReport
    digest: str | None = None
    bases: Bases = ()
    days: Days = ALL_DAYS
    lasts: bool = False


@dataclass(frozen=True, slots=True)
class Task:
    """A rig file to check, and the library that judges it. `mates`: files whose rigs may be on the same job."""

    path: Path
    opened: OpenLibrary
    mates: tuple[Path, ...] = ()


def check_tasks(tasks: Iterable[Task], asked: Asked) -> Iterator[Outcome]:
    """The outcome of each task in turn. Rigs of one job are read once, as long as tasks that need them follow."""
    read: dict[tuple[int, Path], ReadRig] = {}
    for task in tasks:
        wanted = [(id(task.opened), path) for path in (task.path, *task.mates)]
        read = {key: read[key] if key in read else read_rig(key[1], task.opened.library) for key in wanted}
        yield _check_task(task, read, asked)


def read_roots(task: Task) -> tuple[Bases | None, str | None]:
    """From which files a rig starts, where that is sure, and the job that it states or has from there."""
    document = read_document(task.path, task.opened.library, FaultList())
    job = document.as_mapping().get("job") if document is not None else None
    said = document.raw(("job",), job) if document is not None and job is not None else None
    return _list_bases(document, task.path), said


def _check_task(task: Task, read: dict[tuple[int, Path], ReadRig], asked: Asked) -> Outcome:
    own = read[id(task.opened), task.path]
    rigs = [one.rig for one in read.values() if one.rig is not None]
    others = find_job_rigs(own.rig, rigs) if own.rig is not None else ()
    report = check_file(own, task.opened, others, asked)
    bases = _list_bases(own.document, task.path)
    paths = task.opened.library.house_paths
    schemas = [one.shown for one in (paths.rig_schema,) if one is not None]
    house = task.opened.library.house
    return Outcome(
        report=report,
        digest=digest(own.document.text.encode()) if own.document is not None else None,
        bases=bases or (),
        days=find_days((*(own.rig.accepted if own.rig is not None else ()), *house.accepted), asked.today),
        lasts=bases is not None and is_lasting(report.unread, schemas),
    )


def _list_bases(document: Document | None, path: Path) -> Bases | None:
    """The files from which a rig starts; None where that is not sure: they could not all be read, or have changed."""
    if document is None:
        return None if _may_start_elsewhere(path) else ()
    bases = []
    base = document.base
    while base is not None:
        base_path = os.path.abspath(base.file)
        try:
            data = read_bytes(base_path)
        except Unreadable:
            return None
        if strip_mark(data) != base.text.encode():
            return None
        bases.append((base_path, digest(data)))
        base = base.base
    return tuple(bases)


def _may_start_elsewhere(path: Path) -> bool:
    try:
        data = read_bytes(os.fspath(path))
    except Unreadable:
        return True
    return b"like" in data or b"\\" in data  # which may spell a key


def strip_mark(data: bytes) -> bytes:
    """The bytes behind a byte order mark."""
    return data.removeprefix(b"\xef\xbb\xbf")
