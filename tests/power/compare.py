"""What `rigmint power --as json` says of a rig, and where the simulator says otherwise."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from click.testing import CliRunner

from rigmint.commands import main
from tests.power.files import read_rig_tree, read_shelf
from tests.power.moments import list_moment
from tests.power.netlist import Moment, Netlist, Readings
from tests.power.search import NoAnswer, Search
from tests.power.wire_up import POINTS, WiringWriter, list_setups

SHARE, LEAST = 1e-3, 1e-3


def find_differences(path: Path, *, scale_volts: float = 1.0) -> tuple[list[str], int]:
    """What is further apart than 0.1 % or 1 mV or 1 mA in any setup at any point, and how many figures agree.

    scale_volts: multiplies the volts of every source in the netlist alone, to see that the comparison can fail.
    """
    tree, shelf = read_rig_tree(path), read_shelf(path.parent)
    peaks = int(shelf.power.get("peaks", "2"))
    printed = ask_command(path)
    assert list(printed) == sorted(list_setups(tree))
    wrong: list[str] = []
    agreed = 0
    for setup, said in printed.items():
        wiring = WiringWriter(tree, setup, shelf).write()
        search = Search(Netlist(wiring))
        for point in POINTS:
            moment = list_moment(wiring, point, peaks, scale_volts=scale_volts)
            found, count = _compare_point(said[point], search, moment)
            wrong += [f"{setup} {point}: {one}" for one in found]
            agreed += count - len(found)
    return wrong, agreed


def ask_command(path: Path) -> dict[str, Any]:
    """The setups of a rig as the command prints them."""
    result = CliRunner().invoke(main, ["power", "--as", "json", "--plain", str(path)])
    assert result.exit_code == 0, result.output
    setups: dict[str, Any] = json.loads(result.stdout)["setups"]
    return setups


def _compare_point(said: dict[str, Any], search: Search, moment: Moment) -> tuple[list[str], int]:
    try:
        simulated = search.simulate(moment)
    except NoAnswer as error:
        return ([f"the simulator finds nothing: {error}"], 1) if said["solved"] else ([], 1)
    if not said["solved"]:
        return ["the simulator finds an operating point, the command does not"], 1
    return _compare(said, simulated)


def _compare(said: dict[str, Any], simulated: Readings) -> tuple[list[str], int]:
    pairs: dict[str, tuple[float, float]] = {}
    assert set(said["ports"]) == {f"{item}.{port}" for item, port in simulated.ports}
    assert set(said["leads"]) == set(simulated.leads)
    assert set(said["sources"]) >= set(simulated.sources)
    for (item, port), (volts, amps) in simulated.ports.items():
        pairs[f"volts of {item}.{port}"] = said["ports"][f"{item}.{port}"]["volts"], volts
        pairs[f"amps of {item}.{port}"] = said["ports"][f"{item}.{port}"]["amps"], amps
    for label, (most, drop) in simulated.leads.items():
        pairs[f"amps of {label}"] = said["leads"][label]["amps"], most
        pairs[f"drop of {label}"] = said["leads"][label]["drop"], drop
    for place, (volts, amps) in simulated.sources.items():
        pairs[f"volts of {place}"] = said["sources"][place]["volts"], volts
        pairs[f"amps of {place}"] = said["sources"][place]["amps"], amps
    apart = [
        f"{name}: {one:.6g} against {other:.6g}"
        for name, (one, other) in pairs.items()
        if not abs(one - other) <= max(LEAST, SHARE * abs(other))
    ]
    return apart, len(pairs)
