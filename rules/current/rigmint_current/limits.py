"""What limits the current of a lead or a source, in the words of a finding."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from rigmint import Case, CurrentLimit, Limiter, Point, say_gauge


@dataclass(frozen=True, slots=True)
class Limit:
    """A figure that current must stay under: `at` is where it shows, `cause` what carries it."""

    at: str
    cause: str
    what: str
    amps: Mapping[Point, float]
    limit: float
    assumed: tuple[str, ...]

    def find_share(self, point: Point) -> float:
        """The part of the limit that flows at a point; 0 where there is no operating point."""
        return self.amps.get(point, 0.0) / self.limit


def list_limits(case: Case) -> Iterator[Limit]:
    """Every limit of every lead, dock and source that is there, with the current at each point; fuses in leads apart,
    which are there to blow. What runs through a signal lead is the matter of `ground:through-shield`."""
    for found in case.list_current_limits():
        if found.limiter is not Limiter.FUSE:
            yield Limit(found.at, found.owner, _name(found), found.amps, found.limit, found.assumed)


def _name(limit: CurrentLimit) -> str:
    if limit.limiter is Limiter.SOURCE:
        return f"{limit.owner} itself"
    if limit.conductor is not None:
        return f"a conductor of {say_gauge(limit.conductor)}"
    if limit.connector is not None:
        return f"a contact of {limit.connector.name} at {limit.at}"
    return f"the port {limit.at}"
