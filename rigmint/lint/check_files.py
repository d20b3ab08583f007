"""Checks many rig files: reads each, gives it the other rigs of its job, and keeps the order of the files."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from rigmint.library.build_rig import ReadRig, read_rig
from rigmint.lint.check_file import Asked, check_file
from rigmint.lint.job import find_job_rigs
from rigmint.lint.open_library import OpenLibrary
from rigmint.lint.results import FileReport
from rigmint.rig.rig import Rig


@dataclass(frozen=True, slots=True)
class Task:
    """A rig file to check, and the library that judges it."""

    path: Path
    opened: OpenLibrary


def check_files(tasks: Sequence[Task], asked: Asked) -> list[FileReport]:
    """The report of each file, in the order of the tasks."""
    reads = [read_rig(task.path, task.opened.library) for task in tasks]
    return [
        check_file(read, task.opened, _find_others(task, read, tasks, reads), asked)
        for task, read in zip(tasks, reads, strict=True)
    ]


def _find_others(task: Task, read: ReadRig, tasks: Sequence[Task], reads: Sequence[ReadRig]) -> tuple[Rig, ...]:
    """The other rigs of a rig's job in this run and this library."""
    if read.rig is None:
        return ()
    pairs = zip(tasks, reads, strict=True)
    checked = (other.rig for its, other in pairs if its.opened is task.opened and other.rig is not None)
    return find_job_rigs(read.rig, checked)
