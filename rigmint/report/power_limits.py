"""How near a lead comes to what limits its current, in words."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.lint.wording import say_gauge
from rigmint.rig.rig import Lead, Rig
from rigmint.study.current_limits import CurrentLimit, Limiter, list_lead_limits
from rigmint.study.power import Point, PointPower


@dataclass(frozen=True, slots=True)
class LeadLimit:
    """A limit of a lead, what sets it, and the A that it carries of it."""

    what: str
    limit: float
    amps: float
    assumed: bool
    share: float
    """The part of the limit that is used."""


def find_tightest_limit(rig: Rig, lead: Lead, point: Point, power: PointPower) -> LeadLimit | None:
    """The limit that is used most at a point; of a lead without current the lowest one. None where nothing states
    any."""
    limits = list_lead_limits(rig, lead, {point: power})
    found = min(limits, key=lambda limit: (-limit.find_share(point), limit.limit), default=None)
    if found is None:
        return None
    return LeadLimit(_name(found), found.limit, found.amps[point], bool(found.assumed), found.find_share(point))


def _name(limit: CurrentLimit) -> str:
    if limit.limiter is Limiter.CONDUCTOR and limit.conductor is not None:
        return say_gauge(limit.conductor)
    if limit.limiter is Limiter.FUSE:
        return "its fuse"
    return f"a contact at {limit.at}" if limit.limiter is Limiter.CONTACT else limit.at
