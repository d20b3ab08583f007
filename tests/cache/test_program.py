"""The program with a cache: the same bytes with and without it, and nothing imported where nothing has changed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from rigmint.commands.request import read_request

ROOT = Path(__file__).parents[2]
PROGRAM = """
import sys
from rigmint.commands.entry import main
try:
    main()
finally:
    sys.stdout.flush()
    sys.stderr.write(" ".join(sorted(sys.modules)))
"""
HEAVY = {
    "click",
    "dataclasses",
    "importlib.metadata",
    "jsonschema",
    "multiprocessing",
    "networkx",
    "numpy",
    "pathlib",
    "pint",
    "pluggy",
    "ruamel",
    "rigmint.rig",
    "rigmint.study",
}


@pytest.fixture
def examples(tmp_path: Path) -> Path:
    """A copy of the example library, with a few of its faults."""
    folder = tmp_path / "examples"
    shutil.copytree(ROOT / "examples", folder)
    for index, rig in enumerate(sorted((folder / "faults").glob("*.rig.yaml"))):
        if index % 12:
            rig.unlink()
    return folder


def run(folder: Path, *arguments: str, cache: str | None = "cache", **more: str) -> tuple[bytes, int, set[str]]:
    """What it prints, its status, and what it has imported."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "RIGMINT_CACHE": "", **more}
    if cache is not None:
        environment["RIGMINT_CACHE"] = str(folder.parent / cache)
    ran = subprocess.run([sys.executable, "-c", PROGRAM, *arguments], cwd=folder, env=environment, capture_output=True)
    assert b"Traceback" not in ran.stderr
    return ran.stdout, ran.returncode, set(ran.stderr.decode().split())


@pytest.mark.parametrize("form", ["text", "json", "sarif", "junit"])
def test_the_same_bytes_with_and_without_a_cache(examples: Path, form: str) -> None:
    arguments = ("check", "rigs", "faults", "--as", form, "--today=2026-05-02")
    without, status, _ = run(examples, *arguments, cache=None)
    first, again = run(examples, *arguments), run(examples, *arguments)
    rig = examples / "rigs" / "tin-kite-strings.rig.yaml"
    rig.write_text(rig.read_text() + "# changed\n")
    partly = run(examples, *arguments)

    assert len(without) > 1000
    assert [found[:2] for found in (first, again, partly)] == [(without, status)] * 3
    assert again[2] & HEAVY == set()
    assert "numpy" in partly[2]


def test_what_is_said_of_the_run_counts(examples: Path) -> None:
    plain = run(examples, "check", "faults")
    asked = [("--strict",), ("--setup", "nowhere"), ("--as=json",), ("--library", "other.yaml"), ("--fresh",)]
    others = [run(examples, "check", "faults", *more) for more in asked]
    elsewhere = run(examples / "faults", "check", ".")
    again = run(examples, "check", "faults")

    assert [bool(found[2] & HEAVY) for found in (plain, *others, elsewhere, again)] == [True] * 7 + [False]
    assert (plain[:2], others[-1][:2]) == (again[:2], again[:2])


@pytest.mark.parametrize(
    ("change", "is_known"),
    [
        (lambda folder: folder.touch(), True),
        (lambda folder: (folder / "notes.txt").write_text("x"), True),
        (lambda folder: (folder / "rigs" / "notes.yaml").write_text("x"), True),
        (lambda folder: (folder / "rigs" / ".hidden.rig.yaml").write_text("x"), True),
        (lambda folder: os.utime(folder / "rigs" / "tin-kite-strings.rig.yaml", (1, 1)), True),
        (lambda folder: shutil.copy(folder / "rigs/tin-kite-strings.rig.yaml", folder / "rigs/x.rig.yaml"), False),
        (lambda folder: (folder / "rigs" / "tin-kite-strings.rig.yaml").rename(folder / "rigs/x.rig.yaml"), False),
        (lambda folder: (folder / "rigs" / "tin-kite-strings.rig.yaml").unlink(), False),
        (lambda folder: (folder / "rigs" / "rigmint.yaml").write_text("rigmint_library: 1\n"), False),
        (lambda folder: (folder / "rigs" / ".git").mkdir(), False),
        (lambda folder: (folder / "parts" / "x.part.yaml").write_text("rigmint_part: 1\nid: a/b\nkind: cage\n"), False),
        (lambda folder: (folder / "rigmint.yaml").write_text("rigmint_library: 1\nparts: [parts]\n"), False),
        (lambda folder: _turn_into_link(folder / "rigs" / "tin-kite-strings.rig.yaml"), False),
        (lambda folder: os.mkfifo(folder / "rigs" / "pipe.rig.yaml"), False),
    ],
)
def test_what_a_run_rests_on(examples: Path, change: object, is_known: bool) -> None:
    run(examples, "check", "rigs")
    assert callable(change)
    change(examples)
    with_cache, without = run(examples, "check", "rigs"), run(examples, "check", "rigs", cache=None)

    assert with_cache[:2] == without[:2]
    assert (with_cache[2] & HEAVY == set()) is is_known


def _turn_into_link(rig: Path) -> None:
    rig.rename(rig.with_name("other.yaml"))
    rig.symlink_to("other.yaml")


def test_a_run_that_could_not_read_everything_is_not_kept(examples: Path) -> None:
    first, again = run(examples, "check", "rigs", "gone"), run(examples, "check", "rigs", "gone")

    assert first[:2] == again[:2]
    assert again[1] == 2
    assert "click" in again[2]


def test_a_reader_that_goes_away_is_no_error(examples: Path) -> None:
    run(examples, "check", "rigs", "--as", "json")
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "RIGMINT_CACHE": str(examples.parent / "cache")}
    command = [sys.executable, "-c", PROGRAM, "check", "rigs", "--as", "json"]
    read, write = os.pipe()
    os.close(read)
    ran = subprocess.run(command, cwd=examples, env=environment, stdout=write, stderr=subprocess.PIPE)
    os.close(write)

    assert ran.returncode == 0
    assert b"BrokenPipe" not in ran.stderr


def test_letters_that_an_output_does_not_have_are_escaped(examples: Path) -> None:
    rig = examples / "rigs" / "tin-kite-strings.rig.yaml"
    rig.write_text(rig.read_text().replace("kit:", "like: 焦点.rig.yaml\nkit:", 1))
    arguments = ("check", "rigs/tin-kite-strings.rig.yaml")
    for encoding in ("utf-8", "ascii", "utf-8"):
        kept = run(examples, *arguments, PYTHONIOENCODING=encoding)
        without = run(examples, *arguments, PYTHONIOENCODING=encoding, cache=None)

        assert kept[:2] == without[:2]


@pytest.mark.parametrize(
    ("line", "is_read"),
    [
        ("check", True),
        ("check a b --plain --strict", True),
        ("check --as json . --today 2026-05-02 --no-house-checks", True),
        ("check --as=sarif --setup=solo --library=x.yaml", True),
        ("", False),
        ("packs", False),
        ("--plain check", False),
        ("check --as xml", False),
        ("check --as", False),
        ("check --as json --as text", False),
        ("check --today yesterday", False),
        ("check --today=2026-5-2", False),
        ("check --house-checks --no-house-checks", False),
        ("check --out x", False),
        ("check --since x.sarif", False),
        ("check --fresh", False),
        ("check --help", False),
        ("check -- a", False),
        ("check --plai", False),
        ("check --plain=yes", False),
    ],
)
def test_only_plain_requests_are_read_before_the_real_parser(line: str, is_read: bool) -> None:
    assert (read_request(line.split()) is not None) is is_read


def test_the_key_is_that_of_what_is_asked() -> None:
    def key(line: str) -> str:
        request = read_request(line.split())
        assert request is not None
        return request.make_key()

    same = [
        ("check", "check ."),
        ("check --as json --strict", "check --strict --as=json"),
        ("check --as=text", "check"),
    ]
    others = [
        "check",
        "check a",
        "check --strict",
        "check --as json --today 2026-05-02",
        "check --as json --today 2026-05-03",
    ]

    assert [key(one) == key(other) for one, other in same] == [True, True, True]
    assert len({key(line) for line in others}) == len(others)
