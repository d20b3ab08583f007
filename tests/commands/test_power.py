"""`rigmint power`: output, options and exit statuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from rigmint.commands import main
from rigmint.physics.circuit import SolveFailed
from rigmint.study import studies

LIBRARY = "rigmint_library: 1\ntitle: Kestrel Hire\nparts: [parts]\n"
PARTS = """\
parts:
- rigmint_part: 1
  id: kestrel/pack
  name: Pack
  kind: battery
  cells: {pack: {volts: 12.0 to 16.8 V, resistance: 80 mohm, energy: 98 Wh, max: 10 A}}
  ports: {out: {connector: 0b-2, pins: {1: plus, 2: minus}}}
- rigmint_part: 1
  id: kestrel/camera
  name: Camera
  kind: camera
  rails: {main: {load: 40 W}}
  ports: {dc_in: {connector: 0b-2, pins: {1: plus, 2: minus}, works: 11 to 17 V}}
"""
RIG = """\
rigmint: 1
rig: Saltmarsh
kit: {pack: kestrel/pack, camera: kestrel/camera}
leads: {P1: pack.out > camera.dc_in}
setups: {two_up: {}, solo: {off: [camera]}}
"""


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["power", *arguments])


@pytest.fixture(autouse=True)
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A library of two parts and a rig, as the working folder."""
    (tmp_path / "parts").mkdir()
    (tmp_path / "rigmint.yaml").write_text(LIBRARY, encoding="utf-8")
    (tmp_path / "parts" / "house.part.yaml").write_text(PARTS, encoding="utf-8")
    (tmp_path / "saltmarsh.rig.yaml").write_text(RIG, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_text_of_every_setup() -> None:
    result = run("saltmarsh.rig.yaml")
    lines = result.stdout.splitlines()

    assert (result.exit_code, result.stderr) == (0, "")
    assert lines[0] == "saltmarsh.rig.yaml   power, 2 setups"
    assert [line.split()[0] for line in lines if line.endswith("amps  lead")] == ["two_up", "solo"]
    assert lines[-1].endswith("qualified people.")


def test_json_of_one_setup() -> None:
    result = run("saltmarsh.rig.yaml", "--setup", "solo", "--as", "json")
    shown = json.loads(result.stdout)

    assert result.exit_code == 0
    assert (shown["file"], list(shown["setups"])) == ("saltmarsh.rig.yaml", ["solo"])
    assert shown["setups"]["solo"]["full"]["sources"]["pack.pack"]["volts"] == 16.8


def test_an_unknown_setup_is_wrong_usage() -> None:
    result = run("saltmarsh.rig.yaml", "--setup", "two-up")

    assert (result.exit_code, result.stdout) == (2, "")
    assert "the rig has no setup `two-up`: did you mean `two_up`?" in result.stderr


@pytest.mark.parametrize("form", ["text", "json"])
def test_a_rig_that_cannot_be_read(house: Path, form: str) -> None:
    (house / "saltmarsh.rig.yaml").write_text(RIG.replace("kestrel/camera", "kestrel/camra"), encoding="utf-8")
    result = run("saltmarsh.rig.yaml", "--as", form)

    assert result.exit_code == 2
    if form == "json":
        shown = json.loads(result.stdout)
        assert list(shown) == ["unread"]
        assert (shown["unread"][0]["code"], shown["unread"][0]["line"]) == ("file:unknown-name", 3)
    else:
        assert result.stdout.startswith("saltmarsh.rig.yaml\n\nunread file:unknown-name")


@pytest.mark.parametrize("form", ["text", "json"])
def test_a_solver_that_fails_gives_no_number(monkeypatch: pytest.MonkeyPatch, form: str) -> None:
    def fail(*_: object) -> None:
        msg = "it went round and round"
        raise SolveFailed(msg)

    monkeypatch.setattr(studies, "study_power", fail)
    result = run("saltmarsh.rig.yaml", "--setup", "two_up", "--as", form)

    assert result.exit_code == 2
    assert "it went round and round" in " ".join(result.stdout.split())
    if form == "json":
        shown = json.loads(result.stdout)
        assert [(list(shown), one["code"], one["file"]) for one in shown["unread"]] == [
            (["unread"], "study:failed", "saltmarsh.rig.yaml")
        ]
    else:
        assert result.stdout.startswith("saltmarsh.rig.yaml\n\nunread study:failed")
        assert "of its window" not in result.stdout


def test_out_writes_the_file_and_plain_keeps_it_ascii(house: Path) -> None:
    drawn, plain = (
        run("saltmarsh.rig.yaml", "--out", "drawn.txt"),
        run("saltmarsh.rig.yaml", "--out", "p.txt", "--plain"),
    )
    texts = [(house / name).read_text(encoding="utf-8") for name in ("drawn.txt", "p.txt")]

    assert [(one.exit_code, one.stdout) for one in (drawn, plain)] == [(0, "")] * 2
    assert "●" in texts[0]
    assert texts[1].isascii()
    assert texts[0].translate(str.maketrans("├─●┤", "[-o]")) == texts[1]


@pytest.mark.parametrize(("encoding", "is_drawn"), [("utf-8", True), ("latin-1", False), ("ascii", False)])
def test_bars_are_drawn_only_where_the_terminal_has_the_letters(encoding: str, is_drawn: bool) -> None:
    result = CliRunner(charset=encoding).invoke(main, ["power", "saltmarsh.rig.yaml"])

    assert result.exit_code == 0
    assert ("●".encode() in result.stdout_bytes) is is_drawn
    assert (b"o--" in result.stdout_bytes) is not is_drawn
    assert b"\\u25cf" not in result.stdout_bytes


def test_another_library(house: Path) -> None:
    (house / "other.yaml").write_text(LIBRARY + "power: {change_at: 30 %}\n", encoding="utf-8")
    result = run("saltmarsh.rig.yaml", "--library", "other.yaml")

    assert result.exit_code == 0
    assert "30 % left in the batteries" in result.stdout


def test_a_library_with_a_fault_is_named_and_the_rig_shown(house: Path) -> None:
    (house / "rigmint.yaml").write_text(LIBRARY.replace("[parts]", "[parts, gone]"), encoding="utf-8")
    result = run("saltmarsh.rig.yaml", "--as", "json")

    assert result.exit_code == 0
    assert json.loads(result.stdout)["setups"]
    assert "`parts:` names the folder gone" in result.stderr
