"""Several processes: the same outcomes in any number of them, also where one dies or the run is stopped."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from rigmint.lint.check_file import Asked
from rigmint.lint.check_files import count_processes
from rigmint.lint.open_library import open_library
from rigmint.lint.outcome import Task, check_tasks
from rigmint.lint.packs import load_packs
from rigmint.lint.processes import check_in_processes
from rigmint.lint.results import Report
from rigmint.lint.run import check_paths
from tests.cache.library import DAY, RIGS, lay_down

EXAMPLES = Path(__file__).parents[2] / "examples"
CHECKS = """
import os, time
from rigmint import Grade, Rule

def check(case):
    if case.rig.title == "E":
        {body}
    return ()

RULES = (Rule("desk:none", (Grade.TIDY,), "A", "B.", "C.", "D.", "house rule", check),)
"""


def list_tasks(folder: Path, *, house_checks: bool | None = None) -> list[Task]:
    library = folder / "rigmint.yaml"
    opened = open_library(library if library.exists() else None, load_packs(), house_checks=house_checks)
    return [Task(path, opened) for path in sorted(folder.rglob("*.rig.yaml"))]


@pytest.mark.parametrize("fork", [True, False])
def test_outcomes_are_those_of_one_process(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fork: bool) -> None:
    monkeypatch.chdir(lay_down(tmp_path / "library"))
    tasks, asked = list_tasks(Path()), Asked(DAY)
    one = list(enumerate(check_tasks(tasks, asked)))
    many = sorted(check_in_processes(tasks, asked, 3, fork=fork))

    assert many == one


def check(folder: Path, processes: int, monkeypatch: pytest.MonkeyPatch) -> Report:
    monkeypatch.setenv("RIGMINT_PROCESSES", str(processes))
    return check_paths([folder], library=None, today=DAY, setup=None, prove=False, house_checks=True)


def test_the_order_of_files_does_not_depend_on_who_checks_them(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(EXAMPLES)

    assert check(Path("rigs"), 3, monkeypatch) == check(Path("rigs"), 1, monkeypatch)


def lay_down_checks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, body: str) -> None:
    folder = lay_down(tmp_path / "library")
    monkeypatch.chdir(folder)
    (folder / "checks.py").write_text(CHECKS.format(body=body))
    (folder / "rigmint.yaml").write_text("rigmint_library: 1\nparts: [parts]\nhouse: {checks: [checks.py]}\n")


@pytest.mark.parametrize(
    ("body", "how"), [("os._exit(3)", "with status 3"), ("os.kill(os.getpid(), 9)", "by signal 9")]
)
def test_of_a_process_that_dies_only_its_file_is_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, body: str, how: str
) -> None:
    lay_down_checks(tmp_path, monkeypatch, body)
    report = check(Path(), 2, monkeypatch)
    monkeypatch.setenv("RIGMINT_PROCESSES", "1")
    by_file = {file.file.removesuffix(".rig.yaml"): file for file in report.files}

    assert sorted(by_file) == sorted(RIGS)
    assert [(fault.code, how in fault.says) for fault in by_file["e"].unread] == [("study:failed", True)]
    assert [name for name, file in by_file.items() if file.unread] == ["broken", "e", "wrong"]
    assert report.status(strict=False) == 2


@pytest.mark.parametrize(
    ("stated", "files", "number"), [("1", 100, 1), ("3", 100, 3), ("3", 2, 2), ("", 7, 1), ("x", 15, 1), ("0", 1, 1)]
)
def test_how_many_processes(monkeypatch: pytest.MonkeyPatch, stated: str, files: int, number: int) -> None:
    monkeypatch.setenv("RIGMINT_PROCESSES", stated)
    task = Task(Path("x"), open_library(None, load_packs(), house_checks=None))

    assert count_processes([task] * files) == number


def test_a_run_that_is_stopped_ends_with_all_its_processes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lay_down_checks(tmp_path, monkeypatch, "open('pids', 'a').write(str(os.getpid()) + ' '); time.sleep(60)")
    program = "from rigmint.commands.entry import main; main()"
    environment = {**os.environ, "RIGMINT_PROCESSES": "2", "PYTHONPATH": str(EXAMPLES.parent)}
    running = subprocess.Popen(
        [sys.executable, "-c", program, "check", ".", "--house-checks"],
        env=environment,
        stderr=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    pids = Path("pids")
    deadline = time.monotonic() + 60
    while not pids.exists() or not pids.read_text():
        assert running.poll() is None
        assert time.monotonic() < deadline
        time.sleep(0.05)
    running.send_signal(signal.SIGINT)
    _, said = running.communicate(timeout=30)

    assert (running.returncode, said) == (2, "Stopped: nothing was judged.\n")
    with pytest.raises(ProcessLookupError):
        os.kill(int(pids.read_text().split()[0]), 0)
