"""Power under a single fault: what is still fed, by connectivity; what the circuit says of returns and low ports."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from rigmint.graph.pins import PinNetwork
from rigmint.physics.circuit import Collapse, Network, Solution
from rigmint.rig.electric import Role
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.electronics import wants_volts
from rigmint.study.fault_outcome import LowPort, ShieldReturn
from rigmint.study.power import PortPower, measure_ports
from rigmint.study.powering import NetworkReach, close_switches, without_signal_returns
from rigmint.study.returns import DeviceReturn, measure_returns
from rigmint.study.rig_circuit import RigCircuit, build_rig_circuit

SHIELD_AMPS = 0.5
"""A in one signal return from which it counts as carrying power (common practice)."""
SHIELD_SHARE = 0.3
"""The part of a device's own return, likewise."""
_NOTICED = 0.1
"""A below which a share says nothing."""
_IN_USE = 1e-4
_NO_CURRENT = 1e-9
_SAME_VOLTS = 1e-6

RailKey = tuple[str, str]
"""(item, rail); the rail is empty for a device that states no load."""


@dataclass(frozen=True, slots=True)
class Feeding:
    """What live sources reach, with the switches as they are set."""

    fed: frozenset[RailKey]
    by_shield: frozenset[str]
    """Items with a rail whose only return runs through a signal lead."""
    without_return: frozenset[RailKey]
    """Loads that get plus and no way back."""
    reversed: frozenset[RailKey]

    @property
    def no_load(self) -> frozenset[RailKey]:
        """Loads that draw nothing sound."""
        return self.without_return | self.reversed


@dataclass(frozen=True, slots=True)
class CircuitState:
    """The operating point at typical: what is out of order in it."""

    solution: Solution | None
    """None: there is none."""
    weak: str | None
    """The item or lead whose regulator it collapses at; None where there is a solution, or none to name."""
    shields: Mapping[str, ShieldReturn]
    low: Mapping[PortRef, LowPort]
    starved: frozenset[RailKey]
    """Loads that get less than they work on, and devices without a stated load that do at every port."""


@dataclass(frozen=True, slots=True)
class PowerState:
    """A setup, whole or with a fault."""

    feeding: Feeding
    circuit: CircuitState
    gave_way: tuple[str, ...] = ()
    """Items and leads whose regulators could not have what they draw, one after the other: they count as off."""


class PowerBase:
    """The power of a setup as it is wired, from which a faulted one is computed by what differs."""

    def __init__(self, rig: Rig, setup: Setup, network: PinNetwork, wire_kelvin: float) -> None:
        self.rig = rig
        self.setup = setup
        self.network = close_switches(rig, setup, network)
        self.wire_kelvin = wire_kelvin

    @cached_property
    def state(self) -> PowerState:
        """Without a fault."""
        return self._settle(self.setup, self.network)

    def study(self, setup: Setup, network: PinNetwork) -> PowerState:
        """With a fault: `network` is this one's with elements taken out, all others being the same objects; or any
        other network, which is then computed whole."""
        feeding = find_feeding(self.rig, setup, network)
        if self._is_part_of_this(network) and self._is_undisturbed(self._patch(setup, network), feeding):
            return PowerState(feeding, self.state.circuit)
        return self._settle(setup, network)

    def _settle(self, setup: Setup, network: PinNetwork) -> PowerState:
        """With every regulator off that brings the circuit down."""
        gave_way: list[str] = []
        while True:
            feeding = find_feeding(self.rig, setup, network)
            circuit = solve_circuit(self.rig, self._build(setup, network), feeding)
            if circuit.weak is None or circuit.weak in gave_way:
                return PowerState(feeding, circuit, tuple(gave_way))
            gave_way.append(circuit.weak)
            network = replace(network, regulators=tuple(one for one in network.regulators if one.owner != circuit.weak))

    def _build(self, setup: Setup, network: PinNetwork) -> RigCircuit:
        if self._is_part_of_this(network):
            return self._patch(setup, network)
        return build_rig_circuit(self.rig, setup, network, self.wire_kelvin)

    @cached_property
    def _built(self) -> RigCircuit:
        return build_rig_circuit(self.rig, self.setup, self.network, self.wire_kelvin)

    @cached_property
    def _known(self) -> frozenset[int]:
        network = self.network
        return frozenset(id(one) for one in (*network.joins, *network.diodes, *network.regulators, *network.sources))

    def _is_part_of_this(self, network: PinNetwork) -> bool:
        elements = (*network.joins, *network.diodes, *network.regulators, *network.sources)
        return network.pins is self.network.pins and all(id(one) in self._known for one in elements)

    def _patch(self, setup: Setup, network: PinNetwork) -> RigCircuit:
        """This circuit with what is gone opened: infinite resistances, cells that give nothing, loads that are idle."""
        built = self._built
        kept = {id(one) for one in (*network.joins, *network.diodes, *network.regulators, *network.sources)}
        loads = {load.key for load in network.loads}
        resistors = tuple(
            one if id(what) in kept else replace(one, ohms=float("inf"))
            for one, what in zip(built.circuit.resistors, built.joins, strict=True)
        )
        cells = tuple(
            one if id(source) in kept and source.item not in setup.off else replace(one, ohms=float("inf"))
            for one, source in zip(built.circuit.cells, built.sources, strict=True)
        )
        idle = frozenset(
            index for index, load in enumerate(built.loads) if load.item in setup.off or load.key not in loads
        )
        pairs = zip(built.circuit.regulators, built.regulators, strict=True)
        left = [(one, regulator) for one, regulator in pairs if id(regulator) in kept]
        circuit = replace(built.circuit, resistors=resistors, cells=cells, regulators=tuple(one for one, _ in left))
        return replace(built, circuit=circuit, idle=idle, regulators=tuple(regulator for _, regulator in left))

    def _is_undisturbed(self, built: RigCircuit, feeding: Feeding) -> bool:
        """Whether what is opened carried nothing, so that the operating point stays as it is."""
        solution, whole = self.state.circuit.solution, self._built.circuit
        if solution is None or feeding.no_load != self.state.feeding.no_load or built.idle != self._built.idle:
            return False
        if built.circuit.cells != whole.cells or self.state.gave_way:
            return False
        pairs = zip(built.circuit.resistors, whole.resistors, solution.resistor_amps.tolist(), strict=True)
        return all(one is other or abs(amps) < _NO_CURRENT for one, other, amps in pairs)


def find_feeding(rig: Rig, setup: Setup, closed: PinNetwork) -> Feeding:
    """What is fed on a network whose open switches are taken out."""
    now = NetworkReach(closed, setup)
    by_feed = NetworkReach(without_signal_returns(rig, closed), setup)
    loads = [load for load in closed.loads if load.item not in setup.off]
    fed = {load.key for load in loads if now.feeds(load)}
    by_shield = {load.item for load in loads if load.key in fed and not by_feed.feeds(load)}
    broken = {load.key for load in loads if load.key not in fed and now.brings_plus(load)}
    turned = {load.key for load in loads if now.feeds_reversed(load)}
    for item in closed.list_items(setup.items):
        if item not in setup.off and wants_volts(rig.items[item].part) and _stands_at(rig, now, closed, item):
            fed.add((item, ""))
            if not _stands_at(rig, by_feed, closed, item):
                by_shield.add(item)
    return Feeding(frozenset(fed), frozenset(by_shield), frozenset(broken), frozenset(turned))


def _stands_at(rig: Rig, reach: NetworkReach, network: PinNetwork, item: str) -> bool:
    """Whether a source stands at a port by which the item may be fed."""
    return any(
        reach.stands_at(
            network.port_pins(PortRef(item, port.name), tuple(port.feeds)),
            network.port_pins(PortRef(item, port.name), port.minus_contacts),
        )
        for port in rig.items[item].part.ports.values()
        if port.carries_power and port.role is not Role.OUT
    )


def solve_circuit(rig: Rig, built: RigCircuit, feeding: Feeding) -> CircuitState:
    """The circuit at typical, without the loads that draw nothing sound."""
    unsound = {index for index, load in enumerate(built.loads) if load.key in feeding.no_load}
    built = replace(built, idle=built.idle | unsound)
    try:
        solution = Network(built.circuit).solve(load_amounts=built.list_amounts({}))
    except Collapse as collapse:
        weak = built.regulators[collapse.regulators[0]].owner if collapse.regulators else None
        return CircuitState(None, weak, {}, {}, frozenset())
    devices = measure_returns(rig, built, solution)
    shields = _judge_returns(devices, feeding, _NOTICED) or _judge_returns(devices, feeding, _IN_USE)
    ports = measure_ports(built, solution)
    starved = {*_list_starved(built, solution, feeding), *_list_starved_unrated(rig, ports, feeding)}
    return CircuitState(solution, None, shields, _find_low_ports(rig, ports), frozenset(starved))


def _judge_returns(devices: Iterable[DeviceReturn], feeding: Feeding, least: float) -> dict[str, ShieldReturn]:
    """The devices that return too much through signal leads of their own, or have no other return and send `least` A
    out there: of several in a row, those at whose own sockets it leaves."""
    found = {}
    for device in devices:
        worst = max(device.signals, key=lambda one: one.amps, default=None)
        if worst is None:
            continue
        is_whole = device.item in feeding.by_shield and worst.amps > least
        is_large = device.by_signal > _NOTICED and device.share > SHIELD_SHARE
        if is_whole or is_large or worst.amps > SHIELD_AMPS:
            share = 1.0 if is_whole else device.share
            found[device.item] = ShieldReturn(device.item, worst.lead, worst.amps, share, is_whole)
    return found


def _find_low_ports(rig: Rig, ports: Mapping[PortRef, PortPower]) -> dict[PortRef, LowPort]:
    found = {}
    for ref, power in ports.items():
        port = rig.port(ref)
        if port.role is Role.OUT or port.works is None or power.amps < _IN_USE:
            continue
        if power.volts < port.works.low - _SAME_VOLTS:
            found[ref] = LowPort(ref, power.volts, port.works.low)
    return found


def _list_starved(built: RigCircuit, solution: Solution, feeding: Feeding) -> Iterator[RailKey]:
    volts = solution.load_volts.tolist()
    for index, (load, element) in enumerate(zip(built.loads, built.circuit.loads, strict=True)):
        is_drawing = index not in built.idle and load.key in feeding.fed
        if is_drawing and volts[index] < element.window_low - _SAME_VOLTS:
            yield load.key


def _list_starved_unrated(rig: Rig, ports: Mapping[PortRef, PortPower], feeding: Feeding) -> Iterator[RailKey]:
    for item in (item for item, rail in feeding.fed if not rail):
        own = [(rig.port(ref), power.volts) for ref, power in ports.items() if ref.item == item]
        windows = [(port.works, volts) for port, volts in own if port.role is not Role.OUT]
        if windows and all(works is not None and volts < works.low - _SAME_VOLTS for works, volts in windows):
            yield item, ""
