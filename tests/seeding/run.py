"""Checks mutants with rigmint and judges them without it, in this process, each library read once a batch."""

from __future__ import annotations

import datetime
import os
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import islice
from pathlib import Path
from unittest.mock import patch

from rigmint.lint.results import FileReport
from rigmint.lint.run import check_paths
from tests.power.netlist import PROGRAM
from tests.seeding.base import Base, Stock, write_tree
from tests.seeding.compare import Verdict, compare
from tests.seeding.judge.harm import Harm
from tests.seeding.judge.judge import Judge
from tests.seeding.kinds.every import Mutant

DAY = datetime.date(2026, 5, 2)
_BATCH = 100


@dataclass(frozen=True, slots=True)
class Tried:
    """A mutant, what is said of it here and there, and how the two compare."""

    mutant: Mutant
    harms: frozenset[Harm]
    report: FileReport
    verdict: Verdict


@dataclass(slots=True)
class Runner:
    """Tries mutants of one stock."""

    stock: Stock
    judge: Judge = field(init=False)
    sound: dict[str, FileReport] = field(init=False)
    """What rigmint says of each sound rig."""

    def __post_init__(self) -> None:
        self.judge = Judge(self.stock.bases[0].shelf, self.stock.library, simulates=PROGRAM is not None)
        trees = {base.name: write_tree(base.tree) for base in self.stock.bases}
        self.sound = dict(zip(trees, self.check(list(trees.values())), strict=True))

    def check(self, texts: Sequence[str]) -> list[FileReport]:
        """Rigmint's reports on rigs, in the order of the texts."""
        paths = [self.stock.folder / f"mutant-{number:05}.rig.yaml" for number in range(len(texts))]
        for path, text in zip(paths, texts, strict=True):
            path.write_text(text, encoding="utf-8")
        with patch.dict(os.environ, {"RIGMINT_PROCESSES": "1", "RIGMINT_CACHE": ""}):
            report = check_paths(paths, library=None, today=DAY, setup=None, prove=False, house_checks=True)
        assert not report.unread, report.unread
        by_name = {Path(one.file).name: one for one in report.files}
        for path in paths:
            path.unlink()
        return [by_name[path.name] for path in paths]

    def judge_base(self, base: Base) -> frozenset[Harm]:
        """What the judgement says of a sound rig."""
        return self.judge.judge(base.tree)

    def try_all(self, mutants: Iterator[Mutant], *, seconds: float = float("inf")) -> Iterator[Tried]:
        """Every mutant, until the time is up."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            batch = list(islice(mutants, _BATCH))
            if not batch:
                return
            for mutant, report in zip(batch, self.check([write_tree(one.tree) for one in batch]), strict=True):
                harms = self.judge.judge(mutant.tree)
                verdict = compare(harms, report, self.sound[mutant.base])
                if any(one.code == "voltage:collapse" for one in verdict.alarms) and self.judge.is_strained(
                    mutant.tree
                ):
                    alarms = tuple(one for one in verdict.alarms if one.code != "voltage:collapse")
                    verdict = replace(verdict, alarms=alarms)
                yield Tried(mutant, harms, report, verdict)
