"""Parts, libraries and packs that are laid down: read without a fault, safe names, schemas by their identifiers."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from rigmint.commands.group import main
from rigmint.library.library_file import load_library

SCHEMAS = Path(__file__).parents[2] / "schemas"
MAIN = "from rigmint.commands.entry import main; main()"
_LINE = re.compile(r"^# yaml-language-server: \$schema=(\S+)$", re.MULTILINE)


@pytest.fixture(autouse=True)
def _folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments), prog_name="rigmint", catch_exceptions=False)


@pytest.mark.parametrize(
    ("name", "options"),
    [
        ("lamp", ("--kind", "light", "--port", "dc_in=0b-2,socket,in,11-17 V", "--watts", "18", "--mass", "250 g")),
        ("lead-x", ("--kind", "lead", "--port", "a=d-tap,plug", "--port", "b=0b-2,plug")),
        ("bare", ("--kind", "accessory")),
    ],
)
def test_a_part_is_read_without_a_fault(name: str, options: tuple[str, ...]) -> None:
    run("start", "library", "oak")
    os.chdir("oak/parts")
    done = run("start", "part", name, *options, "--yes")
    library = load_library(Path("../rigmint.yaml"))
    text = Path(f"{name}.part.yaml").read_text(encoding="utf-8")
    part_id = re.search(r"^id: (\S+)$", text, re.MULTILINE)

    assert done.exit_code == 0, done.output
    assert library.faults == ()
    assert library.catalogue.check_owned() == {}
    assert part_id is not None
    assert library.catalogue.part(part_id[1]) is not None


def test_a_library_checks_clean() -> None:
    done = run("start", "library", "oak-hire")

    assert done.exit_code == 0
    assert "nothing found" in done.output
    assert run("check", "oak-hire").exit_code == 0
    assert "id: rigmint" in Path("oak-hire/.pre-commit-config.yaml").read_text(encoding="utf-8")


def test_a_pack_passes_its_own_tests_at_once(tmp_path: Path) -> None:
    """Installed as an editable install leaves it; `.ci/run` installs one from its wheel."""
    done = run("start", "pack", "oak-house")
    assert done.exit_code == 0
    info = tmp_path / "site" / "oak_house-0.1.0.dist-info"
    info.mkdir(parents=True)
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: oak-house\nVersion: 0.1.0\n", encoding="utf-8")
    (info / "entry_points.txt").write_text("[rigmint.packs]\noak-house = oak_house\n", encoding="utf-8")
    paths = os.pathsep.join([str(info.parent), str(tmp_path / "oak-house")])
    environment = {**os.environ, "PYTHONPATH": paths, "PYTHONDONTWRITEBYTECODE": "1"}

    def start(*command: str) -> subprocess.CompletedProcess[str]:
        folder = tmp_path / "oak-house"
        return subprocess.run([sys.executable, *command], cwd=folder, env=environment, capture_output=True, text=True)

    tested = start("-m", "pytest", "-q", "-p", "no:cacheprovider")
    assert tested.returncode == 0, tested.stdout + tested.stderr
    assert "oak-house:no-asset" in start("-c", MAIN, "packs").stdout
    assert "A device without its asset number" in start("-c", MAIN, "explain", "oak-house:no-asset").stdout
    log = json.loads(start("-c", MAIN, "check", "tests/rigs/no-asset.shows.rig.yaml", "--as", "sarif").stdout)
    assert "oak-house:no-asset" in [result["ruleId"] for result in log["runs"][0]["results"]]


def test_every_skeleton_names_its_schema() -> None:
    run("start", "library", "oak")
    run("start", "rig", "one", "--yes")
    run("start", "part", "lamp", "--kind", "light", "--yes")
    ids = {json.loads(path.read_text(encoding="utf-8"))["$id"] for path in SCHEMAS.glob("*.schema.json")}
    files = [path for path in Path().rglob("*.yaml") if not path.name.startswith(".")]
    named = {str(path): _LINE.findall(path.read_text(encoding="utf-8")) for path in files}

    assert len(files) == 5
    assert all(len(found) == 1 and found[0] in ids for found in named.values()), named
    assert all(re.fullmatch(r"https://rigmint\.example/schemas/1/[a-z]+\.schema\.json", one) for one in ids)


@pytest.mark.parametrize("kind", ["rig", "part", "library", "pack"])
@pytest.mark.parametrize("name", ["", ".", "..", "gone/a", "con\0", "x" * 300, "a\x1b[31m/b"])
def test_what_cannot_be_a_name_is_refused_in_a_line(tmp_path: Path, kind: str, name: str) -> None:
    more = {"rig": ("--yes",), "part": ("--kind", "light", "--yes")}.get(kind, ())
    done = CliRunner().invoke(main, ["start", kind, *more, "--", name], prog_name="rigmint")

    assert done.exit_code == 2
    assert done.output.startswith(("Error: ", "Usage: "))
    assert "\x1b" not in done.output
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["class", "json", "rigmint", "rigmint-x", "owner", "Oak", "1oak", "oak house"])
def test_what_cannot_name_a_pack_is_refused(tmp_path: Path, name: str) -> None:
    done = CliRunner().invoke(main, ["start", "pack", name], prog_name="rigmint")

    assert (done.exit_code, list(tmp_path.iterdir())) == (2, [])
    assert f"`{name}`" in done.output
