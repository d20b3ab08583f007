"""What is unpowered when a lead is taken out, for many leads of one network, at a fraction of a study for each.

What is joined without leads is joined once and for all; a lead that is taken out can only part nets that it belongs to,
and only sources that reach a net which falls apart have to be searched again.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace

from rigmint.graph.nets import Groups
from rigmint.graph.pins import PinNetwork
from rigmint.rig.rig import Rig, Setup
from rigmint.study.potentials import spread_potentials
from rigmint.study.powering import SourceReach, close_switches, is_fed, without_signal_returns


class LeadCuts:
    """The leads of one setup."""

    def __init__(self, rig: Rig, setup: Setup, network: PinNetwork) -> None:
        closed = close_switches(rig, setup, network)
        self._loads = [load for load in network.loads if load.item not in setup.off]
        self._now = _Cuts(closed, setup)
        self._by_feed = _Cuts(without_signal_returns(rig, closed), setup)

    def list_unpowered(self, label: str) -> frozenset[tuple[str, str]]:
        """(item, rail) of what no source feeds without a lead, as `study_powering` of the network without it says."""
        now, by_feed = self._now.reach_without(label), self._by_feed.reach_without(label)
        return frozenset(load.key for load in self._loads if not (is_fed(load, now) and is_fed(load, by_feed)))


@dataclass(frozen=True, slots=True)
class _Whole:
    """A network with all its leads. Blocks are what is joined without them."""

    block_of_pin: list[int]
    net_of_block: list[int]
    of_lead: dict[str, set[int]]
    """Label of a lead to the blocks that it joins."""
    beside: list[list[tuple[str, int]]]
    """For each block the leads that join it, and to which block each does."""
    of_items: dict[int, set[int]]
    """Net to those of its blocks that hold pins of items."""


class _Cuts:
    """One network, and what its sources reach without each lead."""

    def __init__(self, network: PinNetwork, setup: Setup) -> None:
        self._network = network
        self._whole = _join_blocks(network)
        nets = [self._whole.net_of_block[block] for block in self._whole.block_of_pin]
        self._reach = [
            SourceReach(nets, spread_potentials(network, nets, source, source.highest))
            for source in network.sources
            if source.item not in setup.off
        ]
        outputs = {nets[pin] for one in network.regulators for pin in (one.output, one.ground)}
        self._seen = [outputs.union(one.potentials.plus, one.potentials.minus) for one in self._reach]
        """For each source the nets that its potentials, or whether it is shorted, depend on."""
        self._with_parts = {one.owner for one in network.diodes} | {one.owner for one in network.regulators}

    def reach_without(self, label: str) -> list[SourceReach]:
        """What the sources reach when a lead is out."""
        net_of_block, parted = self._part_nets(label)
        network = self._network
        if label in self._with_parts:
            network = replace(
                network,
                diodes=tuple(diode for diode in network.diodes if diode.owner != label),
                regulators=tuple(one for one in network.regulators if one.owner != label),
            )
        elif not parted:
            return self._reach
        nets = [net_of_block[block] for block in self._whole.block_of_pin]
        found = []
        for known, seen in zip(self._reach, self._seen, strict=True):
            if label in self._with_parts or not parted.isdisjoint(seen):
                source = known.potentials.source
                found.append(SourceReach(nets, spread_potentials(network, nets, source, source.highest)))
            else:
                found.append(known)
        return found

    def _part_nets(self, label: str) -> tuple[list[int], set[int]]:
        """The net of each block without a lead; the nets of the whole network that fall apart, the lead's own pins left
        aside."""
        whole = self._whole
        net_of_block, parted = list(whole.net_of_block), set()
        for net in {whole.net_of_block[block] for block in whole.of_lead.get(label, ())}:
            left = set(whole.of_items.get(net, ()))
            pieces = 0
            while left:
                piece = _walk(whole, next(iter(left)), label)
                pieces += 1
                left -= piece
                for block in piece:
                    net_of_block[block] = len(net_of_block) + min(piece)
            if pieces > 1:
                parted.add(net)
        return net_of_block, parted


def _walk(whole: _Whole, start: int, label: str) -> set[int]:
    """The blocks that are joined to one without a lead."""
    seen, pending = {start}, [start]
    while pending:
        for owner, other in whole.beside[pending.pop()]:
            if owner != label and other not in seen:
                seen.add(other)
                pending.append(other)
    return seen


def _join_blocks(network: PinNetwork) -> _Whole:
    of_leads, blocks = [], Groups(len(network.pins))
    for join in network.joins:
        if network.pins[join.first].is_lead or network.pins[join.second].is_lead:
            of_leads.append(join)
        else:
            blocks.unite(join.first, join.second)
    numbers: dict[int, int] = {}
    block_of_pin = [numbers.setdefault(blocks.root(pin), len(numbers)) for pin in range(len(network.pins))]
    of_lead: dict[str, set[int]] = defaultdict(set)
    beside: list[list[tuple[str, int]]] = [[] for _ in numbers]
    groups = Groups(len(numbers))
    for join in of_leads:
        first, second = block_of_pin[join.first], block_of_pin[join.second]
        of_lead[join.owner] |= {first, second}
        beside[first].append((join.owner, second))
        beside[second].append((join.owner, first))
        groups.unite(first, second)
    net_of_block = [groups.root(block) for block in range(len(numbers))]
    of_items: dict[int, set[int]] = defaultdict(set)
    for index, pin in enumerate(network.pins):
        if not pin.is_lead:
            of_items[net_of_block[block_of_pin[index]]].add(block_of_pin[index])
    return _Whole(block_of_pin, net_of_block, dict(of_lead), beside, dict(of_items))
