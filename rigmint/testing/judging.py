"""What packs find on shelves of rigs: each rig is read once and studied once, and every pack judges it by itself."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from rigmint.lint.engine import RuleRun, run_rules
from rigmint.lint.job import find_job_rigs
from rigmint.lint.packs import Pack
from rigmint.study.studies import Studies
from rigmint.testing.pack_folder import PackUnderTest
from rigmint.testing.shelves import OpenShelf, Shelf, find_marks

CORPUS, OWN = "corpus/", "own/"
"""What the names of rigs begin with: those that come with rigmint, and a pack's own."""


@dataclass(frozen=True, slots=True)
class Judged:
    """What the rules of one pack found on one rig. `again`: in the reverse order from the same studies, where asked."""

    run: RuleRun
    again: RuleRun | None
    shows: str | None
    """The code whose fault the rig shows, of whatever pack; None for a sound rig."""


Judgements: TypeAlias = Mapping[str, Mapping[str, Judged]]
"""Pack and rig to what was found."""


def judge_shelves(
    packs: Sequence[PackUnderTest], corpus: OpenShelf, own: Mapping[str, OpenShelf], *, twice: bool = False
) -> dict[str, dict[str, Judged]]:
    """The judgement of each pack on the corpus and on its own rigs. `own`: those of each pack that has some;
    `twice`: each rig is judged again."""
    found = _judge([one.pack for one in packs], corpus, CORPUS, twice=twice)
    for one in packs:
        if one.pack.name in own:
            found[one.pack.name] |= _judge([one.pack], own[one.pack.name], OWN, twice=twice)[one.pack.name]
    return found


def find_own_shelves(packs: Sequence[PackUnderTest]) -> dict[str, Shelf]:
    """Pack to the shelf of its own rigs, for each that has one."""
    return {one.pack.name: one.own_shelf for one in packs if one.own_shelf is not None}


def _judge(packs: Sequence[Pack], shelf: OpenShelf, prefix: str, *, twice: bool) -> dict[str, dict[str, Judged]]:
    found: dict[str, dict[str, Judged]] = {pack.name: {} for pack in packs}
    house = shelf.library.house
    rigs = [read.rig for read in shelf.rigs.values() if read.rig is not None]
    for name, read in shelf.rigs.items():
        if read.rig is None or read.document is None:
            continue
        studies = Studies(read.rig, house, find_job_rigs(read.rig, rigs))
        marks = find_marks(read.document.text)
        for pack in packs:
            rules = [(pack, rule) for rule in pack.rules]
            run = run_rules(read.rig, house, rules, studies=studies)
            again = run_rules(read.rig, house, rules[::-1], studies=studies) if twice else None
            found[pack.name][prefix + name] = Judged(run, again, marks[0][1] if marks else None)
    return found
