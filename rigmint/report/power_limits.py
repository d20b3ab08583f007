"""What limits the current of a lead: its conductors, fuses and contacts, and the ports that it is plugged into."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint.report.quantities import show_quantity
from rigmint.rig.lead import Conductor
from rigmint.rig.rig import Lead, Rig
from rigmint.study.lead_ohms import rate_conductor
from rigmint.study.power import PointPower


@dataclass(frozen=True, slots=True)
class LeadLimit:
    """A limit of a lead, what sets it, and the A that it carries of it."""

    what: str
    limit: float
    amps: float
    assumed: bool

    @property
    def share(self) -> float:
        """The part of the limit that is used."""
        return self.amps / self.limit


def find_tightest_limit(rig: Rig, point: PointPower, label: str) -> LeadLimit | None:
    """The limit that is used most; of a lead without current the lowest one. None where nothing states any."""
    limits = (limit for limit in _list_limits(rig, point, rig.leads[label]) if limit.limit > 0)
    return min(limits, key=lambda limit: (-limit.share, limit.limit), default=None)


def _list_limits(rig: Rig, point: PointPower, lead: Lead) -> Iterator[LeadLimit]:
    carried = point.leads[lead.label].conductors
    for conductor in lead.body.conductors:
        amps = abs(carried.get(conductor.index, 0.0))
        rating = rate_conductor(conductor)
        if rating is not None:
            yield LeadLimit(say_gauge(conductor), rating, amps, bool(conductor.assumed))
        if conductor.fuse is not None:
            yield LeadLimit("its fuse", conductor.fuse.amps, amps, assumed=False)
        for side in (conductor.source, conductor.target):
            ref, connector = lead.plugged.get(side.end), lead.body.ends[side.end].connector
            if ref is not None and connector.amps is not None:
                yield LeadLimit(f"a contact at {ref.place}", connector.amps, amps, assumed=False)
    for ref in lead.plugged.values():
        port = rig.items[ref.item].part.ports[ref.port]
        if port.max_amps is not None and ref in point.ports:
            yield LeadLimit(ref.place, port.max_amps, abs(point.ports[ref].amps), "max" in port.assumed)


def say_gauge(conductor: Conductor) -> str:
    """`20 AWG` or `0.5 mm2`."""
    if conductor.area is not None:
        return show_quantity(conductor.area, "area")
    return f"{conductor.gauge:g} AWG"
