"""One replacement in a text."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Replacement:
    """Characters from `start` to `end` (excluded) give way to `text`."""

    start: int
    end: int
    text: str


def list_runs(indices: set[int]) -> list[tuple[int, int]]:
    """First and last of each run of neighbours: {1, 2, 5} gives (1, 2) and (5, 5)."""
    runs: list[tuple[int, int]] = []
    for index in sorted(indices):
        if runs and runs[-1][1] == index - 1:
            runs[-1] = (runs[-1][0], index)
        else:
            runs.append((index, index))
    return runs
