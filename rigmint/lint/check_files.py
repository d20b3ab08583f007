"""Checks many rig files: what the cache knows is taken from it, the rest is checked, here or in several processes."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping, Sequence

from rigmint.lint.cache import FileCache
from rigmint.lint.check_file import Asked
from rigmint.lint.outcome import Outcome, Task, check_tasks

PROCESSES = "RIGMINT_PROCESSES"
"""Environment: how many processes check; by default one a processor, where there are files enough."""
_FILES_A_PROCESS = 8
"""Fewer are not worth a process of their own."""
OnDone = Callable[[int, int], None]
"""Told how many of how many files are done."""


def check_files(
    tasks: Sequence[Task], asked: Asked, cache: FileCache, *, on_done: OnDone | None = None
) -> tuple[list[Outcome], Mapping[int, Outcome]]:
    """The outcome of each file, in the order of the tasks; and by index those that were checked now."""
    known, tasks = cache.look_up(tasks)
    missing = [index for index, outcome in enumerate(known) if outcome is None]
    checked: dict[int, Outcome] = {}
    wanted = [tasks[index] for index in missing]
    for place, outcome in _check(wanted, asked, count_processes(wanted)):
        checked[missing[place]] = outcome
        if on_done is not None:
            on_done(len(checked), len(missing))
    cache.keep(checked)
    return [checked[index] if outcome is None else outcome for index, outcome in enumerate(known)], checked


def _check(tasks: Sequence[Task], asked: Asked, number: int) -> Iterable[tuple[int, Outcome]]:
    """Index and outcome of each task, in any order."""
    if number == 1:
        return enumerate(check_tasks(tasks, asked))
    from rigmint.lint.processes import check_in_processes  # which imports much that one file does not need

    return check_in_processes(tasks, asked, number)


def count_processes(tasks: Sequence[Task]) -> int:
    """How many processes to use: as many as the environment says, else as pay."""
    stated = os.environ.get(PROCESSES, "")
    if stated.isascii() and stated.isdigit() and int(stated) > 0:
        return max(1, min(int(stated), len(tasks)))
    return max(1, min(_count_processors(), len(tasks) // _FILES_A_PROCESS))


def _count_processors() -> int:
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
