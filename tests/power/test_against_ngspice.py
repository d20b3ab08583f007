"""Every rig against ngspice, a general circuit simulator: ports, leads and sources, in every setup at three points.

The netlists are written straight from the YAML by a second reader that shares no code with the project, so that an
error in reading, in a default or in the circuit cannot hide on both sides. Limits: 0.1 %, or 1 mV or 1 mA.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.power.compare import find_differences
from tests.power.elements import Source, Wire, Wiring
from tests.power.netlist import PROGRAM, Moment, Netlist
from tests.power.random_rigs import write_rig
from tests.power.search import Search

EXAMPLES = Path(__file__).parents[2] / "examples"
RIGS = sorted(path.relative_to(EXAMPLES) for path in EXAMPLES.rglob("*.rig.yaml"))
SEEDS = range(40)

needs_ngspice = pytest.mark.skipif(
    PROGRAM is None and "RIGMINT_NEED_NGSPICE" not in os.environ, reason="ngspice is not installed"
)


def test_there_are_examples() -> None:
    assert len(RIGS) >= 10


@needs_ngspice
@pytest.mark.parametrize("rig", RIGS, ids=str)
def test_example_agrees(rig: Path) -> None:
    wrong, agreed = find_differences(EXAMPLES / rig)

    assert not wrong
    assert agreed > 0


@needs_ngspice
@pytest.mark.parametrize("seed", SEEDS)
def test_random_rig_agrees(seed: int, tmp_path: Path) -> None:
    wrong, agreed = find_differences(write_rig(seed, tmp_path))

    assert not wrong
    assert agreed >= 50


@needs_ngspice
def test_comparison_sees_two_per_mille() -> None:
    """The comparison itself can fail: sources whose volts are 2 per mille off are seen."""
    wrong, _ = find_differences(EXAMPLES / RIGS[0], scale_volts=1.002)

    assert len(wrong) > 10


@needs_ngspice
def test_netlist_of_a_divider() -> None:
    """12 V behind 0.1 ohm into 10 ohm: 11.881188 V (OpenStax, University Physics 2, 10.1)."""
    wiring = Wiring(wires=[Wire("plus", "minus", 10.0)], sources=[Source("s", "plus", "minus", {}, 0.1)])
    wiring.ports["camera", "dc"] = ("plus", "minus")

    readings = Search(Netlist(wiring)).simulate(Moment((12.0,), (0.1,), ()))

    assert readings.ports["camera", "dc"][0] == pytest.approx(11.8811881, abs=1e-6)
    assert readings.sources["s"][1] == pytest.approx(1.1881188, abs=1e-6)
