"""Each check of part files: a part that shows the fault, the same put right, and one that looks like it and is fine."""

from __future__ import annotations

import json
from pathlib import Path
from typing import NamedTuple

import pytest
from click.testing import CliRunner

from rigmint.commands import main
from rigmint.lint.part_codes import PART_CODES
from rigmint.lint.parts.check_parts import check_part_files
from rigmint.lint.results import Report

HEAD = "rigmint_part: 1\nid: fern/one\nname: One\nmass: 300 g\n"
INPUT = "{connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, rail: main, role: in, works: 11 to 17 V}"
TAP = "{connector: d-tap, sex: socket, pins: {1: plus, 2: minus}, rail: main, role: out"
PACK = "cells: {pack: {rail: main, volts: 12 to 16.8 V, nominal: 14.4 V, energy: 98 Wh, chemistry: li-ion-4s}}\n"
USB = "{connector: usb-c, sex: socket, rail: main, role: out, pins: "
WHEEL = (
    "kind: hand_unit\ncontrols: {wheel: {sends: absolute, axis: focus}}\nradios: {air: {speaks: [lens-air]}}\npasses:\n"
)


def monitor(works: str = "11 to 17 V", survives: str = "-0.3 to 18 V", load: str = "8 W", more: str = "") -> str:
    """A monitor with one input; the port is on line 7, the rail's load on line 9."""
    port = f"{{connector: 0b-2, sex: socket, pins: {{1: minus, 2: plus}}, rail: main, role: in, works: {works}"
    ports = f"ports:\n  dc: {port}, survives: {survives}, max: 2 A}}\n"
    return f"kind: monitor\n{ports}rails:\n  main: {{load: {load}{more}}}\n"


def regulator(bridge: str, out: str = "", load: str = "1 W") -> str:
    """A regulator from 11 to 17 V to a rail of its own; the outlet is on line 8, the bridge on line 11."""
    outlet = f"{{connector: usb-a, sex: socket, pins: power, rail: five, role: out{out}}}"
    ports = f"ports:\n  dc: {INPUT}\n  usb: {outlet}\n"
    return f"kind: regulator\n{ports}rails: {{main: {{}}, five: {{load: {load}}}}}\nbridges:\n  - {{from: main, {bridge}}}\n"


def battery(ports: str, pack: str = PACK) -> str:
    """A battery; the port is on line 7, the cell on line 8."""
    return f"kind: battery\nports:\n  out: {ports}\n{pack}"


def lead(conductors: str) -> str:
    """A lead from a tap to a 4-pin; the conductors are on line 8."""
    ends = "ends: {a: {connector: d-tap, sex: plug}, b: {connector: xlr4, sex: socket}}\n"
    return f"kind: lead\nlength: 40 cm\n{ends}conductors: [{conductors}]\n"


def driver(drive: str, speaks: str = "motor-drive") -> str:
    """A driver with one motor socket."""
    pins = "lens-motor" if speaks == "motor-drive" else "{1: can_h, 2: can_l}"
    motor = f"motor: {{connector: 1b-7, sex: socket, pins: {pins}, speaks: [{speaks}]}}"
    source = "radios: {air: {speaks: [lens-air]}}\npasses: [{from: air, to: motor, axes: focus}]\n"
    return f"kind: motor_driver\nports: {{{motor}}}\n{source}{drive}"


class Case(NamedTuple):
    """Bodies of a part file below its first four lines, and the line of the one fault."""

    code: str
    line: int
    fault: str
    right: str
    alike: str


CASES = (
    Case(
        "part:windows",
        7,
        monitor("7 to 24 V", "-0.3 to 17 V", "2 W"),
        monitor("7 to 24 V", "-0.3 to 26 V", "2 W"),
        monitor("7 to 24 V", "-0.3 to 24 V", "2 W"),
    ),
    Case(
        "part:windows",
        8,
        regulator("to: five, by: regulator, out: 5 V", ", works: 11 to 13 V"),
        regulator("to: five, by: regulator, out: 5 V", ", works: 4.8 to 5.3 V"),
        regulator("to: five, by: regulator, out: 5 V"),
    ),
    Case(
        "part:windows",
        7,
        battery(f"{TAP}, survives: -0.3 to 15 V}}"),
        battery(f"{TAP}, survives: -0.3 to 20 V}}"),
        battery(f"{TAP}, survives: -0.3 to 16.8 V}}"),
    ),
    Case("part:figures", 9, monitor(more=", peak: 6 W"), monitor(more=", peak: 12 W"), monitor(more=", peak: 8 W")),
    Case(
        "part:figures",
        8,
        battery(f"{TAP}}}", PACK.replace("14.4 V", "28.8 V")),
        battery(f"{TAP}}}"),
        battery(f"{TAP}}}", PACK.replace("14.4 V", "16.8 V")),
    ),
    Case(
        "part:figures",
        6,
        "kind: accessory\npayload: {min: 3 kg, max: 500 g}\n",
        "kind: accessory\npayload: {min: 500 g, max: 3 kg}\n",
        "kind: accessory\npayload: {min: 500 g}\n",
    ),
    Case(
        "part:over-rating",
        7,
        battery(f"{TAP}, max: 25 A}}"),
        battery(f"{TAP}, max: 8 A}}"),
        battery(f"{TAP}, max: 10 A}}"),
    ),
    Case(
        "part:regulator",
        11,
        regulator("to: five, by: regulator, out: 24 V"),
        regulator("to: five, by: regulator, out: 24 V, lifts: true"),
        regulator("to: five, by: regulator, out: 11 V"),
    ),
    Case(
        "part:regulator",
        11,
        regulator("to: five, by: regulator, out: 5 V, max: 1 A", load="8 W"),
        regulator("to: five, by: regulator, out: 5 V, max: 2 A", load="8 W"),
        regulator("to: five, by: regulator, out: 5 V, max: 2 A", load="10 W"),
    ),
    Case(
        "part:rail-unfed",
        8,
        f"kind: plate\nports: {{usb: {USB}power}}}}\nrails:\n  main: {{load: 1 W}}\n",
        f"kind: plate\nports: {{usb: {USB}power}}, dc: {INPUT}}}\nrails:\n  main: {{load: 1 W}}\n",
        f"kind: plate\nports: {{dc: {INPUT}}}\nrails:\n  main: {{}}\n  spare: {{}}\n",
    ),
    Case("part:load", 7, monitor(load="40 W"), monitor(load="20 W"), monitor(load="22 W")),
    Case(
        "part:no-pin-out",
        7,
        monitor().replace("pins: {1: minus, 2: plus}, ", ""),
        monitor(),
        monitor().replace("pins: {1: minus, 2: plus}", "pins: plus-first"),
    ),
    Case(
        "part:pin-out",
        7,
        battery(f"{TAP}}}".replace("1: plus, 2: minus", "1: minus, 2: plus")),
        battery(f"{TAP}}}"),
        battery(f"{TAP}}}".replace("d-tap", "0b-2").replace("1: plus, 2: minus", "1: minus, 2: plus")),
    ),
    Case(
        "part:no-wire",
        7,
        battery(f"{TAP}, speaks: [usb-pd], offers: [9 V]}}"),
        battery(f"{TAP}}}"),
        battery(f"{USB}power-delivery, speaks: [usb-pd], offers: [9 V]}}"),
    ),
    Case(
        "part:usb-power",
        7,
        battery(f"{USB}power-delivery, offers: [9 V]}}"),
        battery(f"{USB}power-delivery, speaks: [usb-pd], offers: [9 V]}}"),
        battery(f"{USB}power}}"),
    ),
    Case("part:cell", 1, battery(f"{TAP}, role: in}}".replace("role: out, ", ""), ""), battery(f"{TAP}}}"), monitor()),
    Case(
        "part:lead-short",
        8,
        lead("{from: a.1, to: b.4, gauge: 18 AWG}, {from: a.2, to: a.1, gauge: 18 AWG}"),
        lead("{from: a.1, to: b.4, gauge: 18 AWG}, {from: a.2, to: b.1, gauge: 18 AWG}"),
        lead(
            "{from: a.1, to: b.1, gauge: 18 AWG}, {from: a.2, to: b.4, gauge: 18 AWG}"
        ),  # some 4-pins are the other way
    ),
    Case(
        "part:control-nowhere",
        6,
        f"{WHEEL}  []\n",
        f"{WHEEL}  - {{from: wheel, to: air, axes: focus}}\n",
        f"{WHEEL}  - {{from: wheel, to: air}}\n",
    ),
    Case(
        "part:pass-nowhere",
        10,
        f"{WHEEL}  - {{from: wheel, to: air, axes: focus}}\n  - {{from: wheel, to: air, axes: iris}}\n",
        f"{WHEEL}  - {{from: wheel, to: air, axes: focus}}\n",
        f"{WHEEL}  - {{from: wheel, to: air, axes: focus}}\n  - {{from: air, to: wheel}}\n",
    ),
    Case(
        "part:mute-port",
        6,
        "kind: sender\nradios: {air: {speaks: [lens-air]}}\n",
        f"{WHEEL}  - {{from: wheel, to: air, axes: focus}}\n",
        "kind: sender\n",
    ),
    Case(
        "part:head",
        1,
        "kind: head\n",
        "kind: head\ncontrols: {button: {sends: trigger, axis: mode}}\nmoves: {switch: {axis: mode}}\npasses: [{from: button, to: switch}]\n",
        "kind: carrier\n",
    ),
    Case("part:calibration", 1, driver(""), driver("drive: {calibrates: never}\n"), "kind: motor_driver\n"),
    Case(
        "part:calibration",
        6,
        "kind: lens_motor\ndrive: {torque: 0.3 N*m}\n",
        "kind: lens_motor\ndrive: {torque: 0.3 N*m, calibration: 0.1 N*m}\n",
        "kind: lens_motor\ndrive: {torque: 0.3 N*m, calibrates: never}\n",
    ),
)
NO_MASS = HEAD.replace("mass: 300 g\n", "")


def check(folder: Path, text: str, name: str = "one.part.yaml") -> Report:
    """The report on one part file, without a library."""
    (folder / name).write_text(text, encoding="utf-8")
    return check_part_files([folder / name], library=None, installed=False, today="2026-05-02")


def list_found(report: Report) -> list[tuple[str, int]]:
    """Code and line of each finding; everything must have been read."""
    assert [fault.says for file in report.files for fault in file.unread] == []
    assert report.unread == ()

    return [(one.code, one.position.line) for file in report.files for one in file.findings]


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.code}-{case.line}")
def test_each_check_shows_its_fault_and_is_silent_otherwise(tmp_path: Path, case: Case) -> None:
    found = [list_found(check(tmp_path, HEAD + body)) for body in (case.fault, case.right, case.alike)]

    assert found == [[(case.code, case.line)], [], []]


def test_mass_is_asked_of_what_rides(tmp_path: Path) -> None:
    bodies = (f"{NO_MASS}kind: cage\n", f"{HEAD}kind: cage\n", f"{NO_MASS}kind: cage\nrides: away\n")
    found = [list_found(check(tmp_path, body)) for body in bodies]

    assert found == [[("part:mass", 1)], [], []]


def test_every_code_has_a_case() -> None:
    assert {case.code for case in CASES} | {"part:mass"} == {code for code, *_ in PART_CODES}


def test_what_is_inherited_is_told_once_in_the_part_that_states_it(tmp_path: Path) -> None:
    entry = "- {rigmint_part: 1, id: fern/one, name: One, kind: lens_motor, drive: {torque: 0.3 N*m}}\n"
    other = "- {rigmint_part: 1, id: fern/two, name: Two, kind: lens_motor, like: fern/one}\n"
    report = check(tmp_path, f"parts:\n{entry}{other}")
    found = [(one.code, one.position.line, one.also) for one in report.files[0].findings]

    assert found == [("part:calibration", 2, ("fern/two",)), ("part:mass", 2, ("fern/two",))]


def test_the_installed_catalogue_and_the_example_library_pass() -> None:
    examples = Path(__file__).parents[2] / "examples"
    reports = [
        check_part_files([], library=None, installed=True, today=""),
        check_part_files([examples / "parts"], library=None, installed=False, today=""),
    ]

    assert [list_found(report) for report in reports] == [[], []]
    assert all(sum(file.parts or 0 for file in report.files) > 10 for report in reports)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "file:"),
        ("parts: [1, {id: 7}, null]\n", "file:"),
        ("rigmint_part: 1\nid: fern/one\nname: One\nkind: lens\nlike: fern/one\n", "file:circle"),
        (HEAD + "kind: head\nports: [1]\nrails: 7\n", "file:"),
        ("a: [\n", "file:"),
        ("\x00\x01", "file:"),
    ],
)
def test_a_damaged_file_gives_faults_and_status_2(tmp_path: Path, text: str, code: str) -> None:
    report = check(tmp_path, text)
    faults = [*report.unread, *(fault for file in report.files for fault in file.unread)]

    assert faults
    assert all(fault.code.startswith(code) for fault in faults)
    assert report.status(strict=False) == 2


@pytest.mark.parametrize(("body", "status"), [("kind: cage\n", 0), ("kind: head\n", 0), (CASES[0].fault, 1)])
def test_command_forms_and_status(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, body: str, status: int) -> None:
    monkeypatch.chdir(tmp_path)
    Path("one.part.yaml").write_text(HEAD + body, encoding="utf-8")
    text, shown, sarif = (
        CliRunner().invoke(main, ["parts", "check", "one.part.yaml", "--as", form])
        for form in ("text", "json", "sarif")
    )
    found = [(one["code"], one["line"]) for one in json.loads(shown.stdout)["files"][0]["findings"]]
    results = json.loads(sarif.stdout)["runs"][0]["results"]

    assert [one.exit_code for one in (text, shown, sarif)] == [status] * 3
    assert [one["ruleId"] for one in results] == [code for code, _ in found]
    assert all(f"{code} " in text.stdout and f"line {line}" in text.stdout for code, line in found)


def test_without_a_library_it_says_what_to_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    result = CliRunner().invoke(main, ["parts", "check"])

    assert (result.exit_code, "--installed" in result.stdout) == (2, True)
