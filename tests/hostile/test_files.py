"""Files that are no files, links that lead anywhere, names that nobody would give, catalogues that fail."""

from __future__ import annotations

import os
import signal
import subprocess
import time
from pathlib import Path

import pytest

from rigmint.library.library_file import load_library
from tests.hostile.program import RIG, run

HOSTILE_NAME = b"n\xff\x1b[31m\xe2\x80\xae<script>\x01.rig.yaml"
LIBRARY = "rigmint_library: 1\n"
WRONG = "rigmint_part: 1\nid: house/x\nkind: cage\nmass: bad\n"


@pytest.fixture(autouse=True)
def rig(tmp_path: Path) -> Path:
    (tmp_path / "a.rig.yaml").write_text(RIG, encoding="utf-8")
    return tmp_path / "a.rig.yaml"


@pytest.mark.parametrize("line", ["check", "power", "owners", "sheet", "mend", "labels", "draw", "misplug"])
def test_a_pipe_in_the_place_of_a_rig(tmp_path: Path, line: str) -> None:
    os.mkfifo(tmp_path / "pipe.rig.yaml")

    assert run(tmp_path, line, "pipe.rig.yaml").returncode == 2


def test_a_pipe_among_the_parts(tmp_path: Path) -> None:
    (tmp_path / "parts").mkdir()
    os.mkfifo(tmp_path / "parts" / "pipe.part.yaml")
    (tmp_path / "rigmint.yaml").write_text(LIBRARY + "parts: [parts]\n")
    ran = run(tmp_path, "check", "a.rig.yaml")

    assert (ran.returncode, b"this is no regular file" in ran.stdout) == (2, True)


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("parts: [../out]", "`parts:` names the folder ../out, which leads out of the library's folder"),
        ("parts: [/]", "`parts:` names the folder /, which leads out of the library's folder"),
        ("parts: [linked]", "`parts:` names the folder linked, which leads out of the library's folder"),
        ("parts: [inner]", "this is a link that leads out of the library's folder"),
        ("parts: [round]", "`parts:` names the folder round, which is not there"),
        ('parts: ["a\\0b"]', "`parts:` names the folder a\0b, which is not there"),
        (f"parts: [{'a' * 5000}]", f"`parts:` names the folder {'a' * 5000}, which is not there"),
        ("house: {rig: round}", "`house:` names round, which is not there"),
        ('house: {rig: "a\\0b"}', "`house:` names a\0b, which is not there"),
    ],
)
def test_where_a_library_leads(tmp_path: Path, line: str, says: str) -> None:
    folder = tmp_path / "library"
    (folder / "inner").mkdir(parents=True)
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "x.part.yaml").write_text(WRONG)
    (folder / "linked").symlink_to("../out")
    (folder / "inner" / "x.part.yaml").symlink_to("../../out/x.part.yaml")
    (folder / "round").symlink_to("round")
    (folder / "rigmint.yaml").write_text(LIBRARY + line + "\n")
    library = load_library(folder / "rigmint.yaml")

    assert [(fault.code, fault.says) for fault in library.faults] == [("file:unreadable", says)]
    assert "house/x" not in library.catalogue.part_ids


def test_a_link_that_stays_in_the_library_is_followed(tmp_path: Path) -> None:
    (tmp_path / "parts").mkdir()
    (tmp_path / "other.yaml").write_text(WRONG.replace("mass: bad", "mass: 1 kg"))
    (tmp_path / "parts" / "x.part.yaml").symlink_to("../other.yaml")
    (tmp_path / "rigmint.yaml").write_text(LIBRARY + "parts: [parts]\n")
    library = load_library(tmp_path / "rigmint.yaml")

    assert (library.faults, "house/x" in library.catalogue.part_ids) == ((), True)


@pytest.mark.parametrize("like", ["round", '"a\\0b"', "/dev/zero", "a" * 5000])
def test_a_rig_that_starts_from_nowhere(tmp_path: Path, rig: Path, like: str) -> None:
    (tmp_path / "round").symlink_to("round")
    (tmp_path / "round.rig.yaml").symlink_to("round.rig.yaml")
    rig.write_text(f"{RIG}like: {like}\n")

    assert run(tmp_path, "check", ".").returncode == 2


@pytest.mark.parametrize("rev", ["--output=made", "-h", "--", "a b", "x\x1b[31m\u202e"])
def test_a_revision_that_looks_like_an_option(tmp_path: Path, rev: str) -> None:
    make_repository(tmp_path)
    ran = run(tmp_path, "compare", f"--rev={rev}", "a.rig.yaml")

    assert ran.returncode == 2
    assert ran.stderr.startswith(b"Error: git knows no revision `")
    assert b"\x1b" not in ran.stderr
    assert not (tmp_path / "made").exists()


def make_repository(folder: Path) -> None:
    for line in ("init -q", "add -A", "-c user.name=a -c user.email=a@b.example commit -qm first"):
        subprocess.run(["git", *line.split()], cwd=folder, check=True)


def test_a_revision_with_links_that_lead_out(tmp_path: Path) -> None:
    (tmp_path / "one.yaml").symlink_to("/etc/hostname")
    (tmp_path / "two.yaml").symlink_to("../../two.yaml")
    make_repository(tmp_path)
    ran = run(tmp_path, "compare", "--rev", "HEAD", "a.rig.yaml")

    assert (ran.returncode, ran.stderr) == (0, b"")


RENDERERS = [
    *(f"check --as {form}" for form in ("text", "json", "sarif", "junit")),
    *("power", "owners", "misplug", "labels", "draw", "sheet", "mend --show"),
]


@pytest.mark.parametrize("line", RENDERERS)
def test_a_file_name_that_is_no_text(tmp_path: Path, rig: Path, line: str) -> None:
    rig.rename(os.fsdecode(os.fsencode(tmp_path) + b"/" + HOSTILE_NAME))
    ran = run(tmp_path, *line.split(), HOSTILE_NAME)

    assert ran.returncode == 0
    for harmful in (b"\xff", b"\x1b", b"\x01", b"\xe2\x80\xae"):
        assert harmful not in ran.stdout + ran.stderr
    if line.split()[0] in ("draw", "sheet") or line.endswith("junit"):
        assert b"[31m<script>" not in ran.stdout


@pytest.mark.parametrize(
    ("module", "says"),
    [
        ("raise LookupError('no figures')", b"cannot be used: LookupError: no figures"),
        ("import sys; sys.exit(0)", b"cannot be used: SystemExit: 0"),
        ("class Odd(BaseException): pass\nraise Odd('x')", b"cannot be used: Odd: x"),
        ("print('while imported')\nparts = 5", b"cannot be used: TypeError"),
        ("parts = '/none/such'", b"offers the folder /none/such, which is not there"),
    ],
)
def test_an_installed_catalogue_that_fails_is_named(tmp_path: Path, module: str, says: bytes) -> None:
    site = tmp_path / "site"
    info = site / "harbour-1.0.dist-info"
    info.mkdir(parents=True)
    (site / "harbour_parts.py").write_text(module)
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: harbour\nVersion: 1.0\n")
    (info / "entry_points.txt").write_text("[rigmint.catalogues]\nharbour = harbour_parts:parts\n")
    path = os.pathsep.join([str(site), str(Path(__file__).parents[2])])
    ran = run(tmp_path, "check", "a.rig.yaml", PYTHONPATH=path)
    said = b" ".join(ran.stdout.split())

    assert ran.returncode == 2
    assert b"the catalogue harbour of harbour 1.0 " + says in said
    assert b"a.rig.yaml 3 items" in said
    assert b"while imported" not in said


def test_a_file_that_is_exchanged_while_it_is_read(tmp_path: Path, rig: Path) -> None:
    """Two whole texts take turns in the file's place: each run sees one of them."""
    seen = set()
    (tmp_path / "a.txt").write_text(RIG)
    (tmp_path / "b.txt").write_text("rigmint: 1\nrig: [\n")
    turns = subprocess.Popen(
        ["sh", "-c", "while :; do cp a.txt n && mv n a.rig.yaml; cp b.txt n && mv n a.rig.yaml; done"],
        cwd=tmp_path,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    try:
        for _ in range(4):
            seen.add(run(tmp_path, "check", "a.rig.yaml", RIGMINT_CACHE=str(tmp_path / "cache")).returncode)
    finally:
        os.killpg(turns.pid, signal.SIGKILL)  # with the copying that it is in the middle of
        turns.wait()
        time.sleep(0.2)
    rig.write_text(RIG)
    last = run(tmp_path, "check", "a.rig.yaml", RIGMINT_CACHE=str(tmp_path / "cache"))

    assert seen <= {0, 2}
    assert last.returncode == 0
