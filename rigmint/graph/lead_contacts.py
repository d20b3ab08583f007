"""Which contacts of a lead's ends its conductors join."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TypeAlias

from rigmint.rig.lead import Conductor

Contact: TypeAlias = tuple[str, str]
"""(end, contact)."""


def spread_contacts(starts: Iterable[Contact], conductors: Sequence[Conductor]) -> set[Contact]:
    """The contacts that conductors join to any of `starts`, either way and in any number of steps; the starts too."""
    reached = set(starts)
    frontier = list(reached)
    while frontier:
        here = frontier.pop()
        for conductor in conductors:
            one = (conductor.source.end, conductor.source.contact)
            two = (conductor.target.end, conductor.target.contact)
            for near, far in ((one, two), (two, one)):
                if near == here and far not in reached:
                    reached.add(far)
                    frontier.append(far)
    return reached
