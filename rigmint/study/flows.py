"""Flows: picture, range, timecode, sync, tally and any that a protocol declares, from where they are made to wherever
they arrive; for picture with the format on each hop, the rate it needs, and the latency that adds up."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from rigmint.physics.rasters import are_same_format, find_bit_rate
from rigmint.rig.choice import Choice
from rigmint.rig.device import Pass
from rigmint.rig.rig import Item
from rigmint.study.conditions import Assumption, join_assumptions, resolve_choice
from rigmint.study.signal_map import Hop, SignalMap


class Trouble(StrEnum):
    """Why a hop does not carry a picture."""

    TOO_FAST = "too-fast"
    NOT_ACCEPTED = "not-accepted"


@dataclass(frozen=True, slots=True)
class Problem:
    """A hop that does not carry the format that comes: `by` is the lead, link or item, `at` the place behind the hop.
    Needed against carried in bit/s for a rate; the formats that are accepted for a format."""

    trouble: Trouble
    by: str
    at: str
    format: str
    needed: float
    carried: float
    accepted: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Run:
    """Leads in series that nothing renews the signal between, with the format that they carry."""

    format: str | None
    leads: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FlowArrival:
    """A flow at a place."""

    flow: str
    maker: str
    place: str
    format: str | None
    """None where nothing states one."""
    format_setting: tuple[str, str] | None
    """(item, setting) that decides the format; None where it is fixed or not stated."""
    path: tuple[str, ...]
    """From the maker on: places, leads and links."""
    runs: tuple[Run, ...]
    delays: tuple[tuple[str, float], ...]
    """(item, s) of each pass and screen on the way that takes time."""
    problems: tuple[Problem, ...]
    assumes: Assumption
    """Values of unknown settings on which it rests."""

    @property
    def latency(self) -> float:
        """s, all delays together."""
        return sum(seconds for _, seconds in self.delays)


@dataclass(frozen=True, slots=True)
class _State:
    item: str
    name: str
    format: str | None
    assumes: Assumption


def find_flow_arrivals(signals: SignalMap, flow: str) -> tuple[FlowArrival, ...]:
    """Every place that a flow arrives at, from each of its makers: for each place the way without problems before
    others, then the quickest, then the shortest. Settings that nobody stated are tried at every value."""
    best: dict[tuple[str, str], FlowArrival] = {}
    for item_name in sorted(signals.setup.items - signals.setup.off):
        item = signals.rig.items[item_name]
        for maker in item.part.makes.values():
            if flow in maker.flows:
                for arrival in _spread(signals, flow, item, maker.name, maker.flows[flow]):
                    key = (arrival.maker, arrival.place)
                    if key not in best or _rank(arrival) < _rank(best[key]):
                        best[key] = arrival
    return tuple(best[key] for key in sorted(best))


def list_makers(signals: SignalMap, flow: str) -> list[tuple[str, str]]:
    """(item, maker) of a flow, of the items that are there, off or on."""
    return [
        (name, maker.name)
        for name in sorted(signals.setup.items)
        for maker in signals.part(name).makes.values()
        if flow in maker.flows
    ]


def list_ends(signals: SignalMap, item: str, flow: str) -> list[str]:
    """The screens and other ends of an item at which its passes of a flow end."""
    part = signals.part(item)
    passes = [one_pass for one_pass in part.passes if _is_for(signals, item, one_pass, flow)]
    return [name for name in part.shows if any(name in one_pass.targets for one_pass in passes)]


def _is_for(signals: SignalMap, item: str, one_pass: Pass, flow: str) -> bool:
    if one_pass.carries is not None:
        return flow in one_pass.carries
    ends = [name for name in one_pass.sources if not is_inside(signals, item, name)]
    return one_pass.axes is None and any(signals.carries(item, name, flow) for name in ends)


def is_inside(signals: SignalMap, item: str, name: str) -> bool:
    """Whether a place is neither a port nor a radio: a maker, a screen, a control or a mover."""
    part = signals.part(item)
    return name not in part.ports and name not in part.radios


def _rank(arrival: FlowArrival) -> tuple[int, float, int, int, tuple[str, ...]]:
    return len(arrival.problems), arrival.latency, len(arrival.assumes), len(arrival.path), arrival.path


def _spread(signals: SignalMap, flow: str, item: Item, maker: str, choice: Choice) -> Iterator[FlowArrival]:
    known: dict[_State, FlowArrival] = {}
    queue: deque[_State] = deque()
    origin = f"{item.name}.{maker}"
    setting = (item.name, choice.setting) if choice.setting is not None else None
    for made, assumes in _resolve_format(signals, item, choice):
        start = _State(item.name, maker, made, assumes)
        known[start] = FlowArrival(flow, origin, origin, made, setting, (origin,), (Run(made, ()),), (), (), assumes)
        queue.append(start)
    while queue:
        state = queue.popleft()
        here = known[state]
        for hop in signals.hops(state.item, state.name, flow, None):
            for arrival in _follow(signals, here, hop):
                following = _State(hop.item, hop.name, arrival.format, arrival.assumes)
                if following not in known or _rank(arrival) < _rank(known[following]):
                    known[following] = arrival
                    queue.append(following)
    for state, arrival in known.items():
        if state.item != item.name or state.name in signals.part(state.item).shows:
            yield arrival


def _resolve_format(signals: SignalMap, item: Item, choice: Choice) -> list[tuple[str | None, Assumption]]:
    return [
        (word, assumes) for words, assumes in resolve_choice(item, choice, signals.setup) for word in (words or (None,))
    ]


def _follow(signals: SignalMap, here: FlowArrival, hop: Hop) -> Iterator[FlowArrival]:
    assumes = join_assumptions(here.assumes, hop.assumes)
    if assumes is None:
        return
    place = f"{hop.item}.{hop.name}"
    over = (hop.over,) if hop.over is not None else ()
    arrival = replace(here, place=place, path=(*here.path, *over, place), assumes=assumes)
    if hop.passed is not None:
        passed = _through(signals, arrival, signals.rig.items[hop.item], hop.passed)
    else:
        passed = [_over(signals, here.place, arrival, hop)]
    display = signals.part(hop.item).shows.get(hop.name)
    for one in passed:
        yield _delay(one, hop.item, display.latency) if display is not None else one


def _delay(arrival: FlowArrival, item: str, seconds: float) -> FlowArrival:
    return replace(arrival, delays=(*arrival.delays, (item, seconds))) if seconds > 0.0 else arrival


def _through(signals: SignalMap, arrival: FlowArrival, item: Item, one_pass: Pass) -> list[FlowArrival]:
    """What comes out of a pass: one arrival, or one for each format that an unknown setting may stand for."""
    arrival = _delay(arrival, item.name, one_pass.latency)
    form = arrival.format
    if one_pass.accepts and form is not None and not any(are_same_format(form, one) for one in one_pass.accepts):
        problem = Problem(Trouble.NOT_ACCEPTED, item.name, arrival.place, form, 0.0, 0.0, one_pass.accepts)
        arrival = replace(arrival, problems=(*arrival.problems, problem))
    if one_pass.format is None:
        return [arrival if one_pass.passive else replace(arrival, runs=(*arrival.runs, Run(form, ())))]
    setting = (item.name, one_pass.format.setting) if one_pass.format.setting is not None else None
    converted = []
    for word, chosen in _resolve_format(signals, item, one_pass.format):
        assumes = join_assumptions(arrival.assumes, chosen)
        if assumes is not None:
            runs = (*arrival.runs, Run(word, ()))
            converted.append(replace(arrival, format=word, format_setting=setting, runs=runs, assumes=assumes))
    return converted


def _over(signals: SignalMap, start: str, arrival: FlowArrival, hop: Hop) -> FlowArrival:
    """Along a lead, dock or link: whether the quickest protocol of the hop carries the rate that the format needs."""
    if hop.over is not None and hop.link is None:
        *before, last = arrival.runs
        arrival = replace(arrival, runs=(*before, replace(last, leads=(*last.leads, hop.over))))
    form = arrival.format
    needed = find_bit_rate(form) if form is not None else None
    carried = signals.rate_over(start, hop, arrival.flow)
    if form is None or needed is None or carried is None or needed <= carried * (1 + 1e-9):
        return arrival
    problem = Problem(Trouble.TOO_FAST, hop.over or hop.item, arrival.place, form, needed, carried, ())
    return replace(arrival, problems=(*arrival.problems, problem))
