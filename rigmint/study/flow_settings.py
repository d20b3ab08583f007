"""Settings that bring a flow to a place: those on the way, tried one by one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from rigmint.physics.rasters import parse_format
from rigmint.study.flows import FlowArrival, find_flow_arrivals
from rigmint.study.freeing import change_setting
from rigmint.study.signal_map import SignalMap


def find_flow_settings(
    signals: SignalMap, flow: str, place: str, candidates: Iterable[tuple[str, str]]
) -> tuple[tuple[str, str, str], ...]:
    """(item, setting, value) that alone bring the flow to a place without problems, and neither take it from another
    place nor spoil it there. Formats of the frame rate that is set now come first, then the richest."""
    before = find_flow_arrivals(signals, flow)
    found = []
    for item, name in candidates:
        for value in _list_values(signals, item, name):
            setup = change_setting(signals.setup, item, name, value)
            after = find_flow_arrivals(SignalMap(signals.rig, setup, signals.leaves), flow)
            if _is_sound(after, place) and _keeps_the_rest(before, after):
                found.append((item, name, value))
    return tuple(found)


def gating_flow_settings(signals: SignalMap, flow: str) -> tuple[tuple[str, str], ...]:
    """(item, setting) on which passes that may carry the flow depend."""
    found: dict[tuple[str, str], None] = {}
    for item in sorted(signals.setup.items - signals.setup.off):
        for one_pass in signals.part(item).passes:
            if one_pass.carries is None or flow in one_pass.carries:
                found |= {(item, name): None for name in one_pass.when}
    return tuple(found)


def _list_values(signals: SignalMap, item: str, name: str) -> Iterator[str]:
    now = signals.setup.setting(item, name)
    raster = parse_format(now) if now is not None else None

    def rank(value: str) -> tuple[bool, float]:
        other = parse_format(value)
        rate = other.compute_bit_rate() if other is not None else None
        is_kept = raster is not None and other is not None and raster.frames == other.frames
        return not is_kept, -(rate or 0.0)

    values = (value for value in signals.part(item).settings[name].values if value != now)
    yield from sorted(values, key=rank)


def _is_sound(arrivals: Iterable[FlowArrival], place: str) -> bool:
    return any(arrival.place == place and not arrival.problems for arrival in arrivals)


def _keeps_the_rest(before: Iterable[FlowArrival], after: Iterable[FlowArrival]) -> bool:
    problems = {(arrival.maker, arrival.place): len(arrival.problems) for arrival in after}
    return all(
        problems.get((arrival.maker, arrival.place), len(arrival.problems) + 1) <= len(arrival.problems)
        for arrival in before
    )
