"""How long the check of a library takes, as ratios in one run on one machine. Run from the top of the checkout:

    python tests/bench/bench_library.py [COUNT]        of 1,000 rigs where COUNT is not given

Process CPU time of this process and of what it starts, one BLAS thread, median of five runs:

    B            composing each file with the C parser, the result dropped: CSafeLoader(text).get_single_node()
    full         all rigs, all standard packs, fixes not proved, no cache, one process; as a multiple of B
    two          how much sooner two processes are done: by the clock, and by the CPU time of the one that takes longest,
                 which a machine busy with something else does not change
    unchanged    the same library again, against reading and hashing its files once, start-up of Python left out
    one rig      from process start, unchanged, against a bare `python -c pass`
    one changed  from process start, against importing click, pluggy, ruamel.yaml, numpy and jsonschema

Bytecode is written before anything is measured.
"""

from __future__ import annotations

import datetime
import hashlib
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

for _name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[_name] = "1"
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

from make_library import write_library  # noqa: E402 - the threads are set before numpy is imported
from ruamel.yaml.cyaml import CSafeLoader  # noqa: E402

from rigmint.lint.run import check_paths  # noqa: E402

RUNS = 5
COUNT = 1000
_DAY = datetime.date(2026, 5, 2)
_IMPORTS = "import click, pluggy, ruamel.yaml, numpy, jsonschema"
_PROGRAM = (sys.executable, "-c", "import sys; from rigmint.commands.entry import main; main()")


def measure_cpu(action: Callable[[], object]) -> float:
    """s of CPU of this process and of those that it starts and waits for, by the median."""
    return statistics.median(_measure_once(action) for _ in range(RUNS))


def _measure_once(action: Callable[[], object]) -> float:
    before = _read_cpu()
    action()
    return _read_cpu() - before


def _read_cpu() -> float:
    usages = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(usage.ru_utime + usage.ru_stime for usage in usages)


def check_library(rigs: Sequence[Path], processes: int) -> None:
    """A full check without a cache."""
    os.environ["RIGMINT_PROCESSES"] = str(processes)
    report = check_paths(rigs, library=None, today=_DAY, setup=None, prove=False)
    if report.unread or any(one.unread for one in report.files):
        msg = "a rig of the benchmark could not be checked"
        raise RuntimeError(msg)


def run(folder: Path, *arguments: str) -> None:
    """The program, from process start, with a cache of its own beside the library."""
    environment = {**os.environ, "RIGMINT_CACHE": str(folder.parent / "cache")}
    subprocess.run(
        (*_PROGRAM, *arguments), cwd=folder, env=environment, check=False, stdout=subprocess.DEVNULL, timeout=3600
    )


def compose(texts: Sequence[str]) -> None:
    """B."""
    for text in texts:
        loader = CSafeLoader(text)
        loader.get_single_node()
        loader.dispose()


def read_and_hash(files: Sequence[Path]) -> None:
    """The least that an unchanged library takes."""
    for path in files:
        hashlib.sha256(path.read_bytes()).hexdigest()


def bench_full(rigs: Sequence[Path], texts: Sequence[str]) -> None:
    """One process against B, two against one."""
    base = measure_cpu(lambda: compose(texts))
    check_library(rigs[:10], 1)
    one = measure_cpu(lambda: check_library(rigs, 1))
    clock_one, clock_two, longest = [], [], []
    for _ in range(RUNS):
        clock_one.append(_read_clock(lambda: check_library(rigs, 1)))
        before = resource.getrusage(resource.RUSAGE_CHILDREN), time.process_time()
        clock_two.append(_read_clock(lambda: check_library(rigs, 2)))
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        children = after.ru_utime + after.ru_stime - before[0].ru_utime - before[0].ru_stime
        longest.append(time.process_time() - before[1] + children / 2)
    print(f"B                {base / len(texts) * 1e3:8.2f} ms a file")
    print(f"full, 1 process  {one / len(texts) * 1e3:8.2f} ms a file   {one / base:6.1f} B (at most 15)")
    clock = statistics.median(clock_one) / statistics.median(clock_two)
    print(
        f"2 processes      {clock:8.2f} times sooner by the clock, {one / statistics.median(longest):.2f} by CPU (1.7)"
    )


def _read_clock(action: Callable[[], object]) -> float:
    start = time.perf_counter()
    action()
    return time.perf_counter() - start


def bench_unchanged(folder: Path, files: Sequence[Path]) -> None:
    """An unchanged library, and an unchanged rig of 40 items."""
    bare = measure_cpu(lambda: subprocess.run((sys.executable, "-c", "pass"), check=True))
    least = measure_cpu(lambda: read_and_hash(files))
    run(folder, "check", "--as", "json")
    again = measure_cpu(lambda: run(folder, "check", "--as", "json"))
    rig = str(files[0])
    run(folder, "check", rig)
    single = measure_cpu(lambda: run(folder, "check", rig))
    start_up = single  # one rig: the start of Python and the look at rigmint's own code, which the library pays too
    print(f"unchanged        {again * 1e3:8.1f} ms, of which start-up {start_up * 1e3:.1f} ms", end="   ")
    print(f"{(again - start_up) / least:6.2f} times reading and hashing, {least * 1e3:.1f} ms (at most 2)")
    print(f"1 rig, unchanged {single * 1e3:8.1f} ms   {single / bare:6.1f} times `pass` (at most 10)")


def bench_changed(folder: Path, rig: Path) -> None:
    """A rig that was changed since it was checked."""
    imports = measure_cpu(lambda: subprocess.run((sys.executable, "-c", _IMPORTS), check=True))

    def change_and_check() -> None:
        rig.write_text(rig.read_text(encoding="utf-8") + "# changed\n", encoding="utf-8")
        run(folder, "check", str(rig), "--as", "json")

    changed = measure_cpu(change_and_check)
    print(f"1 rig, changed   {changed * 1e3:8.1f} ms   {changed / imports:6.2f} times the imports (at most 1.3)")


def main(arguments: Sequence[str]) -> None:
    """All of it, one line a figure."""
    count = int(arguments[0]) if arguments else COUNT
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "library"
        rigs = write_library(folder, count)
        texts = [rig.read_text(encoding="utf-8") for rig in rigs]
        print(
            f"{count} rigs, {sum(map(len, texts)) / count / 1e3:.1f} KB a file; CPU time, median of {RUNS}", flush=True
        )
        bench_unchanged(folder, rigs)
        bench_changed(folder, rigs[0])
        bench_full(rigs, texts)


if __name__ == "__main__":
    main(sys.argv[1:])
