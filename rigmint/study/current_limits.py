"""What limits current in a lead, at a docked port or at a source, and the current against it at each point."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

from rigmint.graph.pins import Source
from rigmint.rig.connector import Connector
from rigmint.rig.lead import Conductor, EndContact
from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.feeding import carries_power
from rigmint.study.lead_ohms import rate_conductor
from rigmint.study.power import Point, PointPower, Power


class Limiter(Enum):
    """What sets a limit."""

    CONDUCTOR = "conductor"
    FUSE = "fuse"
    CONTACT = "contact"
    PORT = "port"
    SOURCE = "source"


@dataclass(frozen=True, slots=True)
class CurrentLimit:
    """A figure that current should stay under. `owner` is the lead or item that carries it, `at` the place of the
    limit: a port, a source, or the lead itself."""

    limiter: Limiter
    owner: str
    at: str
    limit: float
    """A, above zero."""
    amps: Mapping[Point, float]
    """The A against it at each point that has a solution."""
    assumed: tuple[str, ...] = ()
    """`place figure` where a default stands in for the limit."""
    conductor: Conductor | None = None
    """Of a conductor or its fuse."""
    connector: Connector | None = None
    """Of a contact."""

    def find_share(self, point: Point) -> float:
        """The part of the limit that flows at a point; 0 where there is no operating point."""
        return self.amps.get(point, 0.0) / self.limit


def list_current_limits(rig: Rig, setup: Setup, sources: Iterable[Source], power: Power) -> Iterator[CurrentLimit]:
    """Every limit of every lead that carries power, every docked port and every source that is on."""
    solved = {point: found for point, found in power.points.items() if found.solved}
    for label in sorted(setup.leads):
        if carries_power(rig, rig.leads[label]):
            yield from list_lead_limits(rig, rig.leads[label], solved)
    for index in sorted(setup.docks):
        dock = rig.docks[index]
        for ref in (dock.first, dock.second):
            yield from _limit_port(rig, ref, ref.item, solved)
    for source in sources:
        if source.cell.max_amps is not None and source.item not in setup.off:
            amps = {point: found.sources[source.place].amps for point, found in solved.items()}
            yield CurrentLimit(Limiter.SOURCE, source.item, source.place, source.cell.max_amps, amps)


def list_lead_limits(rig: Rig, lead: Lead, solved: Mapping[Point, PointPower]) -> Iterator[CurrentLimit]:
    """The limits of a lead: its conductors and their fuses, the contacts of its plugged ends, the ports there.
    `solved`: the points that have a solution."""
    for conductor in lead.body.conductors:
        amps = {
            point: abs(found.leads[lead.label].conductors.get(conductor.index, 0.0)) for point, found in solved.items()
        }
        rating = rate_conductor(conductor)
        if rating is not None:
            assumed = (f"{lead.label} gauge",) if conductor.assumed else ()
            yield CurrentLimit(Limiter.CONDUCTOR, lead.label, lead.label, rating, amps, assumed, conductor)
        if conductor.fuse is not None:
            fuse = conductor.fuse.amps
            yield CurrentLimit(Limiter.FUSE, lead.label, lead.label, fuse, amps, conductor=conductor)
    yield from _limit_contacts(lead, solved)
    for ref in lead.plugged.values():
        yield from _limit_port(rig, ref, lead.label, solved)


def _limit_contacts(lead: Lead, solved: Mapping[Point, PointPower]) -> Iterator[CurrentLimit]:
    """Every contact of a plugged end: where several conductors meet in one, it carries what they carry together."""
    signs: dict[EndContact, list[tuple[int, float]]] = {}
    for conductor in lead.body.conductors:
        signs.setdefault(conductor.source, []).append((conductor.index, 1.0))
    for conductor in lead.body.conductors:
        signs.setdefault(conductor.target, []).append((conductor.index, -1.0))
    for contact, meeting in signs.items():
        ref, connector = lead.plugged.get(contact.end), lead.body.ends[contact.end].connector
        if ref is not None and connector.amps is not None:
            amps = {
                point: abs(sum(sign * found.leads[lead.label].conductors.get(index, 0.0) for index, sign in meeting))
                for point, found in solved.items()
            }
            yield CurrentLimit(Limiter.CONTACT, lead.label, ref.place, connector.amps, amps, connector=connector)


def _limit_port(rig: Rig, ref: PortRef, owner: str, solved: Mapping[Point, PointPower]) -> Iterator[CurrentLimit]:
    port = rig.port(ref)
    if port.max_amps is not None and port.carries_power:
        amps = {point: abs(found.ports[ref].amps) for point, found in solved.items()}
        assumed = (f"{ref.place} max",) if "max" in port.assumed else ()
        yield CurrentLimit(Limiter.PORT, owner, ref.place, port.max_amps, amps, assumed)
