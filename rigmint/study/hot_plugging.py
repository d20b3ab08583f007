"""Leads that must never be plugged while something at either end is live."""

from __future__ import annotations

from rigmint.rig.connector import Connector
from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.studies import Studies


def find_hot_warning(studies: Studies, setup: Setup, lead: Lead) -> str:
    """What must be off when a lead is plugged, and why; empty where nothing speaks against it."""
    rig = studies.rig
    refs = tuple(lead.plugged.values())
    if any(_mixes(rig, ref) and not _mates_minus_first(rig, ref) for ref in refs):
        return "never hot: power and data in one plug"
    surge = studies.surge(setup, lead.label)
    trips = surge.source.cell.trips if surge is not None else None
    if surge is not None and trips is not None and surge.amps > trips:
        return f"never hot: {surge.source.item} trips"
    if _is_shield_between_fed(rig, setup, lead, refs):
        return "both ends off: its shield mates last"
    return ""


def _mixes(rig: Rig, ref: PortRef) -> bool:
    port = rig.port(ref)
    return bool(port.feeds) and bool(port.signals)


def _mates_minus_first(rig: Rig, ref: PortRef) -> bool:
    port = rig.port(ref)
    return bool(set(port.minus_contacts) & set(port.connector.first))


def _is_shield_between_fed(rig: Rig, setup: Setup, lead: Lead, refs: tuple[PortRef, ...]) -> bool:
    """Whether a signal lead joins two fed devices by plugs whose inner contact mates before the return."""
    ports = [rig.port(ref) for ref in refs]
    fed = {ref.item for ref in refs if ref.item not in setup.off and _is_fed(rig, ref.item)}
    bare = all(not port.feeds and port.minus_contacts and not _guards(port.connector) for port in ports)
    return len(fed) > 1 and bool(ports) and bare and "shield" in lead.body.ends[min(lead.plugged)].connector.contacts


def _is_fed(rig: Rig, item: str) -> bool:
    return any(rail.load is not None for rail in rig.items[item].part.rails.values())


def _guards(connector: Connector) -> bool:
    return "shield" in connector.first
