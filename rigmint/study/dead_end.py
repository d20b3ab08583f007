"""Where the way of a supply to a rail without power ends, or that of its return: at a socket that nothing is plugged
into, or at a lead."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.graph.pins import Load, Mate, PinNetwork
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.feeding import feeding_ports
from rigmint.study.powering import list_returning_ports
from rigmint.study.worst_volts import WorstVolts


@dataclass(frozen=True, slots=True)
class DeadEnd:
    """`at` is the port at which supply stops; `cause` an item whose port is open or which is off, or a lead."""

    at: str
    cause: str
    is_off: bool = False


def find_dead_end(rig: Rig, setup: Setup, network: PinNetwork, worst: WorstVolts, load: Load) -> DeadEnd:
    """Follow the inputs of the item upstream, depth first, to the first open socket, or to a lead that brings on
    nothing of what stands at its far end; open inputs of the item itself count only where no lead is in any of its
    inputs."""
    live = {
        ref for ref, volts in worst.ports.items() if volts.high is not None and volts.high.source.item not in setup.off
    }
    return _find_end(rig, setup, network, load, live | _list_shorted(setup, worst))


def _list_shorted(setup: Setup, worst: WorstVolts) -> set[PortRef]:
    """The ports that a shorted source's plus reaches: of them there are no volts, and supply does not stop there."""
    return {
        ref
        for reach in worst.shorts
        if reach.source.item not in setup.off
        for ref, volts in worst.ports.items()
        if any(worst.nets[pin] in reach.plus for pin in worst.network.port_pins(ref, tuple(volts.port.feeds)))
    }


def find_return_end(rig: Rig, setup: Setup, network: PinNetwork, load: Load) -> DeadEnd:
    """The same for a load that gets plus: upstream to the lead that brings no minus of the feed's own."""
    return _find_end(rig, setup, network, load, list_returning_ports(rig, setup, network))


def _find_end(rig: Rig, setup: Setup, network: PinNetwork, load: Load, live: set[PortRef]) -> DeadEnd:
    mates: dict[PortRef, list[tuple[PortRef, str | None]]] = {}
    for mate in network.mates:
        for near, far in _far_sides(rig, mate):
            mates.setdefault(near, []).append((far, mate.lead))
    return _follow(rig, setup, network, load.item, mates, live, set()) or DeadEnd(load.item, load.item)


def _far_sides(rig: Rig, mate: Mate) -> list[tuple[PortRef, PortRef]]:
    if mate.other is not None:
        return [(mate.port, mate.other), (mate.other, mate.port)]
    plugged = rig.leads[mate.lead].plugged if mate.lead is not None else {}
    return [(mate.port, ref) for end, ref in plugged.items() if end != mate.end]


def _follow(
    rig: Rig,
    setup: Setup,
    network: PinNetwork,
    item: str,
    mates: dict[PortRef, list[tuple[PortRef, str | None]]],
    live: set[PortRef],
    seen: set[str],
) -> DeadEnd | None:
    seen.add(item)
    if item in setup.off and rig.items[item].part.cells:
        return DeadEnd(item, item, is_off=True)
    ports = feeding_ports(rig, item)
    misfits = {mate.port: mate.lead for mate in network.misfits}
    for ref in ports:
        if ref in misfits:
            return DeadEnd(ref.place, misfits[ref] or item)
    for ref in ports:
        for far, lead in mates.get(ref, ()):
            if far.item in seen:
                continue
            if lead is not None and far in live:
                return DeadEnd(ref.place, lead)
            is_fed = any(own in live for own in feeding_ports(rig, far.item))  # then supply stops on this side of it
            if rig.port(far).carries_power and not is_fed:
                found = _follow(rig, setup, network, far.item, mates, live, seen)
                if found is not None:
                    return found
    for ref in ports:
        leads = [lead for _, lead in mates.get(ref, ()) if lead is not None]
        if leads and not rig.items[item].part.cells:
            return DeadEnd(ref.place, leads[0])
    unmated = [ref for ref in ports if ref not in mates]
    return DeadEnd(unmated[0].place, item) if unmated else None
