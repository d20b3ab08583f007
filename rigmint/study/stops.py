"""Nearest misses: what stops a control that could be meant for an axis from reaching it."""

from __future__ import annotations

import heapq
from collections.abc import Iterator
from dataclasses import dataclass

from rigmint.graph.signals import Stop
from rigmint.rig.device import Control, Mover, SignalKind
from rigmint.rig.place import setting_place
from rigmint.rig.rig import Item
from rigmint.study.claims import answers, list_sent
from rigmint.study.conditions import Barred, judge_when
from rigmint.study.hands import Stopped
from rigmint.study.missing_joins import list_missing_joins
from rigmint.study.signal_map import SignalMap

_MOST_BARS = 3
_NO_LEAD_BARS = 2


@dataclass(frozen=True, slots=True, order=True)
class _Node:
    bars: int
    hops: int
    item: str
    name: str
    kind: SignalKind


def find_stopped(signals: SignalMap, axis: str, movers: list[tuple[str, str]], reaching: set[str]) -> list[Stopped]:
    """For each control that can send `axis` and does not reach one of `movers` (item, mover), the first thing in the
    way on the way with the fewest bars. Controls in `reaching` reach it and are left out."""
    found = []
    for item_name in sorted(signals.setup.items):
        item = signals.rig.items[item_name]
        for control in item.part.controls.values():
            place = f"{item_name}.{control.name}"
            if place in reaching or not _can_send(item, control, axis):
                continue
            stop = _find_first_stop(signals, item, control, axis, movers)
            if stop is not None:
                found.append(Stopped(place, stop.by, stop.says))
    return found


def _can_send(item: Item, control: Control, axis: str) -> bool:
    if control.axis.setting is None:
        return axis in control.axis.words
    return axis in item.part.settings[control.axis.setting].values


def _find_first_stop(
    signals: SignalMap, item: Item, control: Control, axis: str, movers: list[tuple[str, str]]
) -> Stop | None:
    first = _bar_at_control(signals, item, control, axis)
    goals = {(mover_item, name) for mover_item, name in movers}
    start = _Node(1 if first else 0, 0, item.name, control.name, control.sends)
    heap = [start]
    stops: dict[tuple[str, str, SignalKind], Stop | None] = {(item.name, control.name, control.sends): first}
    done: set[tuple[str, str, SignalKind]] = set()
    while heap:
        node = heapq.heappop(heap)
        key = (node.item, node.name, node.kind)
        if key in done or node.bars > _MOST_BARS:
            continue
        done.add(key)
        if (node.item, node.name) in goals:
            return stops[key] or _bar_at_mover(signals, node, axis)
        for item_name, name, kind, bars, stop in _relaxed_hops(signals, node, axis):
            following = (item_name, name, kind)
            if following not in done:
                if following not in stops or stops[key] is None:
                    stops.setdefault(following, stops[key] or stop)
                heapq.heappush(heap, _Node(node.bars + bars, node.hops + 1, item_name, name, kind))
    return None


def _relaxed_hops(
    signals: SignalMap, node: _Node, axis: str
) -> Iterator[tuple[str, str, SignalKind, int, Stop | None]]:
    for hop in signals.hops(node.item, node.name, axis, node.kind, barred=True):
        if hop.kind is not None:
            yield hop.item, hop.name, hop.kind, 0 if hop.stop is None else 1, hop.stop
    for far, stop in list_missing_joins(signals, node.item, node.name, axis):
        yield far.item, far.port, node.kind, _NO_LEAD_BARS, stop


def _bar_at_control(signals: SignalMap, item: Item, control: Control, axis: str) -> Stop | None:
    if item.name in signals.setup.off:
        return Stop(item.name, f"{item.name} is off")
    if any(sent == axis for sent, _ in list_sent(item, control, signals)):
        return None
    conditions = judge_when(item, control.when, signals.setup)
    if isinstance(conditions, Barred):
        return Stop(conditions.by, conditions.says)
    setting = control.axis.setting or ""
    value = signals.setup.setting(item.name, setting)
    return Stop(setting_place(item.name, setting), f"{item.name}.{control.name} is set to {value}, not {axis}")


def _bar_at_mover(signals: SignalMap, node: _Node, axis: str) -> Stop | None:
    item = signals.rig.items[node.item]
    if node.item in signals.setup.off:
        return Stop(node.item, f"{node.item} is off")
    mover = item.part.moves[node.name]
    if answers(item, mover, axis, node.kind, signals):
        return None
    return _say_refusal(signals, item, mover, axis, node.kind)


def _say_refusal(signals: SignalMap, item: Item, mover: Mover, axis: str, kind: SignalKind) -> Stop:
    if mover.takes and kind not in mover.takes:
        taken = " or ".join(sorted(mover.takes))
        return Stop(item.name, f"{item.name} takes {taken} control, and this arrives as {kind}")
    conditions = judge_when(item, mover.when, signals.setup)
    if isinstance(conditions, Barred):
        return Stop(conditions.by, conditions.says)
    if mover.axis.setting is not None:
        value = signals.setup.setting(item.name, mover.axis.setting)
        return Stop(setting_place(item.name, mover.axis.setting), f"{item.name} is set to {value}, not {axis}")
    return Stop(item.name, f"{item.name} does not move {axis}")
