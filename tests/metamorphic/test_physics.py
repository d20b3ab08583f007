"""What must not get worse: more ohms behind a source, a source taken out; and what must not matter: language and place."""

from __future__ import annotations

import os
import random
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.presence import Presence
from rigmint.library.build_rig import read_rig
from rigmint.library.library_file import load_library
from rigmint.physics.circuit import Cell, Circuit, Load, LoadKind, Resistor, solve
from rigmint.rig.rig import Rig
from rigmint.study.powering import without_item
from rigmint.study.worst_volts import WorstVolts, study_worst_volts
from tests.builders import make_rig
from tests.counts import TRIED
from tests.hostile.program import COMMAND, make_environment
from tests.power.random_rigs import write_rig
from tests.study.test_worst_volts_by_paths import PARTS as BOXES
from tests.study.test_worst_volts_by_paths import write_rig as write_boxes

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples" / "rigs").glob("*.rig.yaml"))
_ROUNDING = 1e-9


def make_grid(luck: random.Random) -> Circuit:
    """Resistors between any nodes over one ground, 0; sources and loads of so many ohms from it, each source on a node of
    its own behind a resistor."""
    size, cells, loads = luck.randint(3, 12), luck.randint(1, 4), luck.randint(1, 5)
    wires = [
        Resistor(luck.randrange(1, node) if node > 1 else 0, node, luck.uniform(0.01, 5.0)) for node in range(1, size)
    ]
    wires += [Resistor(*luck.sample(range(size), 2), luck.uniform(0.01, 5.0)) for _ in range(luck.randint(0, size))]
    wires += [Resistor(size + index, luck.randrange(1, size), luck.uniform(0.01, 0.5)) for index in range(cells)]
    return Circuit(
        size + cells,
        tuple(wires),
        tuple(Cell(size + index, 0, luck.uniform(3.0, 28.0), luck.uniform(0.0, 0.3)) for index in range(cells)),
        (),
        tuple(
            Load(luck.randrange(1, size), 0, LoadKind.RESISTANCE, luck.uniform(0.5, 100.0), 0.1) for _ in range(loads)
        ),
        (),
    )


@pytest.mark.parametrize("first", range(0, 400, 100))
def test_ohms_behind_a_source_raise_no_load(first: int) -> None:
    """Of a source that gives current: one that is being charged takes it from the loads, and less of it behind more ohms.
    By superposition: the ohms act as volts against the source, and over one ground no node's volts fall as a source's
    rise (the inverse of a nodal conductance matrix, an M-matrix, has no entry below zero)."""
    for seed in range(first, first + 100):
        luck = random.Random(seed)
        circuit = make_grid(luck)
        before = solve(circuit)
        giving = [index for index, amps in enumerate(before.cell_amps) if amps > 0.0]
        assert giving
        chosen = luck.choice(giving)
        branch = next(i for i, wire in enumerate(circuit.resistors) if wire.a == circuit.cells[chosen].plus)
        wires = list(circuit.resistors)
        wires[branch] = replace(wires[branch], ohms=wires[branch].ohms + luck.uniform(0.1, 10.0))
        after = solve(replace(circuit, resistors=tuple(wires)))
        TRIED["networks with more ohms behind a source"] += 1

        assert (after.load_volts <= before.load_volts + _ROUNDING).all(), seed


def list_worse(rig: Rig) -> list[str]:
    """The ports that see more, or further below zero, once an item with a source is out."""
    found = []
    for setup in rig.setups.values():
        network = build_pin_network(rig, Presence.of(setup))
        for guesses in (True, False):
            before = study_worst_volts(rig, network, setup.off, guesses=guesses)
            if before.shorts:
                continue  # of a source that is shorted nothing is told, so that others speak where it is out
            for item in sorted({source.item for source in network.sources}):
                sources = tuple(source for source in network.sources if source.item != item)
                after = study_worst_volts(rig, replace(network, sources=sources), setup.off, guesses=guesses)
                bare = study_worst_volts(rig, without_item(network, item), setup.off, guesses=guesses)
                TRIED["sources taken out"] += 1
                found += [f"{setup.name}, without {item}: {one}" for one in compare(before, after)]
                found += [f"{setup.name}, without {item} and its leads: {one}" for one in compare(before, bare)]
    return found


def compare(before: WorstVolts, after: WorstVolts) -> list[str]:
    """What is worse at which port."""
    worse = []
    for ref, volts in after.ports.items():
        was = before.ports[ref]
        if volts.high is not None and (was.high is None or volts.high.volts > was.high.volts + _ROUNDING):
            worse.append(f"{ref.place} sees {volts.high.volts} V")
        if volts.low is not None and (was.low is None or volts.low.volts < was.low.volts - _ROUNDING):
            worse.append(f"{ref.place} sees {volts.low.volts} V")
    return worse


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.name)
def test_a_source_taken_out_of_an_example_raises_no_worst_volts(path: Path) -> None:
    rig = read_rig(path, load_library(ROOT / "examples" / "rigmint.yaml")).rig
    assert rig is not None

    assert list_worse(rig) == []


@pytest.mark.parametrize("seed", range(30))
def test_a_source_taken_out_of_a_random_rig_raises_no_worst_volts(seed: int, tmp_path: Path) -> None:
    path = write_rig(seed, tmp_path)
    rig = read_rig(path, load_library(tmp_path / "rigmint.yaml")).rig
    assert rig is not None

    assert list_worse(rig) == []
    assert list_worse(make_rig(write_boxes(seed), BOXES)) == []


@pytest.mark.parametrize("form", ["json", "sarif"])
def test_language_time_zone_and_place_do_not_matter(form: str, tmp_path: Path) -> None:
    rigs = sorted((ROOT / "examples" / "faults").glob("*.rig.yaml"))[::8]

    def check(folder: Path, **more: str) -> bytes:
        names = [os.path.relpath(rig, folder) for rig in rigs]
        command = [*COMMAND, "check", *names, "--as", form, "--today", "2026-05-02"]
        ran = subprocess.run(command, cwd=folder, env=make_environment(**more), capture_output=True)
        assert ran.returncode == 1, ran.stderr
        TRIED["runs in another language or place"] += 1
        return ran.stdout.replace(os.path.relpath(ROOT, folder).encode() + b"/", b"")

    plain = check(ROOT)
    assert len(plain) > 1000
    for more in ({"LC_ALL": "C"}, {"LC_ALL": "tr_TR.UTF-8"}, {"LC_ALL": "de_DE.UTF-8", "TZ": "Asia/Kathmandu"}):
        assert check(ROOT, **more) == plain
    if form == "json":  # SARIF names files by the folder in which it is written
        assert check(tmp_path) == plain
