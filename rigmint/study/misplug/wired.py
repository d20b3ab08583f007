"""The volts of one wiring, and what a change of leads makes of them: only what the change touches is judged anew."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.graph.pins import PinNetwork, Source
from rigmint.rig.rig import Lead, Rig
from rigmint.study.misplug.metal import Joined, Laid, Metal
from rigmint.study.potentials import Potentials, spread_potentials


@dataclass(frozen=True, slots=True)
class Spread:
    """What each live source puts on the nets of a wiring, in the order of the sources."""

    nets: list[int]
    reaches: tuple[Potentials, ...]


@dataclass(frozen=True, slots=True)
class Touched:
    """What a change of leads does to the volts: the spread as it then is, and where it differs."""

    spread: Spread
    nodes: frozenset[int]
    """Nodes that see other volts than before, or may."""
    under_leads: frozenset[int]
    """Nets that the changed leads lie on."""
    is_same: bool = False
    """Whether no volts are other than before."""


class Overlay:
    """A metal with the leads of a setup over it. What is joined without some of them is kept, since many mistakes
    concern the same leads."""

    def __init__(self, rig: Rig, network: PinNetwork, leads: Mapping[str, Lead]) -> None:
        self.metal = Metal(rig, network)
        self._laid: dict[str, Laid] = {}
        size = self.metal.size
        for label, lead in leads.items():
            self._laid[label] = self.metal.lay(lead, size)
            size = self._laid[label].stop
        self._size = size
        self._one_way = {label for label, laid in self._laid.items() if not laid.is_plain}
        self._without: dict[frozenset[str], list[int]] = {}

    def join_base(self) -> Joined:
        """The nets as the rig file has them."""
        nets = self.metal.join(self._laid.values(), self._size)
        return Joined(nets, self.metal.add_one_ways(self._laid.values()))

    def join(self, leads: Mapping[str, Lead]) -> tuple[Joined, dict[str, Laid]]:
        """The nets with other leads of these labels, and how these lie."""
        size = self._size
        changed: dict[str, Laid] = {}
        for label, lead in leads.items():
            changed[label] = self.metal.lay(lead, size)
            size = changed[label].stop
        nets = self.metal.join(changed.values(), size, self._join_without(frozenset(changed)))
        left = [self._laid[label] for label in sorted(self._one_way - changed.keys())]
        return Joined(nets, self.metal.add_one_ways((*left, *changed.values()))), changed

    def _join_without(self, labels: frozenset[str]) -> list[int]:
        if labels not in self._without:
            left = [laid for label, laid in self._laid.items() if label not in labels]
            self._without[labels] = self.metal.join(left, self._size)
        return self._without[labels]

    def are_plain(self, changed: Mapping[str, Laid]) -> bool:
        """Whether these leads are wire and nothing else, before and after."""
        before = [self._laid[label] for label in changed if label in self._laid]
        return all(laid.is_plain for laid in (*before, *changed.values()))


class Wired:
    """One wiring, and what its live sources put on the nets."""

    def __init__(
        self,
        rig: Rig,
        network: PinNetwork,
        leads: Mapping[str, Lead],
        off: frozenset[str],
        *,
        guesses: bool,
        nominal: bool = False,
    ) -> None:
        self._overlay = Overlay(rig, network, leads)
        self._guesses = guesses
        self._nominal = nominal
        self.metal = self._overlay.metal
        self.sources: tuple[Source, ...] = tuple(one for one in self.metal.network.sources if one.item not in off)
        joined = self._overlay.join_base()
        self.network = joined.network
        self.base = self._spread(joined)

    def change(self, leads: Mapping[str, Lead]) -> Touched:
        """What other leads of these labels do to the volts."""
        joined, changed = self._overlay.join(leads)
        under = frozenset(joined.nets[node] for laid in changed.values() for node in laid.nodes)
        pairs = enumerate(zip(joined.nets, self.base.nets, strict=False))
        moved = [node for node, (new, old) in pairs if new != old]
        is_plain = self._overlay.are_plain(changed)
        if not moved and is_plain:
            return Touched(self.base, frozenset(), under, is_same=True)
        near = self._list_nets_near(joined, moved) if is_plain else None
        spread = Spread(joined.nets, tuple(self._respread(joined, old, near) for old in self.base.reaches))
        return self._compare(spread, moved, under)

    def _list_nets_near(self, joined: Joined, moved: list[int]) -> set[int]:
        """The nets of the wiring as it was that have a part in what changed: a source that reaches none of them
        reaches what it did."""
        nets = self.base.nets
        near = {nets[node] for node in moved} | {nets[joined.nets[node]] for node in moved}
        near |= {
            nets[regulator.source]
            for regulator in joined.network.regulators
            if nets[regulator.output] in near or nets[regulator.ground] in near
        }
        return near

    def _respread(self, joined: Joined, old: Potentials, near: set[int] | None) -> Potentials:
        if near is not None and near.isdisjoint(old.plus) and near.isdisjoint(old.minus):
            return old
        return self._spread_one(joined, old.source)

    def _spread(self, joined: Joined) -> Spread:
        return Spread(joined.nets, tuple(self._spread_one(joined, source) for source in self.sources))

    def _spread_one(self, joined: Joined, source: Source) -> Potentials:
        volts = source.nominal if self._nominal else source.highest
        return spread_potentials(joined.network, joined.nets, source, volts, guesses=self._guesses)

    def _compare(self, spread: Spread, moved: list[int], under: frozenset[int]) -> Touched:
        differing: set[int] = set()
        for new, old in zip(spread.reaches, self.base.reaches, strict=True):
            if new is old:
                continue
            if (new.shorted is None) != (old.shorted is None):
                return self.touch_all(spread, under)
            differing.update(net for net, _ in new.plus.items() ^ old.plus.items())
            differing.update(net for net, _ in new.minus.items() ^ old.minus.items())
        nodes = set(moved)
        if differing:
            nodes.update(node for node, net in enumerate(spread.nets[: self.metal.size]) if net in differing)
        return Touched(spread, frozenset(nodes), under)

    def touch_all(self, spread: Spread, under: frozenset[int]) -> Touched:
        """Everything is to be judged anew."""
        return Touched(spread, frozenset(range(self.metal.size)), under)
