"""Flows: picture, range, timecode, sync, tally and any that a protocol declares, from where they are made to wherever
they arrive; for picture with the format on each hop, the rate it needs, and the latency that adds up."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from rigmint.physics.rasters import parse_format
from rigmint.rig.device import Pass
from rigmint.rig.rig import Item
from rigmint.study.conditions import resolve_choice
from rigmint.study.signal_map import Hop, SignalMap

PICTURE = "picture"


class Trouble(StrEnum):
    """Why a hop does not carry a picture."""

    TOO_FAST = "too-fast"
    NOT_ACCEPTED = "not-accepted"


@dataclass(frozen=True, slots=True)
class Problem:
    """A hop that does not carry what comes: `by` is the lead, link or item; needed against carried in bit/s for a
    rate, and the formats that are accepted for a format."""

    trouble: Trouble
    by: str
    needed: float
    carried: float
    accepted: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FlowArrival:
    """A flow at a place. `format` is None where nothing states one; `hops` are the leads and links on the way, each
    with the format that it carries; `latency` in s."""

    flow: str
    maker: str
    place: str
    format: str | None
    path: tuple[str, ...]
    hops: tuple[tuple[str, str | None], ...]
    latency: float
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class _State:
    item: str
    name: str
    format: str | None


def find_flow_arrivals(signals: SignalMap, flow: str) -> tuple[FlowArrival, ...]:
    """Every place that a flow arrives at, from each of its makers: for each place the way without problems before
    others, then the quickest, then the shortest."""
    best: dict[tuple[str, str], FlowArrival] = {}
    for item_name in sorted(signals.setup.items - signals.setup.off):
        item = signals.rig.items[item_name]
        for maker in item.part.makes.values():
            if flow not in maker.flows:
                continue
            for words, _ in resolve_choice(item, maker.flows[flow], signals.setup):
                for made in words or (None,):
                    for arrival in _spread(signals, flow, item, maker.name, made):
                        key = (arrival.maker, arrival.place)
                        if key not in best or _rank(arrival) < _rank(best[key]):
                            best[key] = arrival
    return tuple(best[key] for key in sorted(best))


def arrives_at(signals: SignalMap, flow: str, item: str) -> bool:
    """Whether a flow that another item makes arrives at an item, or the item makes it itself."""
    return any(arrival.place.partition(".")[0] == item for arrival in find_flow_arrivals(signals, flow)) or any(
        flow in maker.flows for maker in signals.part(item).makes.values()
    )


def _rank(arrival: FlowArrival) -> tuple[int, float, int, tuple[str, ...]]:
    return len(arrival.problems), arrival.latency, len(arrival.path), arrival.path


def _spread(signals: SignalMap, flow: str, item: Item, maker: str, made: str | None) -> Iterator[FlowArrival]:
    start = _State(item.name, maker, made)
    origin = f"{item.name}.{maker}"
    known = {start: FlowArrival(flow, origin, origin, made, (origin,), (), 0.0, ())}
    queue = deque([start])
    while queue:
        state = queue.popleft()
        here = known[state]
        for hop in signals.hops(state.item, state.name, flow, None):
            following, arrival = _follow(signals, here, hop)
            if following not in known or _rank(arrival) < _rank(known[following]):
                known[following] = arrival
                queue.append(following)
    for state, arrival in known.items():
        if state.item != item.name or state.name in signals.part(state.item).shows:
            yield arrival


def _follow(signals: SignalMap, here: FlowArrival, hop: Hop) -> tuple[_State, FlowArrival]:
    place = f"{hop.item}.{hop.name}"
    over = (hop.over,) if hop.over is not None else ()
    arrival = replace(here, place=place, path=(*here.path, *over, place))
    if hop.passed is not None:
        arrival = _through(signals, arrival, hop.item, hop.passed)
    elif hop.over is not None:
        arrival = replace(arrival, hops=(*arrival.hops, (hop.over, arrival.format)))
        arrival = _over(signals, arrival, hop)
    display = signals.part(hop.item).shows.get(hop.name)
    if display is not None:
        arrival = replace(arrival, latency=arrival.latency + display.latency)
    return _State(hop.item, hop.name, arrival.format), arrival


def _through(signals: SignalMap, arrival: FlowArrival, item_name: str, one_pass: Pass) -> FlowArrival:
    item = signals.rig.items[item_name]
    problems = arrival.problems
    if one_pass.accepts and arrival.format is not None and arrival.format not in one_pass.accepts:
        problems = (*problems, Problem(Trouble.NOT_ACCEPTED, item_name, 0.0, 0.0, one_pass.accepts))
    form = arrival.format
    if one_pass.format is not None:
        words = [word for found, _ in resolve_choice(item, one_pass.format, signals.setup) for word in found]
        form = words[0] if words else None
    return replace(arrival, format=form, latency=arrival.latency + one_pass.latency, problems=problems)


def _over(signals: SignalMap, arrival: FlowArrival, hop: Hop) -> FlowArrival:
    """Whether the quickest protocol of a hop carries the rate that the format needs."""
    raster = parse_format(arrival.format) if arrival.format is not None else None
    needed = raster.compute_bit_rate() if raster is not None else None
    carried = signals.rate_over(arrival.path[-3] if len(arrival.path) > 2 else "", hop, arrival.flow)
    if needed is None or carried is None or needed <= carried * (1 + 1e-9):
        return arrival
    by = hop.over or hop.item
    return replace(arrival, problems=(*arrival.problems, Problem(Trouble.TOO_FAST, by, needed, carried, ())))
