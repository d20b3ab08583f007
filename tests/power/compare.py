"""What the project says of a rig, and where the simulator says otherwise."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.presence import Presence
from rigmint.library.build_rig import read_rig
from rigmint.library.library_file import Library, find_library_file, load_library
from rigmint.study.power import Point, PointPower, study_power
from tests.power.amounts import read_amount
from tests.power.files import read_rig_tree, read_shelf
from tests.power.moments import list_moment
from tests.power.netlist import Netlist, NoAnswer, Readings
from tests.power.wire_up import POINTS, WiringWriter, list_setups

SHARE, LEAST = 1e-3, 1e-3


def find_differences(path: Path) -> tuple[list[str], int]:
    """What is further apart than 0.1 % or 1 mV or 1 mA in any setup at any point, and how many figures agree."""
    tree, shelf = read_rig_tree(path), read_shelf(path.parent)
    peaks = int(shelf.power.get("peaks", "2"))
    wrong: list[str] = []
    agreed = 0
    for setup in list_setups(tree):
        wiring = WiringWriter(tree, setup, shelf).write()
        netlist = Netlist(wiring)
        project = study_by_project(path, setup)
        for point in POINTS:
            said = project[Point(point)]
            try:
                simulated = netlist.simulate(list_moment(wiring, point, peaks))
            except NoAnswer as error:
                if said.solved:
                    wrong.append(f"{setup} {point}: the simulator finds nothing: {error}")
                else:
                    agreed += 1
                continue
            if not said.solved:
                wrong.append(f"{setup} {point}: the project finds no operating point, the simulator does")
                continue
            found, count = _compare(said, simulated)
            wrong += [f"{setup} {point}: {one}" for one in found]
            agreed += count - len(found)
    return wrong, agreed


def study_by_project(path: Path, setup: str) -> dict[Point, PointPower]:
    """The project's own study, by its reader and library."""
    library = _load(path.parent)
    read = read_rig(path, library)
    assert read.rig is not None, [fault.says for fault in read.faults]
    there = read.rig.setups[setup]
    network = build_pin_network(read.rig, Presence.of(there))
    return dict(study_power(read.rig, there, network, library.house).points)


@cache
def _load(folder: Path) -> Library:
    return load_library(find_library_file(folder / "any.rig.yaml"))


def _compare(said: PointPower, simulated: Readings) -> tuple[list[str], int]:
    pairs: dict[str, tuple[float, float]] = {}
    names = {(ref.item, ref.port) for ref in said.ports}
    assert names == set(simulated.ports), names ^ set(simulated.ports)
    assert set(said.leads) == set(simulated.leads)
    for ref, port in said.ports.items():
        volts, amps = simulated.ports[ref.item, ref.port]
        pairs[f"volts of {ref.place}"] = port.volts, volts
        pairs[f"amps of {ref.place}"] = port.amps, amps
    for label, lead in said.leads.items():
        most, drop = simulated.leads[label]
        pairs[f"amps of {label}"] = lead.amps, most
        pairs[f"drop of {label}"] = lead.drop, drop
    for place, (volts, amps) in simulated.sources.items():
        source = said.sources[place]
        pairs[f"volts of {place}"] = source.volts, volts
        pairs[f"amps of {place}"] = source.amps, amps
    apart = [
        f"{name}: {one:.6g} against {other:.6g}"
        for name, (one, other) in pairs.items()
        if not abs(one - other) <= max(LEAST, SHARE * abs(other))
    ]
    return apart, len(pairs)
