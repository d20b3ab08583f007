"""Radio links whose reach or distance moves, radio by radio."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.rig.rig import Setup
from rigmint.study.compared.moved import Moved, gather_setups
from rigmint.study.reach import find_reach
from rigmint.study.studies import Studies


@dataclass(frozen=True, slots=True)
class Span:
    """A hop of a link, in m: what the place leaves of its reach (None: nothing states one), and how far it is to go
    (None: not said)."""

    reach: float | None
    distance: float | None


def compare_reaches(
    old: Studies, new: Studies, pairs: tuple[tuple[Setup, Setup], ...]
) -> tuple[Moved[tuple[str, str, str], Span], ...]:
    """By (link, hub, other radio)."""
    found = []
    for before, after in pairs:
        was, now = _list_spans(old, before), _list_spans(new, after)
        for key in dict.fromkeys((*was, *now)):
            if was.get(key) != now.get(key):
                found.append((after.name, key, was.get(key), now.get(key)))
    return gather_setups(found)


def _list_spans(studies: Studies, setup: Setup) -> Mapping[tuple[str, str, str], Span]:
    spans = {}
    rig = studies.rig
    for name in sorted(setup.links):
        link = rig.links[name]
        hub, *others = link.radios
        distance = setup.distances.get(name, setup.needs.distance)
        for other in others:
            if other.item in setup.items:
                reach = find_reach(rig, setup, hub, other, link, studies.house.leaves)
                spans[name, hub.place, other.place] = Span(reach.derated if reach is not None else None, distance)
    return spans
