"""Flows, picture first, that newly arrive at a place, no longer do, or arrive in another format or later."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.rig.rig import Setup
from rigmint.study.compared.moved import Moved, gather_setups
from rigmint.study.studies import Studies
from rigmint.words import FLOWS


@dataclass(frozen=True, slots=True)
class Arrival:
    """How a flow arrives: from where, in which format (None: not stated), after how many s."""

    maker: str
    format: str | None
    latency: float


def compare_arrivals(
    old: Studies, new: Studies, pairs: tuple[tuple[Setup, Setup], ...]
) -> tuple[Moved[tuple[str, str], Arrival], ...]:
    """By (flow, place), for places at which a flow ends."""
    found = []
    for before, after in pairs:
        for flow in FLOWS:
            was, now = _list_arrivals(old, before, flow), _list_arrivals(new, after, flow)
            for place in dict.fromkeys((*was, *now)):
                if was.get(place) != now.get(place):
                    found.append((after.name, (flow, place), was.get(place), now.get(place)))
    return gather_setups(found)


def _list_arrivals(studies: Studies, setup: Setup, flow: str) -> dict[str, Arrival]:
    arrivals: dict[str, Arrival] = {}
    for one in studies.flows(setup, flow):
        item, _, name = one.place.partition(".")
        if not one.problems and not one.assumes and name in studies.rig.items[item].part.shows:
            arrivals.setdefault(one.place, Arrival(one.maker, one.format, one.latency))
    return arrivals
