"""If this fails: one line a lead, source or link."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from rigmint.report.faults_told import ToldFault, tell_faults
from rigmint.rig.rig import Setup
from rigmint.study.fault_list import FaultKind
from rigmint.study.studies import Studies


@dataclass(frozen=True, slots=True)
class Failures:
    """One setup, or `same_as`: the setup before it in which the same happens."""

    setup: str
    rows: tuple[ToldFault, ...]
    same_as: str


def gather_failures(studies: Studies, setups: Sequence[Setup]) -> tuple[Failures, ...]:
    """Every setup shown; a device that somebody switches off is no failure."""
    told: list[Failures] = []
    for setup in setups:
        rows = tell_faults(studies.rig, studies.faults(setup), without=frozenset({FaultKind.ITEM_OFF}))
        one = Failures(setup.name, rows, "")
        same = next((other for other in told if replace(other, setup=setup.name) == one), None)
        told.append(one if same is None else Failures(setup.name, (), same.setup))
    return tuple(told)
