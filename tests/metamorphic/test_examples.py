"""Findings stay the same, up to names, when a rig is written another way. `RIGMINT_METAMORPHIC=all` takes every example;
else a sixth of them, the one that `RIGMINT_METAMORPHIC_SEED` says, a number."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from rigmint.library.build_rig import assemble_rig, read_rig
from rigmint.library.faults import FaultList
from rigmint.library.library_file import Library, load_library
from rigmint.library.yaml import parse_yaml
from rigmint.lint.engine import run_rules
from rigmint.lint.packs import load_packs
from tests.counts import TRIED
from tests.metamorphic.changes import (
    MARK,
    Tree,
    add_spare,
    change_units,
    duplicate_setup,
    rename_items,
    reorder_keys,
    split_leads,
)

EXAMPLES = Path(__file__).parents[2] / "examples"
ALL = sorted([*(EXAMPLES / "rigs").glob("*.rig.yaml"), *(EXAMPLES / "faults").glob("*.rig.yaml")])
_SHARE = 1 if os.environ.get("RIGMINT_METAMORPHIC") == "all" else 6
CHOSEN = ALL[int(os.environ.get("RIGMINT_METAMORPHIC_SEED", "0")) % _SHARE :: _SHARE]
Shown = list[tuple[str, ...]]


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library(EXAMPLES / "rigmint.yaml")


def read_tree(path: Path, library: Library) -> Tree:
    """The rig as it stands after `like:`."""
    read = read_rig(path, library)
    assert read.document is not None
    tree = {key: value for key, value in read.document.as_mapping().items() if key != "like"}
    assert read.rig is not None, read.faults
    copied: Tree = json.loads(json.dumps(tree))
    return copied


def find(tree: Tree, library: Library) -> Shown:
    """What is found, without the marks of new names. What the library requires goes by names, and is left out."""
    faults = FaultList()
    document = parse_yaml(json.dumps(tree, ensure_ascii=False), "a.rig.yaml", faults)
    assert document is not None, faults.found
    rig = assemble_rig(document, library, faults).rig
    assert rig is not None, faults.found
    run = run_rules(rig, replace(library.house, requires=()), load_packs().rules)
    assert run.crashes == ()
    TRIED["rigs written another way"] += 1
    return sorted(_show(one.finding, one.setups) for one in run.findings)


def _show(finding: Any, setups: tuple[str, ...]) -> tuple[str, ...]:
    places = [finding.at, finding.cause, *sorted(finding.also)]
    bare = sorted({name.removeprefix(MARK) for name in setups})
    return finding.code, finding.grade.value, *(place.replace(MARK, "") for place in places), *bare


CHANGES: dict[str, Callable[[Tree], Tree]] = {
    "names": rename_items,
    "order": lambda tree: reorder_keys(tree, 1),
    "units": change_units,
    "spare": add_spare,
    "setup twice": lambda tree: duplicate_setup(tree) if tree.get("setups") else tree,
}


@pytest.mark.parametrize("path", CHOSEN, ids=lambda path: path.name.removesuffix(".rig.yaml"))
def test_findings_stay_the_same(path: Path, library: Library) -> None:
    tree = read_tree(path, library)
    before = find(tree, library)
    after = {name: find(change(tree), library) for name, change in CHANGES.items()}

    assert after == dict.fromkeys(CHANGES, before)


def test_a_lead_may_be_described_in_a_file_of_its_own(tmp_path: Path, library: Library) -> None:
    shutil.copytree(EXAMPLES / "parts", tmp_path / "parts")
    shutil.copy(EXAMPLES / "rigmint.yaml", tmp_path)
    split, parts = {}, []
    for number, path in enumerate(ALL):
        tree = read_tree(path, library)
        rig, own = split_leads(tree, f"spot-{number}")
        if own and number % max(1, _SHARE // 3) == 0:
            split[path.name] = (tree, rig)
            parts += own
    (tmp_path / "parts" / "spot.part.yaml").write_text(json.dumps({"parts": parts}), encoding="utf-8")
    other = load_library(tmp_path / "rigmint.yaml")
    assert split

    for tree, rig in split.values():
        assert find(rig, other) == find(tree, library)
