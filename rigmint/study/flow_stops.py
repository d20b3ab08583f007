"""What stops a flow: the first thing in the way between its makers and the places at which it is due."""

from __future__ import annotations

import heapq
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import count

from rigmint.graph.signals import Stop
from rigmint.study.flows import list_makers
from rigmint.study.missing_joins import list_missing_joins
from rigmint.study.signal_map import SignalMap

_MOST_BARS = 4
_NO_LEAD_BARS = 2


@dataclass(frozen=True, slots=True, order=True)
class _Node:
    bars: int
    hops: int
    item: str
    name: str


@dataclass(frozen=True, slots=True)
class FlowStop:
    """A maker whose flow does not arrive, and what stops it first."""

    maker: str
    stop: Stop


def find_flow_stop(signals: SignalMap, flow: str, goals: Collection[tuple[str, str]]) -> FlowStop | None:
    """The first thing in the way on the way with the fewest bars from any maker to any of `goals` (item, place); None
    where no way leads there at all, or where nothing stops it."""
    heap: list[tuple[_Node, int, FlowStop | None, str]] = []
    serial = count()
    for item, name in list_makers(signals, flow):
        maker = f"{item}.{name}"
        off = FlowStop(maker, Stop(item, f"{item} is off")) if item in signals.setup.off else None
        heapq.heappush(heap, (_Node(1 if off else 0, 0, item, name), next(serial), off, maker))
    done: set[tuple[str, str]] = set()
    while heap:
        node, _, first, maker = heapq.heappop(heap)
        if (node.item, node.name) in done or node.bars > _MOST_BARS:
            continue
        done.add((node.item, node.name))
        if (node.item, node.name) in goals:
            return first
        for item, name, bars, stop in _relaxed_hops(signals, node, flow):
            if (item, name) not in done:
                here = first or (FlowStop(maker, stop) if stop is not None else None)
                following = _Node(node.bars + bars, node.hops + 1, item, name)
                heapq.heappush(heap, (following, next(serial), here, maker))
    return None


def _relaxed_hops(signals: SignalMap, node: _Node, flow: str) -> Iterator[tuple[str, str, int, Stop | None]]:
    for hop in signals.hops(node.item, node.name, flow, None, barred=True):
        yield hop.item, hop.name, 0 if hop.stop is None else 1, hop.stop
    for far, stop in list_missing_joins(signals, node.item, node.name, flow):
        yield far.item, far.port, _NO_LEAD_BARS, stop
