"""The cache: what it gives is what a fresh run gives, whatever has changed since; and it is never in the way."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from rigmint.testing import edit_text

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
RIG = "rigs/saltmarsh-two-up.rig.yaml"
DAY = "2026-05-02"


@pytest.fixture
def library(tmp_path: Path) -> Path:
    """A library of four rigs: one that is like another, one with a fault that somebody signed for until a day."""
    root = tmp_path / "library"
    shutil.copytree(EXAMPLES / "parts", root / "parts")
    shutil.copy(EXAMPLES / "rigmint.yaml", root / "rigmint.yaml")
    (root / "rigs").mkdir()
    for name in (RIG, "rigs/gull-street-usb.rig.yaml"):
        shutil.copy(EXAMPLES / name, root / name)
    head = "rigmint: 1\nrig: Saltmarsh, signed\nlike: saltmarsh-two-up.rig.yaml\n"
    (root / "rigs" / "like.rig.yaml").write_text(head, encoding="utf-8")
    signed = (
        "setups: {two_up: {set: {desk.lens_control: on}}}\n"
        "accepted: [{code: 'owner:mixed', at: lens.focus, why: meant, by: prep, until: 2026-06-01}]\n"
    )
    (root / "rigs" / "signed.rig.yaml").write_text(head + signed, encoding="utf-8")
    return root


def check(library: Path, *arguments: str, day: str = DAY, cache: str = "cache") -> tuple[int, bytes]:
    """Status and output of a check of the library in a process of its own."""
    command = [sys.executable, "-c", "from rigmint.commands.entry import main; main()", "check", "rigs", "--today", day]
    environment = {**os.environ, "RIGMINT_CACHE": str(library.parent / cache), "RIGMINT_PROCESSES": "1"}
    done = subprocess.run([*command, *arguments], cwd=library, env=environment, capture_output=True, check=False)
    assert b"Traceback" not in done.stderr
    return done.returncode, done.stdout


def edit(name: str, *changes: tuple[str, str]) -> Callable[[Path], None]:
    def change(library: Path) -> None:
        path = library / name
        path.write_text(edit_text(path.read_text(encoding="utf-8"), *changes), encoding="utf-8")

    return change


def add_part(library: Path) -> None:
    part = "rigmint_part: 1\nid: kestrel/motor-focus\nname: Twin\nkind: accessory\n"
    (library / "parts" / "twin.part.yaml").write_text(part, encoding="utf-8")


def add_rig_of_the_job(library: Path) -> None:
    rig = "rigmint: 1\nrig: B unit\njob: Saltmarsh\nkit: {camera: {part: generic/camera-compact, asset: CAM-07}}\n"
    (library / "rigs" / "b-unit.rig.yaml").write_text(rig, encoding="utf-8")


def break_part(library: Path) -> None:
    (library / "parts" / "broken.part.yaml").write_text("rigmint_part: 1\nid: [\n", encoding="utf-8")


CHANGES = {
    "a rig": edit(RIG, ("desk.lens_control: off", "desk.lens_control: on")),
    "a comment in a rig": edit(RIG, ("rigmint: 1\n", "# one line more\nrigmint: 1\n")),
    "a part": edit("parts/power.part.yaml", ("mark: green sleeve", "mark: red sleeve")),
    "a part that is new and has the id of another": add_part,
    "a part that cannot be read": break_part,
    "the library": edit("rigmint.yaml", ("title: Kestrel Hire", "title: Kestrel Hire\nrules: {fit:unlatched: off}")),
    "another rig of the job": add_rig_of_the_job,
    "a rig that is gone": lambda library: (library / "rigs" / "gull-street-usb.rig.yaml").unlink(),
}


def test_a_second_run_gives_the_same_bytes(library: Path) -> None:
    first = check(library)

    assert first == check(library) == check(library, "--fresh")
    assert any((library.parent / "cache").rglob("*"))


@pytest.mark.parametrize("form", ["json", "sarif", "junit"])
def test_each_form_comes_from_the_cache_as_it_is(library: Path, form: str) -> None:
    assert check(library, "--as", form) == check(library, "--as", form) == check(library, "--as", form, "--fresh")


@pytest.mark.parametrize("what", CHANGES)
def test_after_a_change_the_cache_says_what_a_fresh_run_says(library: Path, what: str) -> None:
    before = check(library)
    CHANGES[what](library)
    after = check(library)

    assert after == check(library, cache="other")
    assert after != before or what in ("a comment in a rig", "a part", "the library")


def test_the_day_counts(library: Path) -> None:
    held, over = check(library), check(library, day="2026-06-02")

    assert held[0] == 0
    assert over[0] == 1
    assert (check(library), check(library, day="2026-06-02")) == (held, over)


def test_going_back_to_what_was_gives_what_was(library: Path) -> None:
    text = (library / RIG).read_text(encoding="utf-8")
    first = check(library)
    CHANGES["a rig"](library)
    check(library)
    (library / RIG).write_text(text, encoding="utf-8")

    assert check(library) == first


def test_spoilt_entries_are_no_entries(library: Path) -> None:
    first = check(library)
    for path in (library.parent / "cache").rglob("*"):
        if path.is_file():
            path.write_bytes(b"\x00not what was written\xff" * 3)

    assert check(library) == first


def test_a_cache_that_cannot_be_written_is_none(library: Path) -> None:
    (library.parent / "file").write_text("no folder", encoding="utf-8")

    assert check(library, cache="file") == check(library, "--fresh")


def test_runs_at_once_on_one_cache_agree(library: Path) -> None:
    command = [sys.executable, "-c", "from rigmint.commands.entry import main; main()", "check", "rigs", "--today", DAY]
    environment = {**os.environ, "RIGMINT_CACHE": str(library.parent / "shared")}
    runs = [subprocess.Popen(command, cwd=library, env=environment, stdout=subprocess.PIPE) for _ in range(4)]
    outputs = {run.communicate()[0] for run in runs}

    assert outputs == {check(library, "--fresh")[1]}
    assert check(library, cache="shared")[1] in outputs
