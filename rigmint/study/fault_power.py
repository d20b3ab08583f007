"""Power under a single fault: what is fed, by connectivity, and what the circuit says of returns and low ports."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from rigmint.graph.pins import PinNetwork
from rigmint.physics.circuit import Collapse, Network, Solution
from rigmint.rig.electric import Role
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.electronics import wants_volts
from rigmint.study.fault_outcome import LowPort, ShieldReturn
from rigmint.study.power import measure_ports
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
    no_load: frozenset[RailKey]
    """Loads that draw nothing sound: they get plus and no return, or are fed reversed."""


@dataclass(frozen=True, slots=True)
class CircuitState:
    """The operating point at typical: what is out of order in it."""

    solution: Solution | None
    """None: there is none."""
    weak: str | None
    """The item at which it collapses."""
    shields: Mapping[str, ShieldReturn]
    low: Mapping[PortRef, LowPort]


@dataclass(frozen=True, slots=True)
class PowerState:
    """A setup, whole or with a fault."""

    feeding: Feeding
    circuit: CircuitState


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
        feeding = find_feeding(self.rig, self.setup, self.network)
        return PowerState(feeding, solve_circuit(self.rig, self._built, feeding))

    def study(self, setup: Setup, network: PinNetwork) -> PowerState:
        """With a fault: `network` is this one's with elements taken out, all others being the same objects; or any
        other network, which is then computed whole."""
        feeding = find_feeding(self.rig, setup, network)
        if not self._is_part_of_this(network):
            built = build_rig_circuit(self.rig, setup, network, self.wire_kelvin)
            return PowerState(feeding, solve_circuit(self.rig, built, feeding))
        built = self._patch(setup, network)
        if self._is_undisturbed(built, feeding):
            return PowerState(feeding, self.state.circuit)
        return PowerState(feeding, solve_circuit(self.rig, built, feeding))

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
        circuit = replace(built.circuit, resistors=resistors, cells=cells)
        return replace(built, circuit=circuit, idle=idle)

    def _is_undisturbed(self, built: RigCircuit, feeding: Feeding) -> bool:
        """Whether what is opened carried nothing, so that the operating point stays as it is."""
        solution, whole = self.state.circuit.solution, self._built.circuit
        if solution is None or feeding.no_load != self.state.feeding.no_load or built.idle != self._built.idle:
            return False
        if built.circuit.cells != whole.cells:
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
    return Feeding(frozenset(fed), frozenset(by_shield), frozenset(broken | turned))


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
        weak = built.regulators[collapse.regulators[0]].owner if collapse.regulators else ""
        return CircuitState(None, weak, {}, {})
    shields = {
        device.item: found
        for device in measure_returns(rig, built, solution)
        if (found := _judge_return(device, feeding)) is not None
    }
    return CircuitState(solution, None, shields, _find_low_ports(rig, built, solution))


def _judge_return(device: DeviceReturn, feeding: Feeding) -> ShieldReturn | None:
    worst = max(device.signals, key=lambda one: one.amps, default=None)
    is_whole = device.item in feeding.by_shield
    if worst is None:
        return None
    is_heavy = worst.amps > SHIELD_AMPS or (device.by_signal > _NOTICED and device.share > SHIELD_SHARE)
    if not is_whole and not is_heavy:
        return None
    return ShieldReturn(device.item, worst.lead, worst.amps, device.share, is_whole)


def _find_low_ports(rig: Rig, built: RigCircuit, solution: Solution) -> dict[PortRef, LowPort]:
    found = {}
    for ref, power in measure_ports(built, solution).items():
        port = rig.port(ref)
        if port.role is Role.OUT or port.works is None or power.amps < _IN_USE:
            continue
        if power.volts < port.works.low - _SAME_VOLTS:
            found[ref] = LowPort(ref, power.volts, port.works.low)
    return found
