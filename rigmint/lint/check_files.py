"""Checks many rig files: what the cache knows is taken from it, the rest is checked, here or in several processes."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from rigmint.lint.cache import FileCache
from rigmint.lint.check_file import Asked
from rigmint.lint.outcome import Outcome, Task, check_tasks
from rigmint.lint.processes import check_in_processes, count_processes

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
    number = count_processes(wanted)
    found = check_in_processes(wanted, asked, number) if number > 1 else enumerate(check_tasks(wanted, asked))
    for place, outcome in found:
        checked[missing[place]] = outcome
        if on_done is not None:
            on_done(len(checked), len(missing))
    cache.keep(checked)
    return [checked[index] if outcome is None else outcome for index, outcome in enumerate(known)], checked
