"""Sheets of example rigs and of a rig with hostile names, for the tests of the page."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import mkdtemp

from click.testing import CliRunner

from rigmint.commands import main

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
RIGS = sorted((EXAMPLES / "rigs").glob("*.rig.yaml"))
DAY = "2026-05-02"
HOSTILE = """\
rigmint: 1
rig: "</title><script>alert(1)</script> \\u202egnp.exe"
says: "<img src=x onerror=alert(2)> & \\"quoted\\" 'single'"
job: "{{ 7 * 7 }} {% raw %}"
on: hand
kit:
  battery: {part: generic/battery-98wh-wedge, asset: "<b>1</b>"}
  plate: generic/plate-wedge-two-tap
  lamp: {part: generic/light-on-board, asset: "\\U0001F3A5 camera"}
docks: [battery.mount > plate.battery]
leads:
  P1: {part: generic/lead-tap-to-2pin, from: plate.tap_1, to: lamp.dc_in}
crew: {operator: [lamp]}
marked: {P1: "\\u05d0\\u05d1\\u05d2 ]]> --> <!--"}
accepted:
  - {code: "runtime:short", at: battery, why: "</script><script>alert(3)</script>", by: "<u>x</u>", until: 2030-01-01}
setups:
  only: {says: "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaft and more of it"}
"""


@cache
def write_sheet(path: Path, *options: str) -> Path:
    """The sheet of a rig file, in a folder of its own."""
    out = Path(mkdtemp(prefix="rigmint-sheet-")) / "sheet.html"
    result = CliRunner().invoke(main, ["sheet", str(path), "--out", str(out), "--today", DAY, *options])
    assert result.exit_code == 0, result.output
    return out


@cache
def write_hostile_sheet() -> Path:
    """The sheet of the rig with hostile names."""
    path = Path(mkdtemp(prefix="rigmint-hostile-")) / "hostile.rig.yaml"
    path.write_text(HOSTILE, encoding="utf-8")
    return write_sheet(path)
