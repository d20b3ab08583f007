"""Whatever a rig, a part or a library file holds: a report or its faults, in time, in memory, in every form.

`RIGMINT_FUZZ_COUNT` asks for more files of each kind, `RIGMINT_FUZZ_SEED` for others.
"""

from __future__ import annotations

import json
import os
import re
import resource
import shutil
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from rigmint.commands.group import main
from tests.counts import TRIED
from tests.fuzz.strategies import ROOT, texts

SEED = int(os.environ.get("RIGMINT_FUZZ_SEED", "1"))
COUNT = int(os.environ.get("RIGMINT_FUZZ_COUNT", "15"))
SECONDS, MEGABYTES = 5.0, 500
FORMS = (
    ("check", "--as", "text", "--today", "2026-05-02"),
    ("check", "--as", "sarif", "--today", "2026-05-02"),
    ("check", "--as", "junit"),
    ("power",),
    ("power", "--faults"),
    ("owners",),
    ("misplug",),
    ("sheet",),
    ("draw",),
    ("labels",),
    ("mend", "--show"),
)
_WRONG = re.compile(r"broke off|Traceback|(?<!\"id\": \")(study:failed|rule:crashed)")
_SETTINGS = settings(
    max_examples=COUNT, deadline=None, database=None, suppress_health_check=list(HealthCheck), phases=(Phase.generate,)
)


@pytest.fixture
def library(tmp_path: Path) -> Path:
    """A copy of the example library's parts, with nothing to check."""
    shutil.copytree(ROOT / "examples" / "parts", tmp_path / "parts")
    shutil.copy(ROOT / "examples" / "rigmint.yaml", tmp_path)
    return tmp_path


def run(*arguments: str) -> str:
    """What a command prints, in time; it ends with 0, 1 or 2, and nothing inside it has failed."""
    start = time.perf_counter()
    result = CliRunner().invoke(main, list(arguments), prog_name="rigmint")
    seconds = time.perf_counter() - start

    assert result.exception is None or isinstance(result.exception, SystemExit), result.exc_info
    assert result.exit_code in (0, 1, 2), result.output
    wrong = _WRONG.search(result.output + result.stderr)
    assert wrong is None, (result.output + result.stderr)[max(wrong.start() - 300, 0) :][:1500]
    assert seconds < SECONDS, f"{seconds:.1f} s for {arguments}"
    return result.output


def judge(path: Path, text: str, rig: Path, form: tuple[str, ...]) -> None:
    """Write a file, check a rig, and have one more form of it printed."""
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    printed = run("check", str(rig), "--as", "json", "--today", "2026-05-02")
    if path == rig:
        report = json.loads(printed)
        last = len(text.splitlines()) + 1
        told = [one for file in report["files"] for one in (*file["findings"], *file["unread"])]
        told = [one for one in told if Path(one.get("file", rig.name)).name == rig.name]
        assert all(1 <= one["line"] <= last for one in told), told
        TRIED["places that generated rigs are told of"] += len(told)
    command, *options = form
    run(command, str(rig), *options)
    sort = "with faults" if '"code": "file:' in printed else "whole"
    TRIED[f"generated {path.name.split('.', 1)[1]} files, {sort}"] += 1


def try_all(strategy: st.SearchStrategy[str], judge_one: Callable[[str, tuple[str, ...]], None]) -> None:
    @seed(SEED)
    @_SETTINGS
    @given(strategy, st.sampled_from(FORMS))
    def try_one(text: str, form: tuple[str, ...]) -> None:
        judge_one(text, form)

    before = measure_memory()
    try_one()

    assert measure_memory() < max(before + 1.0, MEGABYTES)


def measure_memory() -> float:
    """MB that this process held at most so far."""
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / (1024 if sys.platform == "linux" else 1024**2)


def test_rigs(library: Path) -> None:
    rig = library / "a.rig.yaml"

    try_all(texts("rig"), lambda text, form: judge(rig, text, rig, form))


def test_parts(library: Path) -> None:
    """A part file of the library, with a rig that uses what it may define."""
    rig = library / "a.rig.yaml"
    shutil.copy(ROOT / "examples" / "rigs" / "saltmarsh-two-up.rig.yaml", rig)
    part = library / "parts" / "generated.part.yaml"

    try_all(
        texts("part").map(lambda text: text.replace("generic/", "kestrel/own-")),
        lambda text, form: judge(part, text, rig, form),
    )


def test_libraries(library: Path) -> None:
    rig = library / "a.rig.yaml"
    shutil.copy(ROOT / "examples" / "rigs" / "saltmarsh-two-up.rig.yaml", rig)

    try_all(texts("library"), lambda text, form: judge(library / "rigmint.yaml", text, rig, form))
