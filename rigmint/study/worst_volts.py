"""Worst volts: the highest and lowest voltage that any live source can put on each port, in any state in which
batteries are swapped, switches are thrown and items are off."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from operator import attrgetter

from rigmint.graph.nets import find_nets
from rigmint.graph.pins import Pin, PinNetwork, Source
from rigmint.rig.electric import Port, find_signal_limit
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.paths import Hop, Way, find_way, list_hops
from rigmint.study.potentials import Potentials, spread_potentials

_SAME_VOLTS = 1e-6


REVERSED_MARGIN = 0.3
"""V below what a port survives from which it counts as reversed."""


@dataclass(frozen=True, slots=True)
class Reach:
    """Volts that a source puts on a contact of a port."""

    volts: float
    contact: str
    potentials: Potentials

    @property
    def source(self) -> Source:
        """The source."""
        return self.potentials.source


@dataclass(frozen=True, slots=True)
class PortVolts:
    """A power port's worst: the highest and the lowest, each with what brings it."""

    ref: PortRef
    port: Port
    high: Reach | None
    low: Reach | None


@dataclass(frozen=True, slots=True)
class SignalVolts:
    """Plus on a signal contact."""

    ref: PortRef
    port: Port
    signal: str
    limit: float
    limit_assumed: bool
    reach: Reach


@dataclass(frozen=True, slots=True)
class WorstVolts:
    """The study of one wiring."""

    network: PinNetwork
    nets: Sequence[int]
    potentials: tuple[Potentials, ...]
    """One a live source."""
    ports: Mapping[PortRef, PortVolts]
    signals: tuple[SignalVolts, ...]

    @property
    def shorts(self) -> tuple[Potentials, ...]:
        """The sources whose plus and minus are joined."""
        return tuple(reach for reach in self.potentials if reach.shorted is not None)

    def burns(self) -> bool:
        """Whether a source is shorted, or some port can be destroyed."""
        hurt = any(
            volts.port.survives is not None
            and (
                (volts.high is not None and volts.high.volts > volts.port.survives.high)
                or (volts.low is not None and volts.low.volts < volts.port.survives.low - REVERSED_MARGIN)
            )
            for volts in self.ports.values()
        )
        return hurt or bool(self.shorts) or bool(self.signals) or bool(self.list_reversed_loads())

    def list_reversed_loads(self) -> frozenset[tuple[str, str]]:
        """(item, rail) of the loads that a source feeds the wrong way round."""
        return frozenset(
            load.key
            for load in self.network.loads
            for reach in self.potentials
            if (volts := reach.across(self.nets[load.rail_pin], self.nets[load.ground])) is not None and volts < 0
        )

    def way_to(self, ref: PortRef, reach: Reach) -> Way:
        """The way from the source's plus to a contact of a port, or to its minus where it comes reversed."""
        goal = self.network.index[Pin(ref.item, ref.port, reach.contact)]
        minus = self._minus_pins(ref)
        plus_reached = self.nets[goal] in reach.potentials.plus
        goals = {goal} if plus_reached and reach.volts >= 0 else minus
        hops = list_hops(self.network, outwards=True)
        brings, start = _Bringing(self.nets, reach.potentials), reach.source.plus
        way = find_way(self.network, hops, start, goals, admits=brings) or find_way(
            self.network, hops, start, goals, allowed=brings.is_raised
        )
        if way is None:
            msg = f"no way from {reach.source.place} to {ref.place}, though volts arrive there"
            raise LookupError(msg)
        return way

    def _minus_pins(self, ref: PortRef) -> frozenset[int]:
        port = self.ports[ref].port if ref in self.ports else None
        contacts = port.minus_contacts if port is not None else ()
        return frozenset(self.network.port_pins(ref, contacts)) or frozenset({self.network.ground(ref.item)})


@dataclass(frozen=True, slots=True)
class _Bringing:
    """Whether a step is one of those that bring a net the volts that it gets: of two ways to a net, the one that
    brings fewer is none that a report could name."""

    nets: Sequence[int]
    potentials: Potentials

    def is_raised(self, pin: int) -> bool:
        """Whether the source's plus reaches the pin's net at all."""
        return self.nets[pin] in self.potentials.plus

    def __call__(self, pin: int, hop: Hop) -> bool:
        near, far = self.nets[pin], self.nets[hop.pin]
        plus, minus = self.potentials.plus, self.potentials.minus
        if near not in plus or far not in plus:
            return False
        if hop.regulator is None:
            return abs(plus[near] - hop.drop - plus[far]) < _SAME_VOLTS
        ground = minus.get(self.nets[hop.regulator.ground])
        return (
            ground is not None
            and plus[near] >= ground + hop.regulator.spec.takes.low
            and abs(ground + hop.regulator.out - plus[far]) < _SAME_VOLTS
        )


def study_worst_volts(
    rig: Rig,
    network: PinNetwork,
    off: frozenset[str],
    *,
    volts_of: Callable[[Source], float] = attrgetter("highest"),
    guesses: bool = True,
) -> WorstVolts:
    """The study. `volts_of`: what each source is taken to give, its most unless another is asked for. Without `guesses`
    a regulator that does not state whether it blocks counts as blocking."""
    nets = find_nets(network)
    potentials = tuple(
        spread_potentials(network, nets, source, volts_of(source), guesses=guesses)
        for source in network.sources
        if source.item not in off
    )
    live = [reach for reach in potentials if reach.shorted is None]
    ports: dict[PortRef, PortVolts] = {}
    signals: list[SignalVolts] = []
    for name in network.list_items(rig.items):
        for port in rig.items[name].part.ports.values():
            ref = PortRef(name, port.name)
            if port.carries_power:
                ports[ref] = _judge_port(network, nets, ref, port, live)
            signals += _judge_signals(network, nets, ref, port, live)
    return WorstVolts(network, nets, potentials, ports, tuple(signals))


def _judge_port(
    network: PinNetwork, nets: Sequence[int], ref: PortRef, port: Port, live: list[Potentials]
) -> PortVolts:
    minus = nets[network.port_pins(ref, port.minus_contacts)[0]]
    high: Reach | None = None
    low: Reach | None = None
    for reach in live:
        for contact in port.feeds:
            volts = reach.across(nets[network.index[Pin(ref.item, ref.port, contact)]], minus)
            if volts is None:
                continue
            if high is None or volts > high.volts:
                high = Reach(volts, contact, reach)
            if low is None or volts < low.volts:
                low = Reach(volts, contact, reach)
    return PortVolts(ref, port, high, low)


def _judge_signals(
    network: PinNetwork, nets: Sequence[int], ref: PortRef, port: Port, live: list[Potentials]
) -> list[SignalVolts]:
    found = []
    ground = nets[network.minus_of(ref, port.isolated)]
    for contact, signal in port.signals.items():
        net = nets[network.index[Pin(ref.item, ref.port, contact)]]
        reaches = [
            Reach(volts, contact, reach)
            for reach in live
            if net in reach.plus and (volts := reach.across(net, ground)) is not None
        ]
        if not reaches:
            continue
        worst = max(reaches, key=lambda reach: reach.volts)
        limit, assumed = find_signal_limit(port.levels.get(signal))
        if worst.volts > limit:
            found.append(SignalVolts(ref, port, signal, limit, assumed, worst))
    return found
