"""Checks rig files in several processes. What goes between them is text, and each process writes only its own answers;
one that dies takes one file with it, which is named, and the rest of its files go to another."""

from __future__ import annotations

import json
import multiprocessing
import os
import signal
import sys
from collections import deque
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from pathlib import Path

from rigmint.library.faults import Fault
from rigmint.library.house_schemas import HouseSchemas
from rigmint.library.library_file import show_path
from rigmint.lint.check_file import Asked
from rigmint.lint.open_library import open_library
from rigmint.lint.outcome import Outcome, Task, check_tasks
from rigmint.lint.packs import load_packs
from rigmint.lint.records import from_plain, to_plain
from rigmint.lint.results import FileReport

_CHUNKS_A_PROCESS = 4
_CAN_FORK = sys.platform == "linux"


@dataclass(frozen=True, slots=True)
class _FarTask:
    """A task as a process takes it that has to open the library itself."""

    path: Path
    mates: tuple[Path, ...]
    library_file: Path | None
    house_checks: bool | None


@dataclass(slots=True)
class _Worker:
    process: BaseProcess
    pipe: Connection
    due: deque[int] = field(default_factory=deque)
    """Indices of the tasks whose answers it still owes, in their order."""


def check_in_processes(
    tasks: Sequence[Task], asked: Asked, number: int, *, fork: bool = _CAN_FORK
) -> Iterator[tuple[int, Outcome]]:
    """Index and outcome of each task, as they come. `fork`: processes take over what is loaded; else each loads the
    packs and the libraries anew."""
    chunks = deque(_cut_into_chunks(tasks, number * _CHUNKS_A_PROCESS))
    pool = _Pool(tasks, asked, fork=fork)
    try:
        for _ in range(min(number, len(chunks))):
            pool.start(chunks.popleft())
        while pool.workers:
            yield from pool.gather(chunks)
    finally:
        pool.stop()


class _Pool:
    def __init__(self, tasks: Sequence[Task], asked: Asked, *, fork: bool) -> None:
        self._tasks = tasks
        self._asked = asked
        self._fork = fork
        self.workers: list[_Worker] = []

    def start(self, chunk: Sequence[int]) -> None:
        """Start a process on a chunk."""
        ours, theirs = multiprocessing.Pipe()
        process: BaseProcess
        if self._fork:
            held = [*(worker.pipe for worker in self.workers), ours]
            work = (theirs, self._tasks, self._asked, held)
            process = multiprocessing.get_context("fork").Process(target=_work, args=work, daemon=True)
        else:
            far = [_send_far(task) for task in self._tasks]
            process = multiprocessing.get_context("spawn").Process(
                target=_work_far, args=(theirs, far, self._asked), daemon=True
            )
        with _hold_interrupts():
            process.start()
        theirs.close()
        worker = _Worker(process, ours)
        self.workers.append(worker)
        self._hand(worker, chunk)

    def gather(self, chunks: deque[list[int]]) -> Iterator[tuple[int, Outcome]]:
        """Wait for answers, hand out further chunks, replace what died."""
        ready = wait([worker.pipe for worker in self.workers])
        for worker in [one for one in self.workers if one.pipe in ready]:
            try:
                answer = worker.pipe.recv_bytes()
            except (EOFError, OSError):
                self.workers.remove(worker)
                yield from self._bury(worker)
                continue
            index = worker.due.popleft()
            yield index, from_plain(Outcome, json.loads(answer))
            if not worker.due:
                self._go_on(worker, chunks)

    def stop(self) -> None:
        """End what still runs."""
        for worker in self.workers:
            worker.process.terminate()
        for worker in self.workers:
            worker.process.join()
            worker.pipe.close()

    def _go_on(self, worker: _Worker, chunks: deque[list[int]]) -> None:
        if chunks:
            self._hand(worker, chunks.popleft())
            return
        self.workers.remove(worker)
        worker.pipe.close()  # at which it ends
        worker.process.join()

    def _bury(self, worker: _Worker) -> Iterator[tuple[int, Outcome]]:
        worker.process.join()
        worker.pipe.close()
        index = worker.due.popleft()
        yield index, _say_died(self._tasks[index], worker.process.exitcode)
        if worker.due:
            self.start(list(worker.due))

    def _hand(self, worker: _Worker, chunk: Sequence[int]) -> None:
        worker.due.extend(chunk)
        try:
            worker.pipe.send_bytes(json.dumps(list(chunk)).encode())
        except OSError:
            return  # it has died: its pipe says so when it is read


def _work(pipe: Connection, tasks: Sequence[Task], asked: Asked, held: Sequence[Connection]) -> None:
    """A process that took over what is loaded. `held`: the other ends of pipes, which end with whom they belong to."""
    for other in held:
        other.close()
    libraries = {id(task.opened): task.opened for task in tasks}
    own = {
        key: replace(opened, schemas=HouseSchemas(opened.library.house_paths)) for key, opened in libraries.items()
    }  # the process that checks schemas cannot be shared
    _answer(pipe, [replace(task, opened=own[id(task.opened)]) for task in tasks], asked)


def _work_far(pipe: Connection, far: Sequence[_FarTask], asked: Asked) -> None:
    """A process that begins with nothing."""
    packs = load_packs()
    opened = {
        (one.library_file, one.house_checks): open_library(one.library_file, packs, house_checks=one.house_checks)
        for one in {(one.library_file, one.house_checks): one for one in far}.values()
    }
    tasks = [Task(one.path, opened[one.library_file, one.house_checks], one.mates) for one in far]
    _answer(pipe, tasks, asked)


def _answer(pipe: Connection, tasks: Sequence[Task], asked: Asked) -> None:
    """Answer chunks until there are no more."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the process that started this one ends it
    try:
        while True:
            chunk = json.loads(pipe.recv_bytes())
            for outcome in check_tasks((tasks[index] for index in chunk), asked):
                pipe.send_bytes(json.dumps(to_plain(outcome)).encode())
    except (EOFError, OSError):  # there are no more, or nobody is left to answer to
        return


@contextmanager
def _hold_interrupts() -> Iterator[None]:
    """An interrupt waits while a process is started: it would have no one to answer it in there before it is ignored.
    The new process begins with interrupts held."""
    if not hasattr(signal, "pthread_sigmask"):  # as on Windows
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _send_far(task: Task) -> _FarTask:
    house, checks = task.opened.library.house, task.opened.left_out
    library_file = Path(os.path.abspath(house.file)) if house.file is not None else None
    runs_checks = None if not house.files.checks else not checks
    return _FarTask(task.path, task.mates, library_file, runs_checks)


def _say_died(task: Task, status: int | None) -> Outcome:
    """The outcome of a file whose process ended."""
    how = f"by signal {-status}" if status is not None and status < 0 else f"with status {status}"
    shown = show_path(task.path)
    says = f"the process that checked this file ended {how}, as one does that finds no more memory"
    return Outcome(FileReport(shown, 0, 0, (), (), (), (Fault(shown, 1, 1, "study:failed", says),), ()))


def _cut_into_chunks(tasks: Sequence[Task], number: int) -> list[list[int]]:
    """Contiguous indices of about equal cost, which goes by the size of the file."""
    sizes = [_measure(task.path) for task in tasks]
    share = sum(sizes) / number
    chunks: list[list[int]] = [[]]
    total = 0
    for index, size in enumerate(sizes):
        if chunks[-1] and total >= share * len(chunks):
            chunks.append([])
        chunks[-1].append(index)
        total += size
    return chunks


def _measure(path: Path) -> int:
    try:
        return path.stat().st_size + 1
    except OSError:
        return 1
