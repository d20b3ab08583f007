"""The same rig gives the same findings in the same order, whatever the order of packs and the seed of hashes."""

from __future__ import annotations

import os
import random
import subprocess
import sys
from pathlib import Path

import pytest

from rigmint.lint.engine import RuleRun, run_rules
from rigmint.lint.packs import load_packs
from rigmint.rig.house import House
from tests.builders import make_rig
from tests.library import whole_rig

CHANGES = [
    ("  P2: plate.tap_2 > head.dc_in\n", ""),
    ("from: plate.tap_1, to: camera.dc_in", "from: plate.tap_1, to: head.dc_in"),
    ("set: {follow_pan: off}", "set: {follow_pan: on}"),
    ("settings: {head.dial: none}", "settings: {head.dial: focus}"),
    ("{part: house/motor, set: {axis: iris}}", "house/motor"),
    ("needs: {runtime: 60 min", "needs: {runtime: 600 min"),
    ("accepted: [{code: runtime:short, at: pack", "accepted: [{code: runtime:short, at: plate"),
]


def run_faulty_rig(seed: int) -> RuleRun:
    """The findings of a rig with many faults, its rules shuffled."""
    text = whole_rig.RIG
    for old, new in CHANGES:
        assert old in text
        text = text.replace(old, new)
    text = text.replace('metered: {P2: {by: prep, on: 2026-05-02, says: "2 plus, 14.3 V"}}\n', "")
    rules = list(load_packs().rules)
    random.Random(seed).shuffle(rules)
    return run_rules(make_rig(text, whole_rig.PARTS), House(), rules)


def test_the_order_of_packs_does_not_matter() -> None:
    runs = [repr(run_faulty_rig(seed)) for seed in range(4)]

    assert len(run_faulty_rig(0).findings) > 4
    assert set(runs) == {runs[0]}


@pytest.mark.parametrize("hash_seed", ["1", "2"])
def test_the_seed_of_hashes_does_not_matter(hash_seed: str) -> None:
    root = Path(__file__).parents[2]
    script = "from tests.lint.test_determinism import run_faulty_rig; print(repr(run_faulty_rig(0)))"
    outcome = subprocess.run(
        [sys.executable, "-c", script],
        env={**os.environ, "PYTHONHASHSEED": hash_seed, "PYTHONPATH": str(root)},
        cwd=root,
        capture_output=True,
        text=True,
        check=True,
    )

    assert outcome.stdout.strip() == repr(run_faulty_rig(0))
