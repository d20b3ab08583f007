"""Which way a device's return current goes: its own minus contacts, or the shields and grounds of signal leads."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.graph.pins import JoinKind, OneWay, Regulator
from rigmint.physics.circuit import Collapse, Solution
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.power import Power
from rigmint.study.rig_circuit import RigCircuit


@dataclass(frozen=True, slots=True)
class SignalReturn:
    """A port without a feed whose minus carries current; A out of the part."""

    ref: PortRef
    lead: str | None
    amps: float


@dataclass(frozen=True, slots=True)
class DeviceReturn:
    """A device: A that its own loads draw through its feeds, and A of these that leave by signal returns."""

    item: str
    drawn: float
    by_signal: float
    signals: tuple[SignalReturn, ...]

    @property
    def share(self) -> float:
        """The part of its own current that leaves by signal returns."""
        return self.by_signal / self.drawn if self.drawn > 0 else 0.0


def measure_returns(rig: Rig, built: RigCircuit, solution: Solution) -> tuple[DeviceReturn, ...]:
    """Every item with signal returns or feeds, by name. Currents of others that pass through a device come in and go
    out again, so that they cancel in what it keeps for itself."""
    into: dict[str, float] = {}
    out_by_feed: dict[str, float] = {}
    signals: dict[str, list[SignalReturn]] = {}
    for index, join in enumerate(built.joins):
        if isinstance(join, (OneWay, Regulator)) or join.kind is not JoinKind.MATE:
            continue
        current = float(solution.resistor_amps[index])
        for pin_number, inwards in ((join.first, -current), (join.second, current)):
            pin = built.network.pins[pin_number]
            if pin.is_lead:
                continue
            port = rig.items[pin.owner].part.ports[pin.group]
            if pin.contact in port.feeds:
                into[pin.owner] = into.get(pin.owner, 0.0) + inwards
            elif pin.contact in port.minus_contacts and port.feeds:
                out_by_feed[pin.owner] = out_by_feed.get(pin.owner, 0.0) - inwards
            elif pin.contact in port.minus_contacts:
                lead = join.owner if join.owner in rig.leads else None
                returned = SignalReturn(PortRef(pin.owner, pin.group), lead, -inwards)
                signals.setdefault(pin.owner, []).append(returned)
    found = []
    for item in sorted({*into, *signals}):
        drawn = max(into.get(item, 0.0), 0.0)
        # What comes back neither by a feed's minus nor by a signal goes by docks or by earth.
        leaving = sum(max(signal.amps, 0.0) for signal in signals.get(item, ()))
        by_signal = min(max(drawn - max(out_by_feed.get(item, 0.0), 0.0), 0.0), leaving)
        found.append(DeviceReturn(item, drawn, by_signal, tuple(signals.get(item, ()))))
    return tuple(found)


def measure_own_return(rig: Rig, power: Power, item: str) -> DeviceReturn | None:
    """The return of one device at typical volts with every other load switched off: what is left is its own."""
    built = power.circuit
    mine = {index for index, load in enumerate(built.loads) if load.item == item}
    try:
        solution = power.network.solve(load_amounts=built.list_amounts({}, only=mine))
    except Collapse:
        return None
    return next((device for device in measure_returns(rig, built, solution) if device.item == item), None)
