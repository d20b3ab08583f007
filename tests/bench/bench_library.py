"""How long a library takes to check: ratios of process CPU time in one run on one machine, medians.

    python tests/bench/bench_library.py [COUNT] [REPEATS]

The figures that are aimed at, over 1,000 rigs of 20 to 60 items of which one in twenty has a fault, all standard packs
on, fixes not proved, one BLAS thread:

- full check in one process: at most 15 times B, where B is `CSafeLoader(text).get_single_node()` for each file
- two processes: at least 1.7 times faster than one (by the clock; with two cores free)
- unchanged library: at most 2 times the time to read and hash the files, plus start-up, of Python or of the program
- one unchanged 40-item rig from process start: at most 10 times `python -c pass`
- one changed rig: at most 1.3 times the bare import of click, pluggy, ruamel.yaml, numpy and jsonschema
"""

from __future__ import annotations

import hashlib
import os
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).parent))

from make_library import COUNT, write_library

REPEATS = 5
CHECK = (
    sys.executable,
    "-c",
    "from rigmint.commands.entry import main; main()",
    "check",
    "--today",
    "2026-05-02",
    "--as",
    "json",
)
IMPORTS = (sys.executable, "-c", "import click, pluggy, ruamel.yaml, numpy, jsonschema")
NOTHING = (sys.executable, "-c", "pass")


def run(command: Sequence[str], folder: Path, processes: int = 1) -> tuple[float, float]:
    """CPU seconds of a command and its children, and seconds by the clock."""
    environment = {**os.environ, "RIGMINT_CACHE": str(folder / "cache"), "RIGMINT_PROCESSES": str(processes)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # an installed program has its bytecode
    environment["PYTHONPYCACHEPREFIX"] = str(folder / "bytecode")
    environment |= dict.fromkeys(("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"), "1")
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    done = subprocess.run(command, cwd=folder, env=environment, stdout=subprocess.DEVNULL, check=False)
    after, end = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    if done.returncode not in (0, 1):
        msg = f"{' '.join(command)} ended with {done.returncode}"
        raise RuntimeError(msg)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, end - start


def measure(repeats: int, once: Callable[[], float]) -> float:
    """The median of several runs."""
    return statistics.median(once() for _ in range(repeats))


def compose_all(paths: Sequence[Path]) -> float:
    """B: CPU seconds to compose each file with the C parser, the result dropped."""
    from ruamel.yaml import CSafeLoader

    texts = [path.read_text(encoding="utf-8") for path in paths]
    start = time.process_time()
    for text in texts:
        CSafeLoader(text).get_single_node()
    return time.process_time() - start


def hash_all(paths: Sequence[Path]) -> float:
    """CPU seconds to read and hash each file."""
    start = time.process_time()
    for path in paths:
        hashlib.sha256(path.read_bytes()).hexdigest()
    return time.process_time() - start


def main() -> None:
    """Print each figure beside what is aimed at."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else COUNT
    repeats = int(sys.argv[2]) if len(sys.argv) > 2 else REPEATS
    with TemporaryDirectory() as name:
        folder = Path(name)
        paths = write_library(folder / "library", count)
        library = folder / "library"
        everything, fresh = (*CHECK, "rigs"), (*CHECK, "rigs", "--fresh")
        base = measure(repeats, lambda: compose_all(paths))
        run(IMPORTS, library)
        run((*CHECK, "--fresh", str(paths[0])), library)  # compiles what is imported
        full = measure(repeats, lambda: run(fresh, library)[0])
        print(f"full check, one process: {full / base:.1f} B (at most 15); B {1000 * base / count:.2f} ms a file")
        one, two = (measure(max(1, repeats // 2), lambda n=n: run(fresh, library, n)[1]) for n in (1, 2))
        print(f"two processes: {one / two:.2f} times faster than one (at least 1.7)")
        run(everything, library)
        hashing, start_up = (
            measure(repeats, lambda: hash_all(paths)),
            measure(repeats, lambda: run(NOTHING, library)[0]),
        )
        again = measure(repeats, lambda: run(everything, library)[0])
        rig = str(
            next(path for path in paths if path.read_text(encoding="utf-8").count("{part:") > 25).relative_to(library)
        )
        single = (*CHECK, rig)
        run(single, library)
        kept = measure(repeats, lambda: run(single, library)[0])
        for name, seconds in (("Python", start_up), ("rigmint, as one unchanged rig has it", kept)):
            ratio = (again - seconds) / hashing
            print(f"unchanged library: {ratio:.2f} times reading and hashing (at most 2), plus the start-up of {name}")
        print(f"one unchanged rig: {kept / start_up:.1f} times `python -c pass` (at most 10)")
        bare = measure(repeats, lambda: run(IMPORTS, library)[0])

        def change_and_check() -> float:
            with (library / rig).open("a", encoding="utf-8") as file:
                file.write("# one line more\n")
            return run(single, library)[0]

        changed = measure(repeats, change_and_check)
        print(f"one changed rig: {changed / bare:.2f} times the bare imports (at most 1.3)")


if __name__ == "__main__":
    main()
