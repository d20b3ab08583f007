"""What one source can put on every net, with loads at zero: a search, not a solution.

From the source's plus outwards, through everything that conducts, the highest potential on each net; from its minus,
against the current, the lowest. Both are V against the source's minus.
"""

from __future__ import annotations

import heapq
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rigmint.graph.pins import PinNetwork, Source

BODY_DROP = 0.7
"""V that a regulator which does not block loses from its output to its input (common practice)."""
SHORT_VOLTS = 0.1
_MOST_WAYS = 32


@dataclass(frozen=True, slots=True)
class Potentials:
    """One source's reach. `shorted` names the net on which its plus and its minus meet, if they do."""

    source: Source
    plus: Mapping[int, float]
    """Net to the highest V that current from the source's plus can bring."""
    minus: Mapping[int, float]
    """Net to the lowest V from which current can return to the source's minus."""
    shorted: int | None

    def across(self, plus_net: int, minus_net: int) -> float | None:
        """V between two nets: positive as meant, negative reversed; None where no current can flow."""
        if plus_net in self.plus and minus_net in self.minus:
            return self.plus[plus_net] - self.minus[minus_net]
        if plus_net in self.minus and minus_net in self.plus:
            return self.minus[plus_net] - self.plus[minus_net]
        return None


def spread_potentials(
    network: PinNetwork, nets: Sequence[int], source: Source, volts: float, *, guesses: bool = True
) -> Potentials:
    """The reach of a source that gives `volts`. Without `guesses` a regulator that does not state whether it blocks
    counts as blocking."""
    minus = _spread_minus(network, nets, source)
    plus = _spread_plus(network, nets, source, volts, minus, guesses=guesses)
    shorted = _find_short(network, nets, source, plus, minus)
    return Potentials(source, plus, minus, shorted)


def _spread_minus(network: PinNetwork, nets: Sequence[int], source: Source) -> dict[int, float]:
    into: dict[int, list[tuple[int, float]]] = defaultdict(list)
    for diode in network.diodes:
        into[nets[diode.cathode]].append((nets[diode.anode], diode.drop))
    found: dict[int, float] = {}
    heap = [(0.0, nets[source.minus])]
    while heap:
        volts, net = heapq.heappop(heap)
        if net in found:
            continue
        found[net] = volts
        for other, drop in into.get(net, ()):
            if other not in found:
                heapq.heappush(heap, (volts + drop, other))
    return found


def _spread_plus(
    network: PinNetwork, nets: Sequence[int], source: Source, volts: float, minus: Mapping[int, float], *, guesses: bool
) -> dict[int, float]:
    out_of: dict[int, list[_Step]] = defaultdict(list)
    for diode in network.diodes:
        out_of[nets[diode.anode]].append(_Step(nets[diode.cathode], diode.drop))
    for regulator in network.regulators:
        source_net, output_net = nets[regulator.source], nets[regulator.output]
        if regulator.spec.blocks is False or (guesses and regulator.spec.blocks is None):
            out_of[output_net].append(_Step(source_net, BODY_DROP))
        ground = minus.get(nets[regulator.ground])
        if ground is not None:
            low = ground + regulator.spec.takes.low
            out_of[source_net].append(_Step(output_net, 0.0, ground + regulator.out, low))
    return _search_highest(out_of, nets[source.plus], volts)


@dataclass(frozen=True, slots=True)
class _Step:
    """From a net to the next: a drop, or the fixed potential of a regulator that needs at least so much."""

    net: int
    drop: float
    fixed: float | None = None
    least: float = float("-inf")

    @property
    def can_raise(self) -> bool:
        """Whether it can give more than it takes."""
        return self.fixed is not None and self.fixed > self.least


def _search_highest(out_of: dict[int, list[_Step]], start: int, volts: float) -> dict[int, float]:
    """The highest V on each net over the paths that come to no net twice: what steps up cannot raise its own feed.

    Where nothing steps up, the highest way to a net is all that counts. Else the nets that a way has passed count too,
    since they are closed to it; of each net the highest few ways are followed.
    """
    can_raise = any(step.can_raise for steps in out_of.values() for step in steps)
    kept: dict[int, list[tuple[float, frozenset[int]]]] = defaultdict(list)
    heap = [(-volts, 0, start, frozenset({start}))]
    pushed = 0
    while heap:
        negative, _, net, passed = heapq.heappop(heap)
        here, ways = -negative, kept[net]
        if len(ways) >= _MOST_WAYS or any(high >= here and (not can_raise or path <= passed) for high, path in ways):
            continue
        ways.append((here, passed))
        for step in out_of.get(net, ()):
            if step.net not in passed and here >= step.least:
                pushed += 1
                there = step.fixed if step.fixed is not None else here - step.drop
                heapq.heappush(heap, (-there, pushed, step.net, passed | {step.net}))
    return {net: max(high for high, _ in ways) for net, ways in kept.items()}


def _find_short(
    network: PinNetwork, nets: Sequence[int], source: Source, plus: Mapping[int, float], minus: Mapping[int, float]
) -> int | None:
    if nets[source.plus] == nets[source.minus]:
        return nets[source.plus]
    for net, volts in plus.items():
        if net in minus and volts > minus[net] + SHORT_VOLTS:
            return net
    for regulator in network.regulators:
        if nets[regulator.output] == nets[regulator.ground] and nets[regulator.source] in plus:
            return nets[regulator.output]
    return None
