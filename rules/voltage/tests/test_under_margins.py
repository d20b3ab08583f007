"""`voltage:under`: how much is too little, by the class of the feed, and what the remedies that it prints really give."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from rigmint import Grade
from rigmint.commands import main
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

CODE = "voltage:under"
FED = """\
rigmint: 1
rig: Saltmarsh, a box on the mains
kit:
  mains: house/supply  # here
  box: house/box
leads: {P1: {part: house/lead, from: mains.out, to: box.dc_in}}
"""
TRUNK = """\
rigmint: 1
rig: Saltmarsh, lamp and camera behind one trunk
kit:
  mains: house/supply
  breakout: house/breakout
  camera: house/box
  lamp: house/lamp
leads:
  P0: {part: house/lead, from: mains.out, to: breakout.in, length: 6 m}  # here
  P1: {part: house/lead, from: breakout.out_1, to: camera.dc_in}
  P2: {part: house/lead, from: breakout.out_2, to: lamp.dc_in}
"""


def write_parts(volts: float, works: float, connector: str = "0b-2", pins: str = "minus-first") -> str:
    """A stiff supply of one voltage with two outputs, a box that works from some volts, a breakout, a lamp."""
    port = f"connector: {connector}, sex: socket, pins: {pins}"
    plus, minus = ("vbus", "gnd") if connector == "usb-a" else ("2", "1")
    return f"""
parts:
  - rigmint_part: 1
    id: house/supply
    kind: supply
    ports:
      out: {{{port}, role: out, survives: -0.3 to 40 V}}
      out_2: {{{port}, role: out, survives: -0.3 to 40 V}}
    cells: {{supply: {{rail: main, volts: {volts} to {volts} V, nominal: {volts} V, resistance: 1 mohm, trips: 30 A}}}}
  - rigmint_part: 1
    id: house/box
    kind: camera
    ports: {{dc_in: {{{port}, role: in, works: {works} to 36 V, survives: -0.3 to 40 V}}}}
    rails: {{main: {{load: 2 W, peak: 2 W}}}}
  - rigmint_part: 1
    id: house/lamp
    kind: light
    ports: {{dc_in: {{{port}, role: in, works: 5 to 36 V, survives: -0.3 to 40 V}}}}
    rails: {{main: {{load: 60 W, peak: 60 W}}}}
  - rigmint_part: 1
    id: house/breakout
    kind: breakout
    ports:
      in: {{{port}, role: in, works: 5 to 36 V, survives: -40 to 40 V}}
      out_1: {{{port}, role: out, survives: -40 to 40 V}}
      out_2: {{{port}, role: out, survives: -40 to 40 V}}
    rails: {{main: {{}}}}
  - rigmint_part: 1
    id: house/lead
    kind: lead
    length: 30 cm
    ends: {{a: {{connector: {connector}, sex: plug}}, b: {{connector: {connector}, sex: plug}}}}
    conductors: [{{from: a.{plus}, to: b.{plus}, gauge: 20 AWG}}, {{from: a.{minus}, to: b.{minus}, gauge: 20 AWG}}]
"""


@pytest.mark.parametrize(
    ("volts", "works", "connector", "pins"),
    [
        (14.0, 13.6, "0b-2", "minus-first"),  # 0.4 V left of 12 V class
        (24.0, 23.2, "0b-2", "minus-first"),  # 0.8 V left of 24 V class
        (5.0, 4.85, "usb-a", "power"),  # 0.15 V left, and 5 % of 4.85 V are 0.24 V
    ],
)
def test_is_thin_with_too_little_left(volts: float, works: float, connector: str, pins: str) -> None:
    parts = write_parts(volts, works, connector, pins)

    finding = assert_finds(
        check_text(FED, parts), CODE, line=find_line(FED), at="box.dc_in", cause="mains", grade=Grade.THIN
    )
    assert "little above the" in finding.says


@pytest.mark.parametrize(
    ("volts", "works", "connector", "pins"),
    [
        (14.0, 13.4, "0b-2", "minus-first"),
        (24.0, 22.9, "0b-2", "minus-first"),
        (5.0, 4.7, "usb-a", "power"),
    ],
)
def test_is_silent_with_enough_left(volts: float, works: float, connector: str, pins: str) -> None:
    assert_silent(check_text(FED, write_parts(volts, works, connector, pins)), CODE)


def test_remedies_cure_and_give_the_volts_that_they_print(tmp_path: Path) -> None:
    """Each remedy is carried out in the rig file, checked, and `rigmint power` asked what the camera gets then."""
    parts = write_parts(14.0, 12.9)
    finding = assert_finds(
        check_text(TRUNK, parts), CODE, line=find_line(TRUNK), at="camera.dc_in", cause="P0", grade=Grade.DEAD
    )
    carried_out = {
        "Plug P2 into mains.out_2, a tap of its own": edit_text(TRUNK, ("breakout.out_2", "mains.out_2")),
        "Use a P0 of 14 AWG": edit_text(TRUNK, ("P0: {part: house/lead,", "P0: {part: house/lead-thick,")),
        "Use a P0 of 150 cm": edit_text(TRUNK, ("length: 6 m", "length: 150 cm")),
    }
    thick = parts[parts.index("  - rigmint_part: 1\n    id: house/lead\n") :].replace("house/lead", "house/lead-thick")
    all_parts = parts + thick.replace("20 AWG", "14 AWG")
    seen = []
    for fix in finding.fixes:
        says, volts = _read_remedy(fix.says)
        seen.append(says)
        given = _ask_volts(carried_out[says], all_parts, tmp_path / f"{len(seen)}")
        assert_silent(check_text(carried_out[says], all_parts), CODE)
        assert volts == pytest.approx(given, abs=0.11)

    assert seen == list(carried_out)


def test_offers_no_lead_that_does_not_cure() -> None:
    """At 13.6 V of 14 V no trunk of this length is thick enough, and none is short enough: only the tap is offered."""
    finding = assert_finds(
        check_text(TRUNK, write_parts(14.0, 13.35)), CODE, line=find_line(TRUNK), at="camera.dc_in", cause="P0"
    )

    assert [fix.says.partition(":")[0] for fix in finding.fixes] == ["Plug P2 into mains.out_2, a tap of its own"]


def _read_remedy(says: str) -> tuple[str, float]:
    found = re.fullmatch(r"(.*): camera\.dc_in then gets ([0-9.]+) V\.", says)
    assert found is not None, says
    return found[1], float(found[2])


def _ask_volts(rig: str, parts: str, folder: Path) -> float:
    (folder / "parts").mkdir(parents=True)
    (folder / "rigmint.yaml").write_text("rigmint_library: 1\nparts: [parts]\n", encoding="utf-8")
    (folder / "parts" / "all.part.yaml").write_text(parts, encoding="utf-8")
    (folder / "x.rig.yaml").write_text(rig, encoding="utf-8")
    result = CliRunner().invoke(main, ["power", "--as", "json", "--plain", str(folder / "x.rig.yaml")])
    assert result.exit_code == 0, result.output
    return float(json.loads(result.stdout)["setups"]["as_wired"]["typical"]["ports"]["camera.dc_in"]["volts"])
