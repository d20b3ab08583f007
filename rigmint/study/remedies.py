"""Remedies for a weak feed, computed: what a thicker or shorter lead, or a tap of its own, would give."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from types import MappingProxyType

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.presence import Presence
from rigmint.rig.electric import Port, Role
from rigmint.rig.house import House
from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.paths import Way
from rigmint.study.power import Point, Power, study_power

_THICKER_BY = 4
_THINNEST_CHANGE = 0.05
_SHORTEST = 0.2
"""m: a lead is not proposed shorter than this."""


@dataclass(frozen=True, slots=True)
class LeadRemedy:
    """A lead of another gauge or length, and the V that the port would get."""

    label: str
    gauge: float | None
    length: float | None
    volts: float


@dataclass(frozen=True, slots=True)
class TapRemedy:
    """A lead moved to a free output, and the V that the port would get."""

    label: str
    end: str
    to: PortRef
    volts: float


def find_lead_remedies(
    rig: Rig, setup: Setup, house: House, label: str, ref: PortRef, point: Point
) -> list[LeadRemedy]:
    """A thicker and a shorter `label`, with what each gives at `ref`."""
    lead = rig.leads[label]
    found = []
    gauges = [conductor.gauge for conductor in lead.body.conductors if conductor.gauge is not None]
    if gauges and max(gauges) - _THICKER_BY >= 10:
        gauge = max(gauges) - _THICKER_BY
        body = replace(
            lead.body,
            conductors=tuple(
                replace(one, gauge=min(one.gauge, gauge)) if one.gauge is not None else one
                for one in lead.body.conductors
            ),
        )
        volts = _volts_with(rig, setup, house, replace(lead, body=body), ref, point)
        found.append(LeadRemedy(label, gauge, None, volts))
    if lead.length / 2 >= _SHORTEST:
        volts = _volts_with(rig, setup, house, replace(lead, length=lead.length / 2), ref, point)
        found.append(LeadRemedy(label, None, lead.length / 2, volts))
    return found


def find_tap_remedy(
    rig: Rig, setup: Setup, house: House, power: Power, way: Way, ref: PortRef, point: Point
) -> TapRemedy | None:
    """The heaviest load that shares the way to `ref`, moved to a free output upstream that takes its lead."""
    taken = {plug for label in setup.leads for plug in rig.leads[label].plugged.values()}
    upstream = [place.partition(".")[0] for place in way.places if "." in place]
    best: TapRemedy | None = None
    for label in _leads_by_current(power, point):
        lead = rig.leads[label]
        for end, plug in lead.plugged.items():
            if plug.item not in upstream:
                continue
            for free in _free_outputs(rig, upstream, taken, rig.port(plug)):
                if upstream.index(free.item) >= upstream.index(plug.item):
                    continue
                moved = replace(lead, plugged=MappingProxyType({**lead.plugged, end: free}))
                volts = _volts_with(rig, setup, house, moved, ref, point)
                if best is None or volts > best.volts + _THINNEST_CHANGE:
                    best = TapRemedy(label, end, free, volts)
    return best


def _leads_by_current(power: Power, point: Point) -> list[str]:
    leads = power.points[point].leads
    return sorted((label for label in leads if leads[label].amps > 0), key=lambda label: (-leads[label].amps, label))


def _free_outputs(rig: Rig, items: list[str], taken: set[PortRef], like: Port) -> Iterator[PortRef]:
    for item in dict.fromkeys(items):
        for port in rig.items[item].part.ports.values():
            ref = PortRef(item, port.name)
            is_output = port.role is not Role.IN and port.carries_power
            if is_output and ref not in taken and (port.connector.id, port.sex) == (like.connector.id, like.sex):
                yield ref


def _volts_with(rig: Rig, setup: Setup, house: House, lead: Lead, ref: PortRef, point: Point) -> float:
    changed = replace(rig, leads=MappingProxyType({**rig.leads, lead.label: lead}))
    network = build_pin_network(changed, Presence.of(setup))
    found = study_power(changed, setup, network, house).points[point].ports.get(ref)
    return found.volts if found is not None else 0.0
