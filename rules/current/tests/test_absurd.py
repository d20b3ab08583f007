"""Zero, negative and absurd values, through the commands: findings or file errors, never NaN, never a traceback."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from rigmint.commands import main
from rigmint.testing import edit_text

from .parts import PARTS
from .rigs import HAND_HELD

BATTERY = "volts: 12.0 to 16.8 V, nominal: 14.4 V, resistance: 80 mohm, energy: 98 Wh, max: 10 A, trips: 15 A"
CAMERA = "{load: 36 W, peak: 40 W, start: 60 W}"
LEAD = "length: 40 cm\n    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}\n"
WIRES = "[{from: a.1, to: b.1, gauge: 18 AWG}, {from: a.2, to: b.2, gauge: 18 AWG}]"
READ = {
    "a peak below the load": (CAMERA, "{load: 36 W, peak: 1 W}"),
    "a megohm in the battery": (BATTERY, BATTERY.replace("80 mohm", "1000 kohm")),
    "a battery of one voltage": (
        BATTERY,
        BATTERY.replace("12.0 to 16.8 V, nominal: 14.4 V", "14.4 to 14.4 V, nominal: 14.4 V"),
    ),
    "hardly any energy": (BATTERY, BATTERY.replace("98 Wh", "0.000001 Wh")),
    "energy for years": (BATTERY, BATTERY.replace("98 Wh", "1000000 kWh")),
    "a gigawatt": (CAMERA, "{load: 1000000 kW}"),
    "a gigawatt at the peak": (CAMERA, "{load: 36 W, peak: 1000000 kW}"),
    "a million amps": (CAMERA, "{load: 1000000 A}"),
    "a micro-ohm": (CAMERA, "{load: 0.000001 ohm}"),
    "a teraohm": (CAMERA, "{load: 1000000000 kohm}"),
    "a lead to the moon": (LEAD, LEAD.replace("40 cm", "384400 km")),
    "a hair": (WIRES, WIRES.replace("18 AWG", "60 AWG")),
    "a bar": (WIRES, WIRES.replace("gauge: 18 AWG", "area: 100000 mm2")),
    "a window from nothing": ("works: 11 to 17 V, survives: -0.3 to 18 V", "works: 0 to 17 V, survives: -0.3 to 18 V"),
    "a window of no width": ("works: 11 to 17 V, survives: -0.3 to 18 V", "works: 14.4 to 14.4 V, survives: 0 to 18 V"),
}
REFUSED = {
    "no resistance in the battery": (BATTERY, BATTERY.replace("80 mohm", "0 ohm")),
    "a start of nothing": (CAMERA, "{load: 36 W, start: 0 W}"),
    "no load": (CAMERA, "{load: 0 W}"),
    "no amps": (CAMERA, "{load: 0 A}"),
    "a lead of no length": (LEAD, LEAD.replace("40 cm", "0 m")),
    "a wire without resistance": ("by: wire, fuse: {amps: 3 A, inside: true}", "by: wire, resistance: 0 ohm"),
    "watts below zero": (CAMERA, "{load: -5 W}"),
    "a resistance below zero": (BATTERY, BATTERY.replace("80 mohm", "-80 mohm")),
    "a range upside down": (BATTERY, BATTERY.replace("12.0 to 16.8 V", "16.8 to 12.0 V")),
    "no energy": (BATTERY, BATTERY.replace("98 Wh", "0 Wh")),
    "a load of no ohms": (CAMERA, "{load: 0 ohm}"),
    "a limit of nothing": (BATTERY, BATTERY.replace("max: 10 A", "max: 0 A")),
    "a length below zero": (LEAD, LEAD.replace("40 cm", "-40 cm")),
    "no copper": (WIRES, WIRES.replace("gauge: 18 AWG", "area: 0 mm2")),
    "not a number": (CAMERA, "{load: NaN W}"),
    "more than any number": (CAMERA, "{load: 1e400 W}"),
    "a fuse of nothing": ("amps: 3 A, inside: true", "amps: 0 A, inside: true"),
}
RIGS = {
    "a load with no source": "kit: {camera: house/camera}\n",
    "an island": HAND_HELD.partition("kit:\n")[2].join(["kit:\n  lamp: house/lamp\n  breakout: house/breakout\n", ""])
    + "  P9: {part: house/lead, from: breakout.out_1, to: lamp.dc_in}\n",
    "a battery straight across another": (
        "kit: {a: house/battery, b: house/vehicle, plate: house/plate}\n"
        "docks: [a.mount > plate.battery]\n"
        "leads: {V1: {part: house/lead-vehicle, from: b.studs, to: plate.out_1}}\n"
    ),
    "a supply across itself": (
        "kit: {plate: house/plate, a: house/battery}\n"
        "docks: [a.mount > plate.battery]\n"
        "leads:\n"
        "  X1:\n"
        "    ends: {a: plate.out_1, b: plate.out_2}\n"
        "    lead: {ends: {a: {connector: 0b-2}, b: {connector: 0b-2}},"
        " conductors: [{from: a.1, to: b.2}, {from: a.2, to: b.1}]}\n"
    ),
    "everything off": HAND_HELD.partition("kit:\n")[2].join(["kit:\n", ""])
    + "setups: {one: {off: [battery, plate, camera]}}\n",
    "nothing at all": "kit: {plate: house/plate}\n",
}
HEADER = "rigmint: 1\nrig: Saltmarsh\n"


def run_commands(rig: str, parts: str, folder: Path) -> tuple[int, dict[str, object], int]:
    """Exit status and JSON of `check`, and exit status of `power`; neither prints what is no number, nor crashes."""
    (folder / "parts").mkdir()
    (folder / "rigmint.yaml").write_text("rigmint_library: 1\nparts: [parts]\n", encoding="utf-8")
    (folder / "parts" / "all.part.yaml").write_text(parts, encoding="utf-8")
    path = folder / "absurd.rig.yaml"
    path.write_text(rig, encoding="utf-8")
    exits = {}
    for command in ("check", "power"):
        for form in ("json", "text"):
            result = CliRunner().invoke(main, [command, "--plain", "--as", form, str(path)])
            assert result.exception is None or isinstance(result.exception, SystemExit), result.exc_info
            printed = result.output.lower()
            assert not [
                word for word in ("nan", "infinity", "traceback", "crashed", "study:failed") if f" {word}" in printed
            ]
            exits[command] = result.exit_code
            if (command, form) == ("check", "json"):
                report: dict[str, object] = json.loads(result.stdout, parse_constant=_refuse_constant)
    return exits["check"], report, exits["power"]


def _refuse_constant(word: str) -> float:
    msg = f"{word} is no number"
    raise ValueError(msg)


@pytest.mark.parametrize("name", READ)
def test_values_that_can_be_are_judged(name: str, tmp_path: Path) -> None:
    status, report, power = run_commands(HAND_HELD, edit_text(PARTS, READ[name]), tmp_path)

    assert status in (0, 1), report
    assert power == 0


@pytest.mark.parametrize("name", REFUSED)
def test_values_that_cannot_be_are_faults_of_the_file(name: str, tmp_path: Path) -> None:
    rig = edit_text(HAND_HELD, ("plate: house/plate", "plate: house/plate-fused"))
    status, report, power = run_commands(rig, edit_text(PARTS, REFUSED[name]), tmp_path)

    assert (status, power) == (2, 2), report


@pytest.mark.parametrize("name", RIGS)
def test_rigs_that_hang_on_nothing_are_judged(name: str, tmp_path: Path) -> None:
    status, report, power = run_commands(HEADER + RIGS[name], PARTS, tmp_path)

    assert status in (0, 1), report
    assert power == 0


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("a gigawatt", "voltage:collapse"),
        ("a gigawatt at the peak", "voltage:collapse"),
        ("a lead to the moon", "voltage:collapse"),
        ("a million amps", "current:over"),
        ("a hair", "voltage:collapse"),
    ],
)
def test_absurd_values_are_named(name: str, code: str, tmp_path: Path) -> None:
    _, report, _ = run_commands(HAND_HELD, edit_text(PARTS, READ[name]), tmp_path)
    files = report["files"]
    assert isinstance(files, list)
    codes = {finding["code"] for finding in files[0]["findings"]}

    assert code in codes


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("a load with no source", "voltage:unpowered"),
        ("an island", "voltage:unpowered"),
        ("a battery straight across another", "backfeed:tied-sources"),
        ("a supply across itself", "polarity:shorted"),
    ],
)
def test_rigs_that_hang_on_nothing_are_named(name: str, code: str, tmp_path: Path) -> None:
    _, report, _ = run_commands(HEADER + RIGS[name], PARTS, tmp_path)
    files = report["files"]
    assert isinstance(files, list)

    assert code in {finding["code"] for finding in files[0]["findings"]}
