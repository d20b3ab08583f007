"""Remedies for a weak feed, each computed before it is offered: a thicker or a shorter lead, or a tap of its own for a
heavy load."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from types import MappingProxyType
from typing import TypeAlias

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.pins import PinNetwork
from rigmint.graph.presence import Presence
from rigmint.rig.electric import Port, Role
from rigmint.rig.house import House
from rigmint.rig.lead import Conductor
from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.current_limits import CurrentLimit, list_current_limits
from rigmint.study.paths import Way
from rigmint.study.power import Point, Power, study_power

_GAUGES = (26.0, 24.0, 22.0, 20.0, 18.0, 16.0, 14.0, 12.0, 10.0)
_AREAS = (0.5e-6, 0.75e-6, 1e-6, 1.5e-6, 2.5e-6, 4e-6, 6e-6, 10e-6, 16e-6)
"""m2: the usual cross-sections (IEC 60228)."""
_SHARES = (0.75, 0.5, 0.33, 0.25)
"""Of its length, that a shorter lead is tried at."""
_SHORTEST = 0.2
"""m: a lead is not proposed shorter than this."""


@dataclass(frozen=True, slots=True)
class Trial:
    """A rig with one lead changed, and what its circuit then does."""

    rig: Rig
    setup: Setup
    network: PinNetwork
    power: Power

    def find_volts(self, ref: PortRef, point: Point) -> float | None:
        """V at a port at an operating point; None where there is none."""
        found = self.power.points[point]
        return found.ports[ref].volts if found.solved and ref in found.ports else None

    @property
    def collapses(self) -> bool:
        """Whether an operating point does not exist."""
        return any(found.collapsed for found in self.power.points.values())

    def list_limits(self) -> list[CurrentLimit]:
        """What limits current everywhere, with the current against it."""
        return list(list_current_limits(self.rig, self.setup, self.network.sources, self.power))


Cures: TypeAlias = Callable[[Trial], bool]


@dataclass(frozen=True, slots=True)
class LeadRemedy:
    """A lead of another gauge (AWG), cross-section (m2) or length (m): one of the three."""

    label: str
    gauge: float | None
    area: float | None
    length: float | None
    trial: Trial


@dataclass(frozen=True, slots=True)
class TapRemedy:
    """An end of a lead moved to a free output."""

    label: str
    end: str
    to: PortRef
    trial: Trial


def find_lead_remedies(rig: Rig, setup: Setup, house: House, label: str, cures: Cures) -> list[LeadRemedy]:
    """The next thicker and the longest shorter `label` that each cure alone."""
    lead = rig.leads[label]
    found: list[LeadRemedy] = []
    for candidates in (_list_thicker(lead), _list_shorter(lead)):
        for changed, gauge, area, length in candidates:
            trial = _try_lead(rig, setup, house, changed)
            if cures(trial):
                found.append(LeadRemedy(label, gauge, area, length, trial))
                break
    return found


def find_tap_remedy(
    rig: Rig, setup: Setup, house: House, power: Power, way: Way, point: Point, cures: Cures
) -> TapRemedy | None:
    """The heaviest load that shares a way, moved to a free output upstream that takes its lead, where that cures."""
    taken = {plug for label in setup.leads for plug in rig.leads[label].plugged.values()}
    upstream = list(dict.fromkeys(place.partition(".")[0] for place in way.places if place not in rig.leads))
    for label in _leads_by_current(power, point):
        lead = rig.leads[label]
        ends = [(upstream.index(plug.item), end) for end, plug in lead.plugged.items() if plug.item in upstream]
        if not ends:
            continue
        place, end = min(ends)  # the end from which it is fed
        for free in _free_outputs(rig, upstream[:place], taken, rig.port(lead.plugged[end])):
            moved = replace(lead, plugged=MappingProxyType({**lead.plugged, end: free}))
            trial = _try_lead(rig, setup, house, moved)
            if cures(trial):
                return TapRemedy(label, end, free, trial)
    return None


_Candidate: TypeAlias = tuple[Lead, float | None, float | None, float | None]


def _list_thicker(lead: Lead) -> Iterator[_Candidate]:
    conductors = lead.body.conductors
    areas = [one.area for one in conductors if one.area is not None]
    gauges = [one.gauge for one in conductors if one.gauge is not None and one.area is None]
    for area in (one for one in _AREAS if areas and one > min(areas)):
        yield _with_conductors(lead, partial(_with_area, area=area)), None, area, None
    for gauge in (one for one in _GAUGES if gauges and not areas and one < max(gauges)):
        yield _with_conductors(lead, partial(_with_gauge, gauge=gauge)), gauge, None, None


def _with_conductors(lead: Lead, change: Callable[[Conductor], Conductor]) -> Lead:
    return replace(lead, body=replace(lead.body, conductors=tuple(map(change, lead.body.conductors))))


def _with_area(conductor: Conductor, area: float) -> Conductor:
    return replace(conductor, area=max(conductor.area, area)) if conductor.area is not None else conductor


def _with_gauge(conductor: Conductor, gauge: float) -> Conductor:
    return replace(conductor, gauge=min(conductor.gauge, gauge)) if conductor.gauge is not None else conductor


def _list_shorter(lead: Lead) -> Iterator[_Candidate]:
    for share in _SHARES:
        length = _round_length(share * lead.length)
        if length >= _SHORTEST:
            yield replace(lead, length=length), None, None, length


def _round_length(metres: float) -> float:
    """Down to what is cut and printed: whole metres, from 3 m down to 10 cm."""
    return float(int(metres)) if metres >= 3 else int(10 * metres + 1e-9) / 10


def _leads_by_current(power: Power, point: Point) -> list[str]:
    leads = power.points[point].leads
    return sorted((label for label in leads if leads[label].amps > 0), key=lambda label: (-leads[label].amps, label))


def _free_outputs(rig: Rig, items: list[str], taken: set[PortRef], like: Port) -> Iterator[PortRef]:
    for item in items:
        for port in rig.items[item].part.ports.values():
            ref = PortRef(item, port.name)
            is_output = port.role is not Role.IN and port.carries_power
            if is_output and ref not in taken and (port.connector.id, port.sex) == (like.connector.id, like.sex):
                yield ref


def _try_lead(rig: Rig, setup: Setup, house: House, lead: Lead) -> Trial:
    changed = replace(rig, leads=MappingProxyType({**rig.leads, lead.label: lead}))
    network = build_pin_network(changed, Presence.of(setup))
    return Trial(changed, setup, network, study_power(changed, setup, network, house))
