"""The contract of `power --as json`."""

from __future__ import annotations

import json
import math
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from rigmint.physics.circuit import BadCircuit, EnergyImbalance, SolveFailed
from rigmint.report.power_json import render_power_json
from rigmint.study import studies
from tests.report.power_rigs import SINGLE, TWO_SETUPS, make_report

ROOT = Path(__file__).parents[2]


def show(rig: str, *names: str) -> dict[str, Any]:
    """The object, read back."""
    found: dict[str, Any] = json.loads(render_power_json("0.1.0", make_report(rig, names)))
    return found


def test_every_key_of_the_contract_and_no_other() -> None:
    shown = show(SINGLE)
    setup = shown["setups"]["as_wired"]

    assert list(shown) == ["assumed", "file", "rigmint", "setups"]
    assert (shown["file"], shown["rigmint"], shown["assumed"]) == ("test.rig.yaml", "0.1.0", [])
    assert list(setup) == ["change", "change_volts", "full", "runtime", "typical"]
    for name in ("full", "typical", "change"):
        point = setup[name]
        assert list(point) == ["collapsed", "leads", "margin", "ports", "solved", "sources"]
        assert (point["solved"], point["collapsed"]) == (True, False)
        assert {place: list(port) for place, port in point["ports"].items()} == {
            place: ["amps", "volts", "watts"] for place in ("battery.out", "battery.out_2", "camera.dc_in")
        }
        assert {label: list(lead) for label, lead in point["leads"].items()} == {"P1": ["amps", "drop"]}
        assert {place: list(one) for place, one in point["sources"].items()} == {
            "battery.pack": ["amps", "volts", "watts"]
        }
    assert list(setup["runtime"]) == ["battery"]
    assert list(setup["change_volts"]) == ["camera.dc_in"]


def test_six_digits_by_hand() -> None:
    # 40 W behind 0.1 ohm, four contacts of 5 mohm and 2 x 0.5 m of 20 AWG (IACS, times 1.02): V = (E + sqrt(E2 - 4RP)) / 2
    diameter = 0.127e-3 * 92 ** ((36 - 20) / 39)
    wire = 2 * 0.5 / 58e6 / (math.pi * diameter**2 / 4) * 1.02
    ohms = 0.1 + 4 * 0.005 + wire
    volts = (16.8 + math.sqrt(16.8**2 - 4 * ohms * 40)) / 2
    point = show(SINGLE)["setups"]["as_wired"]["full"]

    assert point["ports"]["camera.dc_in"] == {
        "amps": float(f"{40 / volts:.6g}"),
        "volts": float(f"{volts:.6g}"),
        "watts": 40.0,
    }
    assert point["leads"]["P1"]["drop"] == float(f"{40 / volts * (wire + 4 * 0.005):.6g}")


def test_only_the_setups_asked_for_and_what_they_assume() -> None:
    both, dusk = show(TWO_SETUPS), show(TWO_SETUPS, "dusk")

    assert (list(both["setups"]), list(dusk["setups"])) == (["day", "dusk"], ["dusk"])
    assert both["assumed"] == [
        "lamp main peak",
        "spare.dc_in works",
        "spare main peak",
        "P3 conductors",
        "P3 length",
    ]


def test_a_battery_that_gives_no_current_has_no_runtime() -> None:
    setup = show(
        "kit: {battery: house/pack, spare: house/pack, camera: house/camera}\ndocks: [battery.out > camera.dc_in]"
    )

    assert setup["setups"]["as_wired"]["runtime"]["spare"] is None
    assert setup["setups"]["as_wired"]["runtime"]["battery"] > 0


def test_a_rig_without_sources() -> None:
    setup = show("kit: {camera: house/camera}")["setups"]["as_wired"]

    assert setup["full"]["ports"] == {"camera.dc_in": {"amps": 0.0, "volts": 0.0, "watts": 0.0}}
    assert (setup["full"]["sources"], setup["runtime"], setup["change_volts"]) == ({}, {}, {})


@pytest.mark.parametrize("error", [SolveFailed("no luck"), EnergyImbalance(1.0, 2.0), BadCircuit("no such element")])
def test_a_study_that_fails_is_a_fault_and_never_a_number(monkeypatch: pytest.MonkeyPatch, error: Exception) -> None:
    def fail(*_: object) -> None:
        raise error

    monkeypatch.setattr(studies, "study_power", fail)
    report = make_report(TWO_SETUPS)

    assert report.setups == {}
    assert [(fault.code, fault.file) for fault in report.failed] == [("study:failed", "test.rig.yaml")] * 2
    assert str(error) in report.failed[0].says
    assert "setup day" in report.failed[0].says


def test_the_same_bytes_whatever_the_hash_seed() -> None:
    program = """
from tests.report.power_rigs import *
from rigmint.report.power_json import render_power_json
from rigmint.report.power import render_power
from rigmint.report.style import Style
report = make_report(TWO_SETUPS)
print(render_power_json("0.1.0", report), render_power(report, Style()))
"""
    outputs = {
        subprocess.run(
            [sys.executable, "-c", program],
            capture_output=True,
            check=True,
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)},
        ).stdout
        for seed in ("1", "2")
    }

    assert len(outputs) == 1
