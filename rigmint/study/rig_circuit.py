"""The direct-current circuit of a rig in a setup: the pin-level network as elements with resistance.

- Contacts of a mate, conductors, switches, wires and fuses are resistors; what joins at zero ohm is one node.
- A diode or a regulator in a lead has the conductor's resistance before it.
- A switch whose setting nobody stated counts as closed. What is off draws and gives nothing; its body conducts.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Container, Iterator, Mapping
from dataclasses import dataclass, field

from rigmint.graph.nets import Groups
from rigmint.graph.pins import Join, JoinKind, Load, OneWay, PinNetwork, Regulator, Source
from rigmint.physics import circuit
from rigmint.rig.electric import BridgeKind, LoadKind, Role
from rigmint.rig.lead import Conductor
from rigmint.rig.part import Part
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.lead_ohms import FUSE_OHMS, conductor_ohms
from rigmint.study.powering import close_switches

LEAST_WINDOW = 0.5
"""V: the lower end of a load's window where nothing states one."""
REGULATED_SHARE = 0.9

_KINDS = {
    LoadKind.POWER: circuit.LoadKind.POWER,
    LoadKind.CURRENT: circuit.LoadKind.CURRENT,
    LoadKind.RESISTANCE: circuit.LoadKind.RESISTANCE,
}


@dataclass(frozen=True, slots=True)
class PortTerminals:
    """A port with a feed and a minus: the pins of its feeds, and the nodes between which its volts lie (None: on a
    net without sources or loads)."""

    ref: PortRef
    feeds: tuple[int, ...]
    plus: int | None
    minus: int | None


@dataclass(frozen=True, slots=True)
class RigCircuit:
    """A circuit and which element of the rig each of its elements is. Tuples are in the circuit's order."""

    network: PinNetwork
    circuit: circuit.Circuit
    node_of: tuple[int | None, ...]
    """Pin to node; None for a pin on a net without sources or loads."""
    joins: tuple[Join | OneWay | Regulator, ...]
    """What each resistor is: a join, or the conductor before a diode or a regulator."""
    sources: tuple[Source, ...]
    loads: tuple[Load, ...]
    diodes: tuple[OneWay, ...]
    regulators: tuple[Regulator, ...]
    ports: tuple[PortTerminals, ...]
    """By item, in the order of each part."""
    idle: frozenset[int]
    """Indices of loads that draw nothing: those of items that are off, and those left out on purpose."""

    def list_amounts(self, peaking: Mapping[int, float], only: Container[int] | None = None) -> list[float]:
        """The amount of each load: its peak where its index is in `peaking`, nothing where it is idle or not among
        `only`."""
        return [
            _nothing(load)
            if index in self.idle or (only is not None and index not in only)
            else peaking.get(index, load.draw.amount)
            for index, load in enumerate(self.loads)
        ]


def build_rig_circuit(
    rig: Rig, setup: Setup, network: PinNetwork, wire_kelvin: float, idle: Collection[tuple[str, str]] = ()
) -> RigCircuit:
    """The circuit of a setup at a wire temperature in K; `idle`: (item, rail) of loads to leave out."""
    return _Builder(rig, setup, close_switches(rig, setup, network), wire_kelvin, frozenset(idle)).build()


def find_window_low(part: Part, rail: str) -> float:
    """The lower end of a load's window in V: the lowest `works` of the inputs that reach its rail directly or through
    wires, switches and diodes; else 0.9 of the regulator that feeds it; else the lower end of a cell on it."""
    rails = _reached_backwards(part, rail)
    lows = [
        port.works.low
        for port in part.ports.values()
        if port.role is not Role.OUT and port.works is not None and rails & set(port.feeds.values())
    ]
    if lows:
        return max(min(lows), LEAST_WINDOW)
    fed = [bridge.regulator.out for bridge in part.bridges if bridge.regulator is not None and bridge.target in rails]
    if fed:
        return REGULATED_SHARE * min(fed)
    cells = [cell.volts.low for cell in part.cells.values() if cell.rail in rails]
    return max(min(cells, default=LEAST_WINDOW), LEAST_WINDOW)


def _reached_backwards(part: Part, rail: str) -> set[str]:
    """The rails from which current comes to a rail without a regulator between."""
    reached, frontier = {rail}, [rail]
    while frontier:
        here = frontier.pop()
        for bridge in part.bridges:
            both_ways = bridge.kind in (BridgeKind.WIRE, BridgeKind.SWITCH)
            comes_from = {bridge.source} if bridge.target == here and bridge.kind is not BridgeKind.REGULATOR else set()
            if both_ways and bridge.source == here:
                comes_from.add(bridge.target)
            for other in comes_from - reached:
                reached.add(other)
                frontier.append(other)
    return reached


@dataclass(slots=True)
class _Builder:
    rig: Rig
    setup: Setup
    network: PinNetwork
    wire_kelvin: float
    idle: frozenset[tuple[str, str]]
    resistors: list[circuit.Resistor] = field(default_factory=list)
    joins: list[Join | OneWay | Regulator] = field(default_factory=list)
    node_of: list[int | None] = field(default_factory=list)
    nodes: int = 0

    def build(self) -> RigCircuit:
        self._number_nodes()
        for join in self.network.joins:
            if not _is_joint(join):
                self._add_resistor(self.node_of[join.first], self.node_of[join.second], self._ohms(join), join)
        diodes = tuple(self._build_diode(diode) for diode in self.network.diodes)
        regulators = tuple(self._build_regulator(regulator) for regulator in self.network.regulators)
        cells = tuple(self._build_cell(source) for source in self.network.sources)
        loads = tuple(self._build_load(load) for load in self.network.loads)
        return RigCircuit(
            network=self.network,
            circuit=circuit.Circuit(self.nodes, tuple(self.resistors), cells, diodes, loads, regulators),
            node_of=tuple(self.node_of),
            joins=tuple(self.joins),
            sources=self.network.sources,
            loads=self.network.loads,
            diodes=self.network.diodes,
            regulators=self.network.regulators,
            ports=tuple(self._list_ports()),
            idle=frozenset(index for index, load in enumerate(self.network.loads) if self._is_idle(load)),
        )

    def _list_ports(self) -> Iterator[PortTerminals]:
        for name in self.network.list_items(self.rig.items):
            for port in self.rig.items[name].part.ports.values():
                if port.carries_power:
                    ref = PortRef(name, port.name)
                    feeds = self.network.port_pins(ref, tuple(port.feeds))
                    minus = self.network.port_pins(ref, port.minus_contacts)[0]
                    yield PortTerminals(ref, feeds, self.node_of[feeds[0]], self.node_of[minus])

    def _is_idle(self, load: Load) -> bool:
        return load.item in self.setup.off or load.key in self.idle

    def _number_nodes(self) -> None:
        joints = Groups(len(self.network.pins))
        nets = Groups(len(self.network.pins))
        for join in self.network.joins:
            nets.unite(join.first, join.second)
            if _is_joint(join):
                joints.unite(join.first, join.second)
        live = {nets.root(pin) for pin in self._terminals()}
        numbers: dict[int, int] = {}
        for pin in range(len(self.network.pins)):
            is_live = nets.root(pin) in live
            self.node_of.append(numbers.setdefault(joints.root(pin), len(numbers)) if is_live else None)
        self.nodes = len(numbers)

    def _terminals(self) -> list[int]:
        network = self.network
        pins = [pin for source in network.sources for pin in (source.plus, source.minus)]
        pins += [pin for load in network.loads for pin in (load.rail_pin, load.ground)]
        pins += [pin for diode in network.diodes for pin in (diode.anode, diode.cathode)]
        pins += [pin for one in network.regulators for pin in (one.source, one.output, one.ground)]
        return pins

    def _node(self, pin: int) -> int:
        node = self.node_of[pin]
        if node is None:
            msg = f"{self.network.pins[pin]} is a terminal without a node"
            raise LookupError(msg)
        return node

    def _add_resistor(
        self, first: int | None, second: int | None, ohms: float, what: Join | OneWay | Regulator
    ) -> None:
        if first is not None and second is not None:
            self.resistors.append(circuit.Resistor(first, second, ohms))
            self.joins.append(what)

    def _ohms(self, join: Join) -> float:
        if join.conductor is not None:
            return self._conductor_ohms(join.owner, join.conductor)
        has_fuse = join.bridge is not None and join.bridge.fuse is not None
        return join.ohms + (FUSE_OHMS if has_fuse else 0.0)

    def _build_diode(self, diode: OneWay) -> circuit.Diode:
        anode = self._node(diode.anode)
        if diode.conductor is not None:
            anode = self._before(anode, diode, self._conductor_ohms(diode.owner, diode.conductor))
        elif diode.bridge is not None and diode.bridge.fuse is not None:
            anode = self._before(anode, diode, FUSE_OHMS)
        return circuit.Diode(anode, self._node(diode.cathode), diode.drop)

    def _build_regulator(self, regulator: Regulator) -> circuit.Regulator:
        source = self._node(regulator.source)
        if regulator.conductor is not None:
            source = self._before(source, regulator, self._conductor_ohms(regulator.owner, regulator.conductor))
        elif regulator.bridge is not None and regulator.bridge.fuse is not None:
            source = self._before(source, regulator, FUSE_OHMS)
        spec = regulator.spec
        return circuit.Regulator(
            input=source,
            output=self._node(regulator.output),
            ground=self._node(regulator.ground),
            volts=regulator.out,
            takes_low=spec.takes.low,
            takes_high=spec.takes.high,
            max_amps=spec.max_amps,
            efficiency=spec.efficiency,
        )

    def _conductor_ohms(self, label: str, conductor: Conductor) -> float:
        return conductor_ohms(self.rig.leads[label], conductor, self.wire_kelvin)

    def _before(self, node: int, element: OneWay | Regulator, ohms: float) -> int:
        """A node behind the conductor or the fuse that leads to a diode or a regulator."""
        inner = self.nodes
        self.nodes += 1
        self._add_resistor(node, inner, ohms, element)
        return inner

    def _build_cell(self, source: Source) -> circuit.Cell:
        is_off = source.item in self.setup.off
        ohms = float("inf") if is_off else source.cell.resistance
        return circuit.Cell(self._node(source.plus), self._node(source.minus), source.nominal, ohms)

    def _build_load(self, load: Load) -> circuit.Load:
        low = find_window_low(self.rig.items[load.item].part, load.rail.name)
        amount = _nothing(load) if self._is_idle(load) else load.draw.amount
        return circuit.Load(self._node(load.rail_pin), self._node(load.ground), _KINDS[load.draw.kind], amount, low)


def _nothing(load: Load) -> float:
    return math.inf if load.draw.kind is LoadKind.RESISTANCE else 0.0


def _is_joint(join: Join) -> bool:
    return join.kind is JoinKind.INSIDE or (join.kind is JoinKind.BOND and join.ohms == 0.0)
