"""The sieve lets nothing through its meshes that burns: on every example and on random rigs, every move that it leaves
out is tried, and destroys nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from rigmint.library.build_rig import read_rig
from rigmint.library.library_file import load_library
from rigmint.rig.rig import Rig, Setup
from rigmint.study.misplug.burns import HarmKind
from rigmint.study.misplug.moves import Sockets
from rigmint.study.misplug.sift import Sieve
from rigmint.study.studies import Studies
from tests.builders import make_rig
from tests.misplug.rigs import PARTS, RAW_LEAD, TWO_PINOUTS, TWO_VOLTAGES
from tests.power.random_rigs import write_rig
from tests.study.test_worst_volts_by_paths import PARTS as BOXES
from tests.study.test_worst_volts_by_paths import write_rig as write_boxes

EXAMPLES = Path(__file__).parents[2] / "examples"
RIGS = sorted((EXAMPLES / "rigs").glob("*.rig.yaml"))


def sift(studies: Studies, setup: Setup) -> tuple[list[str], int, int]:
    """The moves that are left out though they burn, in words; how many are left out, and how many kept."""
    bench, sockets = studies.misplug_bench(setup), Sockets(studies.rig, setup)
    sieve = Sieve(studies.rig, bench.wiring.wired, bench.wiring.judge)
    missed, kept, left = [], 0, 0
    for label in sorted(setup.leads):
        for move in sockets.list_moves(studies.rig.leads[label]):
            mistake = sockets.make_mistake(move)
            if not sieve.is_idle(move) or (bench.is_negotiated and bench.settles_otherwise(mistake)):
                kept += 1
                continue
            left += 1
            harms = bench.try_mistake(mistake, rise=0.5).harms
            worth = [harm for harm in harms if harm.kind is not HarmKind.INTO_OUTPUT]
            missed += [f"{mistake.key}: {worth}"] if worth else []
    return missed, left, kept


def sift_all(rig: Rig, studies: Studies) -> list[str]:
    return [says for setup in rig.setups.values() for says in sift(studies, setup)[0]]


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.name)
def test_example(path: Path) -> None:
    library = load_library(EXAMPLES / "rigmint.yaml")
    rig = read_rig(path, library).rig
    assert rig is not None
    setup = next(iter(rig.setups.values()))
    missed, left, kept = sift(Studies(rig, library.house), setup)

    assert missed == []
    assert left > kept / 2


@pytest.mark.parametrize("seed", range(50))
def test_random_rig(seed: int, tmp_path: Path) -> None:
    path = write_rig(seed, tmp_path)
    library = load_library(tmp_path / "rigmint.yaml")
    rig = read_rig(path, library).rig
    assert rig is not None

    assert sift_all(rig, Studies(rig, library.house)) == []


@pytest.mark.parametrize("seed", range(80))
def test_random_boxes(seed: int) -> None:
    """Rigs that nobody would build: diodes in returns, regulators that step up, crossed leads, isolated ports."""
    rig = make_rig(write_boxes(seed), BOXES)
    house = load_library(None).house

    assert sift_all(rig, Studies(rig, house)) == []


@pytest.mark.parametrize("text", [RAW_LEAD, TWO_PINOUTS, TWO_VOLTAGES])
def test_known_hazards_are_kept(text: str) -> None:
    rig = make_rig(text, PARTS)
    missed, _, kept = sift(Studies(rig, load_library(None).house), next(iter(rig.setups.values())))

    assert missed == []
    assert kept > 0
