"""Each misplug's outcome is that of the same rig rewritten with that mistake and looked at from scratch: on all example
rigs and on 50 random ones. All burns of a rig are compared, and of the rest every so many, in a run of the suite;
`RIGMINT_ALL_MISPLUGS=1` compares them all (three minutes)."""

from __future__ import annotations

import os
from functools import cache
from pathlib import Path

import pytest

from rigmint.library.build_rig import read_rig
from rigmint.library.library_file import Library, load_library
from rigmint.rig.rig import Rig
from rigmint.study.misplug.mistakes import How, rewrite_rig
from rigmint.study.misplug.outcome import Misplug, Outcome
from rigmint.study.misplug.study import study_misplugs
from rigmint.study.studies import Studies
from tests.misplug.oracle import judge, look_at
from tests.power.random_rigs import write_rig

EXAMPLES = Path(__file__).parents[2] / "examples"
RIGS = sorted((EXAMPLES / "rigs").glob("*.rig.yaml"))
SEEDS = range(50)
MOST = 10**9 if os.environ.get("RIGMINT_ALL_MISPLUGS") else 30
"""Misplugs without a burn that are compared of one rig."""


@cache
def load_examples() -> Library:
    return load_library(EXAMPLES / "rigmint.yaml")


def read_whole(path: Path, library: Library) -> Rig:
    read = read_rig(path, library)
    assert read.rig is not None, read.faults

    return read.rig


def list_wrong(rig: Rig, library: Library, setup_name: str, *, with_library: bool) -> tuple[list[str], list[Misplug]]:
    """The misplugs whose outcome from scratch is another, in words; and all of them."""
    setup = rig.setups[setup_name]
    leads = library.catalogue.list_leads() if with_library else ()
    study = study_misplugs(Studies(rig, library.house), [setup_name], leads)
    before = look_at(rig, setup, library.house)
    wrong = []
    burning = [one for one in study.misplugs if one.outcome is Outcome.BURN]
    others = [one for one in study.misplugs if one.outcome is not Outcome.BURN]
    for misplug in [*burning[:MOST], *others[:: max(1, len(others) // MOST)]]:
        after = look_at(*rewrite_rig(rig, setup, misplug.mistake), library.house)
        due = judge(before, after)
        if misplug.outcome != due:
            new, lost = after.burns - before.burns, before.working - after.working
            wrong.append(f"{misplug.mistake.key}: {misplug.outcome.value}, due {due}: {new} {lost}")
    assert study.tried == len(study.misplugs)

    return wrong, list(study.misplugs)


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.name)
def test_example_agrees(path: Path) -> None:
    rig = read_whole(path, load_examples())
    wrong, tried = list_wrong(rig, load_examples(), next(iter(rig.setups)), with_library=len(rig.items) < 20)

    assert wrong == []
    assert len(tried) > 100


@pytest.mark.parametrize("seed", SEEDS)
def test_random_rig_agrees(seed: int, tmp_path: Path) -> None:
    path = write_rig(seed, tmp_path)
    library = load_library(tmp_path / "rigmint.yaml")
    wrong, tried = list_wrong(read_whole(path, library), library, ("one", "two")[seed % 2], with_library=False)

    assert wrong == []
    assert tried


def test_random_rigs_see_every_kind_and_outcome(tmp_path: Path) -> None:
    """The comparison is about something: burns, failures and harmless mistakes of every kind come up in it."""
    seen = set()
    for seed in SEEDS[::4]:
        path = write_rig(seed, tmp_path / str(seed))
        library = load_library(path.parent / "rigmint.yaml")
        rig = read_whole(path, library)
        study = study_misplugs(Studies(rig, library.house), ["one"], ())
        seen |= {(one.mistake.how, one.outcome) for one in study.misplugs}

    assert {outcome for _, outcome in seen} == set(Outcome)
    assert {how for how, _ in seen} >= {How.MOVED, How.SWAPPED, How.FORCED}
