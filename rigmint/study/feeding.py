"""What feeds what: the leads that carry power, the ports by which an item may be fed, and the lead that drops most."""

from __future__ import annotations

from rigmint.graph.pins import PinNetwork
from rigmint.rig.electric import Role
from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.paths import Way
from rigmint.study.power import Point, Power
from rigmint.study.worst_volts import WorstVolts


def carries_power(rig: Rig, lead: Lead) -> bool:
    """Whether a conductor of a lead meets a feed of a port that it is plugged into."""
    feeds = {(end, contact) for end, ref in lead.plugged.items() for contact in rig.port(ref).feeds}
    return any(
        (side.end, side.contact) in feeds
        for conductor in lead.body.conductors
        for side in (conductor.source, conductor.target)
    )


def feeding_ports(rig: Rig, item: str) -> tuple[PortRef, ...]:
    """The power ports by which an item may be fed: those meant as inputs first, then those that may be either."""
    ports = [port for port in rig.items[item].part.ports.values() if port.carries_power and port.role is not Role.OUT]
    ports.sort(key=lambda port: port.role is not Role.IN)
    return tuple(PortRef(item, port.name) for port in ports)


def find_feeding_lead(rig: Rig, worst: WorstVolts, power: Power, item: str) -> str | None:
    """The lead with the largest drop on the way to an item, at typical; None where no lead feeds it."""
    for ref in feeding_ports(rig, item):
        reach = worst.ports[ref].high
        if reach is not None and reach.source.item != item:
            leads = worst.way_to(ref, reach).leads
            drops = power.points[Point.TYPICAL].leads
            return max(leads, key=lambda label: drops[label].drop if label in drops else 0.0, default=None)
    return None


def is_drawn_from(rig: Rig, setup: Setup, network: PinNetwork, ref: PortRef) -> bool:
    """Whether a port is plugged and what is behind it draws: its own load, or a regulator that feeds one."""
    part = rig.items[ref.item].part
    is_plugged = any(ref in (mate.port, mate.other) for mate in network.mates)
    is_on = ref.item not in setup.off
    draws = any(rail.load is not None for rail in part.rails.values())
    rails = set(rig.port(ref).feeds.values())
    return is_plugged and is_on and draws and not any(part.has_cell_on(rail) for rail in rails)


def find_way_through(
    rig: Rig, setup: Setup, network: PinNetwork, worst: WorstVolts, power: Power, label: str
) -> Way | None:
    """The way to the port that draws most at typical, or at full where there is no typical, of those that are fed
    through a lead; None where nothing is."""
    found: list[tuple[float, str, Way]] = []
    amps = power.points[Point.TYPICAL].ports or power.points[Point.FULL].ports
    for ref, volts in worst.ports.items():
        if volts.high is None or not is_drawn_from(rig, setup, network, ref):
            continue
        way = worst.way_to(ref, volts.high)
        if label in way.leads:
            found.append((-amps[ref].amps if ref in amps else 0.0, ref.place, way))
    return min(found, key=lambda one: one[:2])[2] if found else None
