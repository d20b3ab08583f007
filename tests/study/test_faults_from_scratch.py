"""Each single fault against the same rig rewritten with that fault and studied from scratch."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from rigmint.library.build_rig import read_rig
from rigmint.library.library_file import find_library_file, load_library
from rigmint.rig.house import House
from rigmint.rig.rig import Rig
from rigmint.study.studies import Studies
from tests.builders import make_rig
from tests.power.random_rigs import write_rig as write_power_rig
from tests.study.fault_rewrite import Whole, differ, show
from tests.study.test_claims_by_paths import PARTS as HAND_PARTS
from tests.study.test_claims_by_paths import write_rig as write_hand_rig

EXAMPLES = Path(__file__).parents[2] / "examples"
SOUND = sorted((EXAMPLES / "rigs").glob("*.rig.yaml"))
FAULTY = sorted((EXAMPLES / "faults").glob("*.rig.yaml"))
POWER_SEEDS = range(40)
HAND_SEEDS = range(120)


def read(path: Path) -> tuple[Rig, House]:
    library = load_library(find_library_file(path))
    rig = read_rig(path, library).rig
    assert rig is not None

    return rig, library.house


def compare(rig: Rig, house: House, setup: str, every: int = 1) -> tuple[list[object], Counter[str]]:
    """What differs, and how many outcomes of each kind show something."""
    one = rig.setups[setup]
    outcomes = Studies(rig, house).faults(one).outcomes
    whole = Whole(rig, one, house)
    seen: Counter[str] = Counter()
    wrong: list[object] = []
    for outcome in outcomes[::every]:
        expected, found = whole.judge(outcome), show(outcome)
        seen.update(key for key, value in found.items() if value)
        keys = differ(found, expected)
        if keys:
            wrong.append((outcome.fault, [(key, found[key], expected[key]) for key in keys]))
    return wrong, seen


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.name)
def test_every_fault_of_a_sound_example(path: Path) -> None:
    rig, house = read(path)
    for setup in rig.setups:
        wrong, seen = compare(rig, house, setup)

        assert wrong == []
        assert min(seen["down"], seen["axes"], seen["flows"]) > 0


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.name)
def test_some_faults_of_a_faulty_example(path: Path) -> None:
    rig, house = read(path)
    wrong, _ = compare(rig, house, next(iter(rig.setups)), every=5)

    assert wrong == []


@pytest.mark.parametrize("seed", POWER_SEEDS)
def test_every_fault_of_a_random_power_rig(seed: int, tmp_path: Path) -> None:
    rig, house = read(write_power_rig(seed, tmp_path))
    for setup in rig.setups:
        wrong, _ = compare(rig, house, setup)

        assert wrong == []


def test_random_power_rigs_show_what_goes_down_and_what_returns_by_shield(tmp_path: Path) -> None:
    seen: Counter[str] = Counter()
    for seed in POWER_SEEDS[:6]:
        rig, house = read(write_power_rig(seed, tmp_path / str(seed)))
        for setup in rig.setups.values():
            for outcome in Studies(rig, house).faults(setup).outcomes:
                seen.update(key for key, value in show(outcome).items() if value)

    assert min(seen["down"], seen["shields"]) > 0


@pytest.mark.parametrize("first", range(0, len(HAND_SEEDS), 30))
def test_every_fault_of_random_hand_rigs(first: int) -> None:
    seen: Counter[str] = Counter()
    for seed in HAND_SEEDS[first : first + 30]:
        rig = make_rig(write_hand_rig(seed), HAND_PARTS)
        wrong, found = compare(rig, House(), "s")
        seen += found

        assert wrong == [], seed

    assert seen["axes"] > 10
