"""What a rule costs: its time on the largest sound rig, as a share of the time that all other packs take there.

A share and no seconds: it is the same on a slow computer and on a quick one. Studies that another pack asks for too are
computed before, as they are in a run; those that only the pack itself asks for count for the first of its rules.
"""

from __future__ import annotations

from collections.abc import Sequence
from time import process_time

from rigmint.lint.engine import run_rules
from rigmint.lint.packs import Pack
from rigmint.lint.rule import Rule
from rigmint.rig.house import House
from rigmint.rig.rig import Rig
from rigmint.study.studies import Studies
from rigmint.testing.cases import BadCase
from rigmint.testing.pack_folder import PackUnderTest
from rigmint.testing.shelves import OpenShelf, find_marks

_ROUNDS = 3
"""The quickest counts: what else the computer does only adds."""


def measure_costs(one: PackUnderTest, corpus: OpenShelf) -> dict[str, float]:
    """Code to share. Raises BadCase where no other pack is installed, or the corpus has no sound rig."""
    rig = find_largest(corpus)
    house = corpus.library.house
    if not one.others.rules:
        msg = f"no other pack is installed beside {one.pack.name}, so that there is nothing to compare its rules with"
        raise BadCase(msg)
    rest: list[float] = []
    own: dict[str, list[float]] = {rule.code: [] for rule in one.pack.rules}
    for _ in range(_ROUNDS):
        studies = Studies(rig, house)
        rest.append(_time(studies, house, one.others.rules))
        for rule in one.pack.rules:
            own[rule.code].append(_time(studies, house, [(one.pack, rule)]))
    return {code: min(times) / min(rest) for code, times in own.items()}


def find_largest(corpus: OpenShelf) -> Rig:
    """The sound rig with most items and leads."""
    sound = [
        read.rig
        for read in corpus.rigs.values()
        if read.rig is not None and read.document is not None and not find_marks(read.document.text)
    ]
    if not sound:
        msg = "the corpus has no sound rig"
        raise BadCase(msg)
    return max(sound, key=lambda rig: (len(rig.items) + len(rig.leads), rig.file))


def _time(studies: Studies, house: House, rules: Sequence[tuple[Pack, Rule]]) -> float:
    start = process_time()
    run_rules(studies.rig, house, rules, studies=studies)
    return process_time() - start
