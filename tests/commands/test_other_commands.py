"""`explain`, `packs`, `parts`, `owners`: output and exit statuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import rigmint.commands.explain
import rigmint.commands.packs
from rigmint.commands import main
from rigmint.library.faults import Fault
from rigmint.lint.packs import PackSet
from tests.report.results import make_packs

BROKEN = Fault("kestrel-house", 1, 1, "pack:broken", "it cannot be imported")
LIBRARY = "rigmint_library: 1\ntitle: Kestrel Hire\nparts: [parts]\n"
CONNECTORS = """\
rigmint_connectors: 1
connectors:
  kestrel-2: {name: Two-pin of the house, contacts: [1, 2], latches: yes}
"""
PARTS = """\
parts:
- rigmint_part: 1
  id: kestrel/lamp
  name: Lamp on board
  kind: light
  ports:
    dc_in: {connector: kestrel-2, sex: socket, pins: {1: minus, 2: plus}, works: 11 to 17 V}
- {rigmint_part: 1, id: kestrel/strap, name: Strap, kind: accessory}
- rigmint_part: 1
  id: kestrel/camera
  name: Camera
  kind: camera
  controls: {button: {sends: trigger, axis: record}}
  moves: {run: {axis: record, takes: [trigger]}}
  passes: [{from: button, to: run}]
"""
RIG = """\
rigmint: 1
rig: Saltmarsh
kit: {camera: kestrel/camera}
crew: {operator: [camera]}
setups: {two_up: {who: {record: operator}}, solo: {}}
"""


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments))


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A library of three parts and a rig of one, as the working folder."""
    (tmp_path / "parts").mkdir()
    (tmp_path / "rigmint.yaml").write_text(LIBRARY, encoding="utf-8")
    (tmp_path / "parts" / "house.connectors.yaml").write_text(CONNECTORS, encoding="utf-8")
    (tmp_path / "parts" / "house.part.yaml").write_text(PARTS, encoding="utf-8")
    (tmp_path / "saltmarsh.rig.yaml").write_text(RIG, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def packs(monkeypatch: pytest.MonkeyPatch) -> PackSet:
    """Two packs in memory."""
    packs = make_packs()
    for module in (rigmint.commands.explain, rigmint.commands.packs):
        monkeypatch.setattr(module, "load_packs", lambda: packs)
    return packs


@pytest.mark.usefixtures("packs")
@pytest.mark.parametrize(
    ("code", "start"),
    [
        ("voltage:over", "voltage:over                                         pack voltage 0.1.0\n"),
        ("file:anchor", "file:anchor                                          rigmint itself\n"),
        ("accepted:expired", "accepted:expired                                     rigmint itself\n"),
    ],
)
def test_explain(code: str, start: str) -> None:
    result = run("explain", code)

    assert (result.exit_code, result.stdout[: len(start)]) == (0, start)


@pytest.mark.usefixtures("packs")
@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("voltage:ovr", "there is no code `voltage:ovr`: did you mean `voltage:over`?"),
        ("file:ancor", "there is no code `file:ancor`: did you mean `file:anchor`?"),
        ("voltage", "`voltage` is a family; its codes are voltage:over, voltage:shock"),
        (
            "\x1b[2Jzzz",
            "there is no code `\\x1b[2Jzzz`: `rigmint packs` lists the codes; those of a library's own checks",
        ),
    ],
)
def test_explain_of_an_unknown_code_suggests(code: str, words: str) -> None:
    result = run("explain", code)

    assert (result.exit_code, result.stdout) == (2, "")
    assert words in result.stderr


def test_explain_says_which_packs_could_not_be_used(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rigmint.commands.explain, "load_packs", lambda: make_packs(BROKEN))
    result = run("explain", "kestrel:sleeves")

    assert result.exit_code == 2
    assert "These packs could not be used: kestrel-house." in result.stderr


@pytest.mark.parametrize(
    ("packs", "status", "last"),
    [
        (make_packs(), 0, "2 packs, 3 rules."),
        (PackSet((), ()), 0, "No pack is installed."),
        (make_packs(BROKEN), 2, "2 packs, 3 rules."),
    ],
)
def test_packs(monkeypatch: pytest.MonkeyPatch, packs: PackSet, status: int, last: str) -> None:
    monkeypatch.setattr(rigmint.commands.packs, "load_packs", lambda: packs)
    result = run("packs")

    assert (result.exit_code, result.stdout.splitlines()[-1]) == (status, last)


@pytest.mark.usefixtures("house")
@pytest.mark.parametrize(
    ("words", "found"),
    [
        (["kestrel/lamp"], ["kestrel/lamp"]),
        (["LAMP", "board"], ["kestrel/lamp"]),
        (["kestrel", "accessory"], ["kestrel/strap"]),
        (["kestrel-2"], ["kestrel/lamp"]),
        (["two-pin of the house"], ["kestrel/lamp"]),
        (["kestrel/"], ["kestrel/camera", "kestrel/lamp", "kestrel/strap"]),
        (["lamp", "strap"], []),
    ],
)
def test_parts_search(words: list[str], found: list[str]) -> None:
    result = run("parts", *words)
    ids = [line.split()[0] for line in result.stdout.splitlines() if line.startswith("kestrel/")]

    assert (result.exit_code, ids) == (0, found)


@pytest.mark.usefixtures("house")
@pytest.mark.parametrize(
    ("word", "said"),
    [("qqq\x07", "`qqq\\x07`."), ("kestel", "`kestel`: did you mean `kestrel`?")],
)
def test_parts_says_that_nothing_was_found(word: str, said: str) -> None:
    result = run("parts", word)

    assert (result.exit_code, result.stdout) == (0, f"No part of the catalogue holds {said}\n")


def test_parts_with_a_broken_file_shows_the_others_and_is_status_2(house: Path) -> None:
    (house / "parts" / "broken.part.yaml").write_text(
        "{rigmint_part: 1, id: kestrel/odd, name: Odd, kind: light, colour: red}", encoding="utf-8"
    )
    result = run("parts", "kestrel/lamp")

    assert result.exit_code == 2
    assert result.stdout.startswith("kestrel/lamp   Lamp on board\n")
    assert "parts/broken.part.yaml" in result.stderr


@pytest.mark.usefixtures("house")
def test_owners_of_every_setup_and_of_one() -> None:
    every = run("owners", "saltmarsh.rig.yaml")
    one = run("owners", "saltmarsh.rig.yaml", "--setup", "solo", "--as", "json")
    shown = json.loads(one.stdout)

    assert (every.exit_code, one.exit_code) == (0, 0)
    assert every.stdout.splitlines()[0] == "saltmarsh.rig.yaml   who has what, 2 setups"
    assert every.stdout.splitlines()[3].split() == ["record", "operator", "operator"]
    assert (shown["file"], list(shown["setups"])) == ("saltmarsh.rig.yaml", ["solo"])
    assert shown["setups"]["solo"]["record"]["claims"][0]["control"] == "camera.button"


@pytest.mark.usefixtures("house")
def test_owners_of_an_unknown_setup() -> None:
    result = run("owners", "saltmarsh.rig.yaml", "--setup", "sollo")

    assert (result.exit_code, result.stdout) == (2, "")
    assert "the rig has no setup `sollo`: did you mean `solo`?" in result.stderr


@pytest.mark.parametrize("form", ["text", "json"])
def test_owners_of_a_rig_that_cannot_be_read(house: Path, form: str) -> None:
    (house / "saltmarsh.rig.yaml").write_text(RIG.replace("kestrel/camera", "kestrel/camra"), encoding="utf-8")
    result = run("owners", "saltmarsh.rig.yaml", "--as", form)

    assert result.exit_code == 2
    if form == "json":
        (fault,) = json.loads(result.stdout)["unread"]
        assert (fault["code"], fault["line"]) == ("file:unknown-name", 3)
    else:
        assert result.stdout.startswith("saltmarsh.rig.yaml\n\nunread file:unknown-name")


def test_owners_of_a_file_that_is_not_there(house: Path) -> None:
    result = run("owners", str(house / "nothing.rig.yaml"), "--as", "json")

    assert result.exit_code == 2
    assert json.loads(result.stdout)["unread"][0]["code"] == "file:unreadable"


def test_owners_says_what_is_wrong_with_the_library_and_goes_on(house: Path) -> None:
    (house / "rigmint.yaml").write_text(LIBRARY.replace("[parts]", "[parts, gone]"), encoding="utf-8")
    result = run("owners", "saltmarsh.rig.yaml", "--as", "json")

    assert result.exit_code == 0
    assert json.loads(result.stdout)["setups"]
    assert "`parts:` names the folder gone" in result.stderr
