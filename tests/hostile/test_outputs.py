"""A full disk, a closed output, a cache that takes nothing: said in a line, and no file is half written."""

from __future__ import annotations

import ctypes
import os
import resource
import subprocess
from pathlib import Path

import pytest

from tests.hostile.program import COMMAND, RIG, make_environment, run

_DROP = 24
"""PR_CAPBSET_DROP of Linux's prctl.h."""


@pytest.fixture(autouse=True)
def rig(tmp_path: Path) -> Path:
    (tmp_path / "a.rig.yaml").write_text(RIG, encoding="utf-8")
    return tmp_path / "a.rig.yaml"


@pytest.mark.parametrize("line", ["check a.rig.yaml", "--help", "labels a.rig.yaml", "sheet a.rig.yaml"])
def test_a_full_disk_behind_standard_output(tmp_path: Path, line: str) -> None:
    handle = os.open("/dev/full", os.O_WRONLY)
    ran = run(tmp_path, *line.split(), stdout=handle)
    os.close(handle)

    said = b"Error: the output could not be written whole: no space left on device.\n"
    assert (ran.returncode, ran.stderr) == (2, said)


def test_a_full_disk_behind_a_cached_answer(tmp_path: Path) -> None:
    cache = str(tmp_path / "cache")
    run(tmp_path, "check", "a.rig.yaml", RIGMINT_CACHE=cache)
    handle = os.open("/dev/full", os.O_WRONLY)
    ran = run(tmp_path, "check", "a.rig.yaml", stdout=handle, RIGMINT_CACHE=cache)
    os.close(handle)

    assert ran.returncode == 2
    assert ran.stderr.startswith(b"Error: the output could not be written whole")


def test_a_full_device_as_out(tmp_path: Path) -> None:
    ran = run(tmp_path, "check", "a.rig.yaml", "--out", "/dev/full")

    assert (ran.returncode, ran.stderr) == (2, b"Error: /dev/full cannot be written: no space left on device\n")


@pytest.mark.parametrize("closed", [1, 2])
def test_a_closed_output_changes_nothing_else(tmp_path: Path, closed: int) -> None:
    ran = subprocess.run(
        ["sh", "-c", f'exec "$@" {closed}>&-', "sh", *COMMAND, "check", "a.rig.yaml", "--out", "report.txt"],
        cwd=tmp_path,
        env=make_environment(),
        capture_output=True,
    )

    assert (ran.returncode, ran.stderr) == (0, b"")
    assert (tmp_path / "report.txt").read_text().startswith("a.rig.yaml   3 items, 1 lead")


def limit_files() -> None:
    resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000))


def test_a_page_that_does_not_fit_leaves_the_old_one(tmp_path: Path) -> None:
    (tmp_path / "sheet.html").write_text("the old page")
    before = sorted(os.listdir(tmp_path))
    ran = subprocess.run(
        [*COMMAND, "sheet", "a.rig.yaml", "--out", "sheet.html"],
        cwd=tmp_path,
        env=make_environment(),
        capture_output=True,
        preexec_fn=limit_files,
    )

    assert (ran.returncode, ran.stderr) == (2, b"Error: sheet.html cannot be written: file too large\n")
    assert (tmp_path / "sheet.html").read_text() == "the old page"
    assert sorted(os.listdir(tmp_path)) == before


def test_a_cache_that_does_not_fit_is_done_without(tmp_path: Path) -> None:
    cache = tmp_path / "cache"
    ran = subprocess.run(
        [*COMMAND, "check", "a.rig.yaml"],
        cwd=tmp_path,
        env=make_environment(RIGMINT_CACHE=str(cache)),
        capture_output=True,
        preexec_fn=limit_files,
    )

    assert (ran.returncode, ran.stderr) == (0, b"")
    assert [path for path in cache.rglob("*") if path.is_file() and path.suffix != ".json"] == []


@pytest.mark.parametrize("kind", ["file", "device"])
def test_a_cache_folder_that_is_none(tmp_path: Path, kind: str) -> None:
    (tmp_path / "cache").touch()
    cache = str(tmp_path / "cache") if kind == "file" else "/dev/null"
    ran = run(tmp_path, "check", "a.rig.yaml", RIGMINT_CACHE=cache)

    assert (ran.returncode, ran.stderr) == (0, b"")


def give_up_privileges() -> None:
    """In the new process: what the modes of files forbid is forbidden to root too."""
    if os.geteuid() == 0:
        libc = ctypes.CDLL(None, use_errno=True)
        for capability in (1, 2):  # CAP_DAC_OVERRIDE and CAP_DAC_READ_SEARCH of Linux's capability.h
            if libc.prctl(_DROP, capability, 0, 0, 0) != 0:
                raise OSError(ctypes.get_errno(), "prctl")


def test_what_may_not_be_read_or_written(tmp_path: Path, rig: Path) -> None:
    """A rig that is closed; then one that is open, in a folder and with a cache that take nothing."""
    cache = tmp_path / "cache"
    cache.mkdir(mode=0o500)

    def run_without(*arguments: str) -> tuple[int, bytes]:
        environment = make_environment(RIGMINT_CACHE=str(cache))
        ran = subprocess.run(
            [*COMMAND, *arguments], cwd=tmp_path, env=environment, capture_output=True, preexec_fn=give_up_privileges
        )
        assert b"Traceback" not in ran.stderr
        return ran.returncode, ran.stdout + ran.stderr

    rig.chmod(0)
    closed = run_without("check", "a.rig.yaml")
    rig.chmod(0o444)
    tmp_path.chmod(0o500)
    opened = run_without("check", "a.rig.yaml")
    out = run_without("check", "a.rig.yaml", "--out", "report.txt")
    mended = run_without("mend", "a.rig.yaml")
    tmp_path.chmod(0o700)

    assert (closed[0], b"is not readable" in closed[1]) == (2, True)
    assert (opened[0], mended[0]) == (0, 0)
    assert out == (2, b"Error: report.txt cannot be written: permission denied\n")
    assert list(cache.iterdir()) == []


def test_two_runs_at_once_on_one_cache(tmp_path: Path) -> None:
    for number in range(6):
        (tmp_path / f"b{number}.rig.yaml").write_text(RIG.replace("Saltmarsh", f"Rig {number}"), encoding="utf-8")
    alone = run(tmp_path, "check", ".").stdout
    environment = make_environment(RIGMINT_CACHE=str(tmp_path / "cache"))
    running = [
        subprocess.Popen([*COMMAND, "check", "."], cwd=tmp_path, env=environment, stdout=subprocess.PIPE)
        for _ in range(3)
    ]
    printed = [process.communicate(timeout=60)[0] for process in running]
    again = run(tmp_path, "check", ".", RIGMINT_CACHE=str(tmp_path / "cache")).stdout

    assert [*printed, again] == [alone] * 4
