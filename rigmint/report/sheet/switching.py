"""The order in which devices are switched on, and what moves."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Step:
    """A device, whether it moves, and what must be so before."""

    item: str
    moves: bool
    before: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Switching:
    """One setup, or `same_as`: the setup before it whose order it shares."""

    setup: str
    steps: tuple[Step, ...]
    same_as: str
