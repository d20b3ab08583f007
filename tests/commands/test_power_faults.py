"""`power --faults`: by text and by JSON, and only where it is asked for."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner

from rigmint.commands import main

RIG = str(Path(__file__).resolve().parents[2] / "examples" / "rigs" / "saltmarsh-two-up.rig.yaml")


def run(*arguments: str) -> str:
    result = CliRunner().invoke(main, ["power", RIG, *arguments])
    assert result.exit_code == 0, result.output
    return result.output


def test_the_text_says_what_goes_what_stays_and_what_comes_after() -> None:
    text = run("--faults", "--setup", "two_up")

    block = next(part for part in text.split("\n\n") if part.startswith("P2 out"))
    assert "without power: camera" in block
    assert "stays: head" in block
    assert "set desk.lens_control to off again" in text
    assert max(len(line) for line in text.splitlines()) <= 100


def test_json_has_each_fault_once_beside_the_rest() -> None:
    setups = json.loads(run("--faults", "--as", "json"))["setups"]

    for setup in setups.values():
        keys = [(one["kind"], one["at"], one["conductor"]) for one in setup["faults"]]
        assert len(keys) == len(set(keys))
        assert {"full", "typical", "change", "runtime", "change_volts"} <= set(setup)
    (p2,) = (one for one in setups["two_up"]["faults"] if (one["kind"], one["at"]) == ("lead-out", "P2"))
    assert p2["down"] == ["camera"]
    assert {"flow": "picture", "item": "mon_op"} in p2["flows"]


def test_without_the_option_there_are_none() -> None:
    assert all("faults" not in setup for setup in json.loads(run("--as", "json"))["setups"].values())
