"""The order in which devices are switched on, and what moves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from rigmint.rig.rig import Setup
from rigmint.study.studies import Studies
from rigmint.study.switching import SwitchStep


@dataclass(frozen=True, slots=True)
class Switching:
    """One setup, or `same_as`: the setup before it whose order it shares."""

    setup: str
    steps: tuple[SwitchStep, ...]
    same_as: str


def gather_switching(studies: Studies, setups: Sequence[Setup]) -> tuple[Switching, ...]:
    """Every setup shown."""
    told: list[Switching] = []
    for setup in setups:
        one = Switching(setup.name, studies.switching_order(setup), "")
        same = next((other for other in told if replace(other, setup=setup.name) == one), None)
        told.append(one if same is None else Switching(setup.name, (), same.setup))
    return tuple(told)
