"""A wiring as pieces of metal, with its leads laid over them: changing a lead changes only what it joins.

Items and docks give the nodes: contacts, rails and grounds that are one piece of metal. A lead joins nodes, or puts a
diode or a regulator between them. So the nets of a rig with one lead plugged otherwise are those few joins anew, and
not the whole network.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from rigmint.graph.nets import Groups
from rigmint.graph.pins import OneWay, Pin, PinNetwork, Regulator
from rigmint.rig.connector import go_together
from rigmint.rig.lead import Conductor, EndContact
from rigmint.rig.rig import Lead, Rig


@dataclass(frozen=True, slots=True)
class Laid:
    """A lead on the metal: the nodes that each of its wires joins, and what conducts one way in it. A contact that
    touches no port is a node of its own, numbered from `start` to `stop`."""

    groups: tuple[tuple[int, ...], ...]
    diodes: tuple[OneWay, ...]
    regulators: tuple[Regulator, ...]
    stop: int

    @property
    def nodes(self) -> Iterator[int]:
        """Every node that it touches."""
        for group in self.groups:
            yield from group
        for diode in self.diodes:
            yield from (diode.anode, diode.cathode)
        for regulator in self.regulators:
            yield from (regulator.source, regulator.output, regulator.ground)

    @property
    def is_plain(self) -> bool:
        """Whether it is wire and nothing else."""
        return not self.diodes and not self.regulators


@dataclass(frozen=True, slots=True)
class Joined:
    """The metal with leads over it: the net of each node, as the smallest of its nodes, and what conducts one way."""

    nets: list[int]
    network: PinNetwork
    """Of nodes in the place of pins, without joins: those are in `nets`."""


class Metal:
    """The nodes of a network, without its leads."""

    def __init__(self, rig: Rig, network: PinNetwork) -> None:
        self._rig = rig
        groups = Groups(len(network.pins))
        for join in network.joins:
            if not network.pins[join.first].is_lead and not network.pins[join.second].is_lead:
                groups.unite(join.first, join.second)
        numbers: dict[int, int] = {}
        self._nodes = [
            -1 if pin.is_lead else numbers.setdefault(groups.root(index), len(numbers))
            for index, pin in enumerate(network.pins)
        ]
        self._index = network.index
        self.size = len(numbers)
        nodes = self._nodes
        self.network = replace(
            network,
            pins=(),
            joins=(),
            mates=(),
            misfits=(),
            diodes=tuple(
                replace(one, anode=nodes[one.anode], cathode=nodes[one.cathode])
                for one in network.diodes
                if nodes[one.anode] >= 0
            ),
            regulators=tuple(
                replace(one, source=nodes[one.source], output=nodes[one.output], ground=nodes[one.ground])
                for one in network.regulators
                if nodes[one.source] >= 0
            ),
            sources=tuple(replace(one, plus=nodes[one.plus], minus=nodes[one.minus]) for one in network.sources),
            loads=tuple(replace(one, rail_pin=nodes[one.rail_pin], ground=nodes[one.ground]) for one in network.loads),
        )

    def node(self, pin: Pin) -> int:
        """The node of a pin of an item."""
        return self._nodes[self._index[pin]]

    def lay(self, lead: Lead, start: int) -> Laid:
        """A lead over the metal; its own nodes are numbered from `start`."""
        return _Laying(self, self._rig, lead, start).lay()

    def join(self, laid: Iterable[Laid], size: int, onto: Sequence[int] = ()) -> list[int]:
        """The net of each of so many nodes with these leads over them, as the smallest of its nodes. `onto`: nets of
        some of them that are joined already."""
        parent = [*onto, *range(len(onto), size)]
        for one in laid:
            for group in one.groups:
                root = _find_root(parent, group[0])
                for node in group[1:]:
                    other = _find_root(parent, node)
                    if other < root:
                        parent[root] = root = other
                    elif other > root:
                        parent[other] = root
        for node in range(size):  # parents come before their children, so one step is enough
            parent[node] = parent[parent[node]]
        return parent

    def add_one_ways(self, laid: Iterable[Laid]) -> PinNetwork:
        """What conducts one way, of the items and of these leads."""
        diodes = [diode for one in laid for diode in one.diodes]
        regulators = [regulator for one in laid for regulator in one.regulators]
        if not diodes and not regulators:
            return self.network
        return replace(
            self.network,
            diodes=(*self.network.diodes, *diodes),
            regulators=(*self.network.regulators, *regulators),
        )


def _find_root(parent: list[int], node: int) -> int:
    while parent[node] != node:
        parent[node] = parent[parent[node]]
        node = parent[node]
    return node


class _Laying:
    """The wires of one lead, contact by contact, and the nodes that its plugged ends touch."""

    def __init__(self, metal: Metal, rig: Rig, lead: Lead, start: int) -> None:
        self._metal = metal
        self._lead = lead
        self._next = start
        self._touched: dict[str, frozenset[str]] = {}
        self._numbers: dict[EndContact, int] = {}
        for end, ref in lead.plugged.items():
            port, half = rig.items[ref.item].part.ports[ref.port], lead.body.ends[end]
            if go_together(port, half):
                self._touched[end] = frozenset(port.connector.contacts).intersection(half.connector.contacts)

    def lay(self) -> Laid:
        groups, diodes, regulators = [], [], []
        for wire in self._lead.body.conductors:
            near, far = self._node(wire.source), self._node(wire.target)
            if wire.regulator is not None and wire.ground is not None:
                regulators.append(self._make_regulator(wire, near, far))
            elif wire.diode is not None:
                diodes.append(OneWay(near, far, wire.diode, self._lead.label, conductor=wire))
            else:
                groups.append((near, far))
        return Laid(tuple(groups), tuple(diodes), tuple(regulators), self._next)

    def _make_regulator(self, wire: Conductor, near: int, far: int) -> Regulator:
        assert wire.regulator is not None
        assert wire.ground is not None
        spec = wire.regulator
        return Regulator(near, far, self._node(wire.ground), spec, spec.out, self._lead.label, conductor=wire)

    def _node(self, contact: EndContact) -> int:
        number = self._numbers.get(contact)
        if number is None:
            number = self._numbers[contact] = self._find_node(contact)
        return number

    def _find_node(self, contact: EndContact) -> int:
        if contact.contact in self._touched.get(contact.end, ()):
            ref = self._lead.plugged[contact.end]
            return self._metal.node(Pin(ref.item, ref.port, contact.contact))
        self._next += 1
        return self._next - 1
