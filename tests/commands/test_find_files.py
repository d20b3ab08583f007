"""Which rig files a run takes."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from rigmint.library.faults import Fault
from rigmint.library.find_files import find_rig_files


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder with rigs here and there, and some that nobody means."""
    for name in (
        "b.rig.yaml",
        "rigs/a.rig.yaml",
        "rigs/deep/c.rig.yaml",
        "rigs/lamp.part.yaml",
        "rigs/notes.yaml",
        ".venv/x.rig.yaml",
        ".hidden/y.rig.yaml",
        "rigs/node_modules/z.rig.yaml",
        "rigs/.lock.rig.yaml",
    ):
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("rigmint: 1\n", encoding="utf-8")
    (tmp_path / "empty").mkdir()
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize(
    ("paths", "found"),
    [
        (["."], ["b.rig.yaml", "rigs/a.rig.yaml", "rigs/deep/c.rig.yaml"]),
        (["rigs"], ["rigs/a.rig.yaml", "rigs/deep/c.rig.yaml"]),
        (["rigs", "rigs/a.rig.yaml", ".", "./b.rig.yaml"], ["b.rig.yaml", "rigs/a.rig.yaml", "rigs/deep/c.rig.yaml"]),
        (["rigs/notes.yaml"], ["rigs/notes.yaml"]),
        ([".hidden"], [".hidden/y.rig.yaml"]),
        ([".venv/x.rig.yaml"], [".venv/x.rig.yaml"]),
        (["empty", "b.rig.yaml"], ["b.rig.yaml"]),
    ],
)
def test_files(paths: list[str], found: list[str]) -> None:
    files, faults = find_rig_files([Path(path) for path in paths])

    assert ([file.as_posix() for file in files], faults) == (found, ())


@pytest.mark.usefixtures("folder")
@pytest.mark.parametrize(
    ("paths", "named", "words"),
    [
        (["gone"], "gone", "it cannot be read: no such file or directory"),
        (["b.rig.yaml/x"], "b.rig.yaml/x", "it cannot be read: not a directory"),
        (["empty"], "empty", "no rig file (`*.rig.yaml`) lies in it or below"),
    ],
)
def test_what_cannot_be_searched(paths: list[str], named: str, words: str) -> None:
    files, faults = find_rig_files([Path(path) for path in paths])

    assert (files, faults) == ((), (Fault(named, 1, 1, "file:unreadable", words),))


def test_others_are_still_found_beside_what_is_missing(folder: Path) -> None:
    files, faults = find_rig_files([folder / "gone", folder / "b.rig.yaml"])

    assert [file.name for file in files] == ["b.rig.yaml"]
    assert [fault.file for fault in faults] == ["gone"]


def test_links_to_folders_are_not_followed_and_links_to_files_are(folder: Path) -> None:
    (folder / "empty" / "loop").symlink_to(folder)
    (folder / "empty" / "linked.rig.yaml").symlink_to(folder / "b.rig.yaml")
    files, _ = find_rig_files([Path("empty")])

    assert [file.as_posix() for file in files] == ["empty/linked.rig.yaml"]


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is closed to the superuser")
def test_a_closed_folder_is_named(folder: Path) -> None:
    (folder / "rigs" / "deep").chmod(0)
    files, faults = find_rig_files([Path("rigs")])
    (folder / "rigs" / "deep").chmod(0o755)

    assert [file.as_posix() for file in files] == ["rigs/a.rig.yaml"]
    assert [(fault.file, fault.says) for fault in faults] == [("rigs/deep", "it cannot be read: permission denied")]
