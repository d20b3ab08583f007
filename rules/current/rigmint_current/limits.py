"""What limits the current of a lead or a source, and how near a rig comes to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint import Case, Conductor, Point, rate_conductor


@dataclass(frozen=True, slots=True)
class Limit:
    """A figure that current must stay under: `at` is where it shows, `cause` what carries it."""

    at: str
    cause: str
    what: str
    amps: dict[Point, float]
    limit: float
    assumed: tuple[str, ...]


def list_limits(case: Case) -> Iterator[Limit]:
    """Every limit of every lead, dock and source that is there, with the current at each point."""
    for label in sorted(case.setup.leads):
        if case.carries_power(label):  # what runs through a signal lead is the matter of `ground:through-shield`
            yield from _limits_of_lead(case, label)
    for source in case.network.sources:
        if source.cell.max_amps is not None and source.item not in case.setup.off:
            amps = {
                point: power.sources[source.place].amps for point, power in case.power.points.items() if power.solved
            }
            yield Limit(source.place, source.item, f"{source.item} itself", amps, source.cell.max_amps, ())


def _limits_of_lead(case: Case, label: str) -> Iterator[Limit]:
    lead = case.rig.leads[label]
    for conductor in lead.body.conductors:
        amps = {
            point: abs(power.leads[label].conductors.get(conductor.index, 0.0))
            for point, power in case.power.points.items()
            if power.solved
        }
        rating = rate_conductor(conductor)
        if rating is not None:
            assumed = (f"{label} gauge",) if conductor.assumed else ()
            yield Limit(label, label, f"a conductor of {_say_gauge(conductor)}", amps, rating, assumed)
        yield from _contact_limits(case, label, conductor, amps)
    for ref in lead.plugged.values():
        port = case.port(ref)
        if port.max_amps is None or not port.carries_power:
            continue
        amps = {point: abs(power.ports[ref].amps) for point, power in case.power.points.items() if power.solved}
        yield Limit(ref.place, label, f"the port {ref.place}", amps, port.max_amps, case.assumed_of(ref, "max"))


def _contact_limits(case: Case, label: str, conductor: Conductor, amps: dict[Point, float]) -> Iterator[Limit]:
    lead = case.rig.leads[label]
    for side in (conductor.source, conductor.target):
        ref = lead.plugged.get(side.end)
        connector = lead.body.ends[side.end].connector
        if ref is not None and connector.amps is not None:
            yield Limit(ref.place, label, f"a contact of {connector.name} at {ref.place}", amps, connector.amps, ())


def _say_gauge(conductor: Conductor) -> str:
    if conductor.gauge is not None:
        return f"{conductor.gauge:g} AWG"
    return f"{(conductor.area or 0.0) * 1e6:g} mm2"
