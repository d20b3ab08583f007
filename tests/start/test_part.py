"""`start part`: a part file from a kind, ports and watts, that the library reads without a fault."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from rigmint.commands import main
from rigmint.library.library_file import load_library
from rigmint.rig.part import Part
from rigmint.start.part_file import list_kinds

LIBRARY = "rigmint_library: 1\ntitle: Kestrel Hire\nparts: [parts]\n"


@pytest.fixture(autouse=True)
def _library(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "rigmint.yaml").write_text(LIBRARY, encoding="utf-8")
    (tmp_path / "parts").mkdir()
    monkeypatch.chdir(tmp_path)


def start(name: str, *words: str) -> Result:
    return CliRunner().invoke(main, ["start", "part", f"parts/{name}", *words, "--plain"])


def read_part(part_id: str) -> Part:
    """The part as the library reads it, which finds no fault in it."""
    catalogue = load_library(Path("rigmint.yaml")).catalogue
    part = catalogue.part(part_id)
    assert part is not None
    assert list(catalogue.faults_of(part_id)) == []
    return part


@pytest.mark.parametrize("kind", [kind for kind in list_kinds() if kind != "lead"])
def test_every_kind_is_read_without_a_fault(kind: str) -> None:
    result = start("thing", "--kind", kind, "--port", "dc_in=0b-2,11-17 V", "--port", "sdi=bnc", "--watts", "18")

    assert result.exit_code == 0, result.output
    part = read_part("kestrel/thing")
    assert part.kind == kind
    assert part.ports["dc_in"].works is not None
    assert (part.ports["dc_in"].works.low, part.ports["dc_in"].works.high) == (11.0, 17.0)


def test_five_lines_are_said() -> None:
    result = start("lamp", "--kind", "light", "--port", "dc_in=0b-2,in,11-17 V", "--watts", "18", "--mass", "250")
    text = Path("parts/lamp.part.yaml").read_text(encoding="utf-8")
    part = read_part("kestrel/lamp")

    assert "dc_in is taken to be wired minus-first, the commonest pin-out of 0b-2: meter it." in result.stdout
    assert "light: kestrel/lamp" in result.stdout
    assert "main: {load: 18 W}" in text
    assert part.mass == pytest.approx(0.25)
    assert part.name == "Lamp"


def test_a_lead_is_joined_by_what_its_ends_carry() -> None:
    result = start("tail", "--kind", "lead", "--port", "a=d-tap", "--port", "b=0b-2,plus-first")
    lead = read_part("kestrel/tail").lead

    assert result.exit_code == 0
    assert lead is not None
    assert [(one.source.contact, one.target.contact) for one in lead.conductors] == [("1", "1"), ("2", "2")]


def test_an_output_of_another_voltage_has_a_regulator() -> None:
    start("box", "--kind", "regulator", "--port", "dc_in=0b-2,in,11-17 V", "--port", "usb=usb-c,out,5 V")
    part = read_part("kestrel/box")

    assert part.ports["usb"].rail == "out_5v"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--kind", "spoon"), "`spoon` is no kind of part"),
        (("--port", "dc_in"), "a port is written NAME=CONNECTOR"),
        (("--port", "DC IN=0b-2"), "is no name for a port"),
        (("--port", "dc_in=0b-22"), "there is no connector `0b-22`: did you mean"),
        (("--port", "dc_in=0b-2,in,12 V"), "a window is due and not one value"),
        (("--port", "dc_in=0b-2,17-11 V"), "17 to 11 V"),
        (("--port", "dc_in=0b-2,upwards"), "`upwards` is no sex"),
        (("--port", "a=0b-2", "--port", "a=bnc"), "there are two ports `a`"),
        (("--port", "m=mount-54-lock,in"), "is a mount and carries no power"),
        (("--kind", "lead", "--port", "a=0b-2"), "a lead is begun with two ends"),
        (("--kind", "lead", "--port", "a=0b-2", "--port", "b=bnc"), "no usual pin-out joins 0b-2 and bnc"),
        (("--watts", "a lot"), "a lot"),
        (("--watts", "5 V"), "5 V"),
        (("--id", "generic/mine"), "is no id of a part of your own"),
        (("--id", "Mine"), "is no id of a part of your own"),
    ],
)
def test_what_makes_no_part_is_refused(words: tuple[str, ...], says: str) -> None:
    result = start("thing", *words)

    assert result.exit_code != 0
    assert says in result.output
    assert list(Path("parts").iterdir()) == []


def test_parts_prints_the_line_to_paste() -> None:
    start("lamp", "--kind", "light", "--port", "dc_in=0b-2,11-17 V")
    printed = {
        word: CliRunner().invoke(main, ["parts", word, "--plain"]).stdout
        for word in ("kestrel/lamp", "lead-range-finder", "loom-head-y", "lens-motor-strong")
    }

    assert "light: kestrel/lamp" in printed["kestrel/lamp"]
    assert "P1: {part: generic/lead-range-finder, from: ITEM.PORT, to: ITEM.PORT}" in printed["lead-range-finder"]
    assert "P1: {part: generic/loom-head-y, ends: {a: ITEM.PORT" in printed["loom-head-y"]
    assert "lens_motor: {part: generic/lens-motor-strong, set: {axis: focus}}" in printed["lens-motor-strong"]
