"""The rig file itself rewritten with a mistake, read anew and checked with the rules of the packs: a burn is found by
them where the misplug study says so, and nowhere else."""

from __future__ import annotations

from copy import deepcopy
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from rigmint.library.build_rig import assemble_rig
from rigmint.library.faults import FaultList
from rigmint.library.library_file import Library, load_library
from rigmint.library.yaml import parse_yaml
from rigmint.lint.engine import run_rules
from rigmint.lint.packs import load_packs
from rigmint.rig.rig import Rig
from rigmint.study.misplug.mistakes import How, Mistake
from rigmint.study.misplug.outcome import Misplug, Outcome
from rigmint.study.misplug.study import study_misplugs
from rigmint.study.studies import Studies
from rigmint.words import Grade

EXAMPLES = Path(__file__).parents[2] / "examples"
RIGS = ("low-tide-motor-bus", "gull-street-usb", "wether-hill-chase-car", "kettle-lane-follow-mode", "saltmarsh-two-up")
BURNING = frozenset(
    {
        "polarity:shorted",
        "polarity:reversed",
        "polarity:signal",
        "voltage:over",
        "backfeed:tied-sources",
        "backfeed:into-output",
    }
)
EACH = 16
"""Misplugs of each outcome that are written down of one rig."""


def read_tree(tree: dict[str, Any], library: Library) -> Rig:
    """The rig of a tree, through text and the real reader."""
    text = StringIO()
    YAML(typ="safe").dump(tree, text)
    faults = FaultList()
    document = parse_yaml(text.getvalue(), "case.rig.yaml", faults)
    assert document is not None
    rig = assemble_rig(document, library, faults).rig
    assert rig is not None, faults.found

    return rig


def write_down(tree: dict[str, Any], mistake: Mistake) -> dict[str, Any]:
    """The tree with an end moved: into the wrong socket, and what was in there loose or undocked."""
    changed = deepcopy(tree)
    into = mistake.into.place
    changed["docks"] = [dock for dock in changed.get("docks", []) if into not in dock.split(" > ")]
    for entry in changed["leads"].values():
        ends = entry.get("ends", entry)
        for end, place in list(ends.items()):
            if place == into:
                ends[end] = "loose"
    entry = changed["leads"][mistake.lead]
    if "ends" in entry:
        entry["ends"][mistake.end] = into
    else:
        entry[{"a": "from", "b": "to"}[str(mistake.end)]] = into
    return changed


def burns(rig: Rig, library: Library, setup: str) -> bool:
    """Whether the rules find something destroyed."""
    rules = [pair for pair in load_packs().rules if pair[1].code in BURNING]
    run = run_rules(rig, library.house, rules, [setup])
    assert run.crashes == ()

    return any(one.finding.grade is Grade.BURN for one in run.findings)


def choose(misplugs: tuple[Misplug, ...], outcome: Outcome) -> list[Misplug]:
    moved = [one for one in misplugs if one.mistake.how is How.MOVED and one.outcome is outcome]
    return moved[:: max(1, len(moved) // EACH)]


@pytest.mark.parametrize("name", RIGS)
def test_rules_find_the_burns_of_a_rewritten_file(name: str) -> None:
    library = load_library(EXAMPLES / "rigmint.yaml")
    tree = YAML(typ="safe").load((EXAMPLES / "rigs" / f"{name}.rig.yaml").read_text(encoding="utf-8"))
    rig = read_tree(tree, library)
    setup = next(iter(rig.setups))
    study = study_misplugs(Studies(rig, library.house), [setup], ())
    chosen = [one for outcome in Outcome for one in choose(study.misplugs, outcome)]
    wrong = []
    for one in chosen:
        found = burns(read_tree(write_down(tree, one.mistake), library), library, setup)
        if found is not (one.outcome is Outcome.BURN):
            wrong.append(f"{one.mistake.key}: {one.outcome.value}, and the rules find {found}")

    assert len(load_packs().rules) > 40
    assert not burns(rig, library, setup)
    assert len(chosen) >= 2 * EACH
    assert wrong == []
