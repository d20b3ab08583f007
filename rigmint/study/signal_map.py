"""How signals may go on from a place, in a setup: through passes, along leads and docks, over links.

The same map carries axes (with the kind in which a control acts) and flows such as picture (without one).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from rigmint.graph.presence import Presence
from rigmint.graph.signals import Connection, Stop, connect_ports
from rigmint.rig.choice import Choice
from rigmint.rig.device import Pass, SignalKind
from rigmint.rig.part import Part
from rigmint.rig.place import setting_place
from rigmint.rig.rig import Item, Link, PortRef, Rig, Setup
from rigmint.study.conditions import (
    NOTHING,
    Assumption,
    Barred,
    join_assumptions,
    judge_when,
    resolve_choice,
)
from rigmint.study.reach import find_reach


@dataclass(frozen=True, slots=True)
class Hop:
    """One step to another place. `over` is the lead or the link that it uses; `stop` is why it is barred."""

    item: str
    name: str
    kind: SignalKind | None
    over: str | None = None
    assumes: Assumption = NOTHING
    stop: Stop | None = None
    link: Link | None = None
    passed: Pass | None = None


class SignalMap:
    """The hops of one rig in one setup; built once and shared by all searches."""

    def __init__(self, rig: Rig, setup: Setup, leaves: Mapping[str, float]) -> None:
        """`leaves`: the share of a stated radio reach that each place leaves, where the library sets it."""
        self.rig = rig
        self.setup = setup
        self.leaves = leaves
        self._connections: dict[PortRef, list[tuple[PortRef, Connection]]] = defaultdict(list)
        for connection in connect_ports(rig, Presence.of(setup)):
            self._connections[connection.first].append((connection.second, connection))
            self._connections[connection.second].append((connection.first, connection))
        self._links: dict[PortRef, list[tuple[PortRef, Link, Stop | None]]] = defaultdict(list)
        self._peers: dict[PortRef, int] = defaultdict(int)
        for name in sorted(setup.links):
            self._add_link(rig.links[name])
        self._passes: dict[tuple[str, str], list[Pass]] = defaultdict(list)
        for item in sorted(setup.items):
            for one_pass in rig.items[item].part.passes:
                for source in one_pass.sources:
                    self._passes[item, source].append(one_pass)

    def part(self, item: str) -> Part:
        """The part of an item."""
        return self.rig.items[item].part

    def hops(self, item: str, name: str, token: str, kind: SignalKind | None, *, barred: bool = False) -> Iterator[Hop]:
        """The hops of an axis or a flow from a place. `barred`: those that something stops too, with the reason."""
        for one_pass in self._passes.get((item, name), ()):
            yield from self._pass_hops(self.rig.items[item], one_pass, name, token, kind, barred)
        ref = PortRef(item, name)
        for other, connection in self._connections.get(ref, ()):
            hop = self._connection_hop(other, connection, token, kind)
            if hop.stop is None or barred:
                yield hop
        for other, link, stop in self._links.get(ref, ()):
            hop = self._link_hop(ref, other, link, stop, token, kind)
            if hop.stop is None or barred:
                yield hop

    def reach_of(self, item: str, name: str, hop: Hop) -> float | None:
        """m that a hop over a link reaches, as the place leaves it."""
        if hop.link is None:
            return None
        here, there = PortRef(item, name), PortRef(hop.item, hop.name)
        reach = find_reach(self.rig, self.setup, here, there, hop.link, self.leaves)
        return reach.derated if reach is not None else None

    def rate_over(self, place: str, hop: Hop, token: str) -> float | None:
        """bit/s of the quickest protocol that carries a flow over a hop from `place`; None where one states no rate."""
        item, _, name = place.partition(".")
        if hop.link is not None:
            ends = [self.part(item).radios.get(name), self.part(hop.item).radios.get(hop.name)]
            spoken = [set(end.speaks) for end in ends if end is not None]
            protocols = set.intersection(*spoken) if spoken else set()
        else:
            protocols = {
                protocol
                for other, connection in self._connections.get(PortRef(item, name), ())
                if other == PortRef(hop.item, hop.name) and connection.lead == hop.over
                for protocol in connection.protocols
            }
        rates = [self.rig.protocols[one].bit_rate for one in protocols if token in self.rig.protocols[one].carries]
        if not rates or None in rates:
            return None
        return max(rate for rate in rates if rate is not None)

    def protocols_over(self, label: str) -> frozenset[str]:
        """The protocols that pass over a lead between any two of its ends."""
        return frozenset(
            name
            for connections in self._connections.values()
            for _, connection in connections
            if connection.lead == label
            for name in connection.protocols
        )

    def is_connected(self, ref: PortRef) -> bool:
        """Whether a lead or a dock is on the port."""
        return ref in self._connections

    def are_linked(self, one: PortRef, other: PortRef) -> bool:
        """Whether a link of the setup holds both radios, at the hub or side by side."""
        return any({one, other} <= set(self.rig.links[name].radios) for name in self.setup.links)

    def carries(self, item: str, name: str, token: str) -> bool:
        """Whether a protocol that the port or radio speaks carries the axis or flow; true for anything else."""
        part = self.part(item)
        end = part.ports.get(name) or part.radios.get(name)
        if end is None:
            return True
        return any(token in self.rig.protocols[protocol].carries for protocol in end.speaks)

    def _add_link(self, link: Link) -> None:
        hub, *others = link.radios
        peers = self.part(hub.item).radios[hub.port].peers
        for other in others:
            if other.item not in self.setup.items:
                continue
            stop = None
            if not self.setup.off & {hub.item, other.item}:  # what is off takes no place at the hub
                self._peers[hub] += 1
            if peers is not None and self._peers[hub] > peers:
                stop = Stop(link.place, f"{hub.place} holds {peers} peers, and {other.place} is one more")
            self._links[hub].append((other, link, stop))
            self._links[other].append((hub, link, stop))

    def _pass_hops(
        self, item: Item, one_pass: Pass, name: str, token: str, kind: SignalKind | None, barred: bool
    ) -> Iterator[Hop]:
        out_kind = one_pass.becomes if one_pass.becomes is not None and kind is not None else kind
        stop, assumptions = self._judge_pass(item, one_pass, name, token)
        for target in one_pass.targets:
            if target == name:
                continue
            here = stop
            if here is None and not self._hands_on(item.name, one_pass, target, token):
                here = Stop(item.name, f"{item.name}.{target} does not carry {token}")
            if here is not None:
                if barred:
                    yield Hop(item.name, target, out_kind, stop=here, passed=one_pass)
                continue
            for assumption in assumptions:
                yield Hop(item.name, target, out_kind, assumes=assumption, passed=one_pass)

    def _judge_pass(self, item: Item, one_pass: Pass, name: str, token: str) -> tuple[Stop | None, list[Assumption]]:
        if item.name in self.setup.off and not one_pass.passive:
            return Stop(item.name, f"{item.name} is off"), []
        conditions = judge_when(item, one_pass.when, self.setup)
        if isinstance(conditions, Barred):
            return Stop(conditions.by, conditions.says), []
        if one_pass.axes is None:
            if one_pass.carries is not None and token not in one_pass.carries:
                return Stop(item.name, f"{item.name} does not hand on {token} from {name}"), []
            if not self._hands_on(item.name, one_pass, name, token):
                return Stop(item.name, f"{item.name}.{name} does not carry {token}"), []
            return None, conditions
        choices = resolve_choice(item, one_pass.axes, self.setup)
        fitting = [assumption for words, assumption in choices if token in words]
        if not fitting:
            return self._say_axes(item, one_pass.axes, name, token), []
        joined = [join_assumptions(one, two) for one in conditions for two in fitting]
        return None, [assumption for assumption in joined if assumption is not None]

    def _say_axes(self, item: Item, axes: Choice, name: str, token: str) -> Stop:
        if axes.setting is None:
            carried = " and ".join(axes.words)
            return Stop(item.name, f"{item.name} hands on only {carried} from {name}, not {token}")
        value = self.setup.setting(item.name, axes.setting)
        says = f"{item.name} hands on one axis from {name}, and {axes.setting} is {value}, not {token}"
        return Stop(setting_place(item.name, axes.setting), says)

    def _hands_on(self, item: str, one_pass: Pass, name: str, token: str) -> bool:
        """A pass that names no axes hands on what the protocols at its ends carry."""
        if one_pass.axes is not None or one_pass.carries is not None:
            return True
        return self.carries(item, name, token)

    def _connection_hop(self, other: PortRef, connection: Connection, token: str, kind: SignalKind | None) -> Hop:
        protocols = self.rig.protocols
        if any(token in protocols[name].carries for name in connection.protocols):
            return Hop(other.item, other.port, kind, connection.lead)
        stops = [stop for name, stop in connection.stops if token in protocols[name].carries]
        by = connection.lead or other.place
        stop = stops[0] if stops else Stop(by, f"nothing between them carries {token}")
        return Hop(other.item, other.port, kind, connection.lead, stop=stop)

    def _link_hop(
        self, ref: PortRef, other: PortRef, link: Link, stop: Stop | None, token: str, kind: SignalKind | None
    ) -> Hop:
        shared = set(self.part(ref.item).radios[ref.port].speaks) & set(self.part(other.item).radios[other.port].speaks)
        if stop is None and not shared:
            stop = Stop(link.place, f"{ref.place} and {other.place} do not speak the same")
        if stop is None and not any(token in self.rig.protocols[name].carries for name in shared):
            stop = Stop(link.place, f"{link.place} does not carry {token}")
        return Hop(other.item, other.port, kind, link.place, stop=stop, link=link)
