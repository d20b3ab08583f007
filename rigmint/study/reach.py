"""How far a radio link reaches: what the makers state for the region, and what the place leaves of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from rigmint.physics.radio import find_distance
from rigmint.rig.device import Radio
from rigmint.rig.rig import Link, PortRef, Rig, Setup

LEAVES = {"open": 0.5, "street": 0.3, "vehicle": 0.25, "steel": 0.25}
"""Share of a stated reach that a place leaves (common practice); a library may set its own."""

MARGIN_DB = 20.0
"""dB of the free-space budget that is kept back where no reach is stated."""


@dataclass(frozen=True, slots=True)
class LinkReach:
    """A hop of a link: m as stated, m as the place leaves it. `assumed`: by the free-space budget, no reach stated."""

    stated: float
    derated: float
    assumed: bool


def find_reach(
    rig: Rig, setup: Setup, first: PortRef, second: PortRef, link: Link, leaves: Mapping[str, float]
) -> LinkReach | None:
    """The reach between two radios of a link; None where nothing states one and no budget follows."""
    radios = [rig.radio(ref) for ref in (first, second)]
    stated = [reach for radio in radios if (reach := _stated_reach(radio, setup.region)) is not None]
    share = {**LEAVES, **leaves}.get(setup.where or "open", 1.0)
    if stated:
        reach = min(stated)
        return LinkReach(reach, reach * share, False)
    budgets = [
        budget
        for sender, hearer in (radios, reversed(radios))
        if (budget := _budget(sender, hearer, link, setup.region)) is not None
    ]
    return LinkReach(min(budgets), min(budgets) * share, True) if budgets else None


def find_reaches(
    rig: Rig, setup: Setup, first: PortRef, second: PortRef, link: Link, leaves: Mapping[str, float]
) -> tuple[LinkReach | None, ...]:
    """The reach in every region and place in which the rig may be: one where `region` and `where` are stated."""
    regions = [setup.region] if setup.region is not None else _list_regions(rig, (first, second))
    places = [setup.where] if setup.where is not None else sorted({**LEAVES, **leaves})
    return tuple(
        find_reach(rig, replace(setup, region=region, where=where), first, second, link, leaves)
        for region in regions
        for where in places
    )


def _list_regions(rig: Rig, refs: tuple[PortRef, PortRef]) -> list[str | None]:
    """The regions for which the radios state a reach, else a power."""
    radios = [rig.radio(ref) for ref in refs]
    regions = {region for radio in radios for region in radio.reach} or {
        region for radio in radios for region in radio.power
    }
    return [*sorted(regions)] or [None]


def _stated_reach(radio: Radio, region: str | None) -> float | None:
    if region is None:
        return min(radio.reach.values(), default=None)
    return radio.reach.get(region)


def _budget(sender: Radio, hearer: Radio, link: Link, region: str | None) -> float | None:
    """m at which free space takes what is left between radiated power and what is heard, 20 dB kept back."""
    power = min(sender.power.values(), default=None) if region is None else sender.power.get(region)
    hertz = _frequency(sender, link)
    if power is None or hearer.hears is None or hertz is None:
        return None
    return find_distance(power + hearer.gain - hearer.hears - MARGIN_DB, hertz)


def _frequency(radio: Radio, link: Link) -> float | None:
    channel = radio.channels.get(link.channel) if link.channel is not None else None
    if channel is not None:
        return channel.centre
    return (radio.band.low + radio.band.high) / 2 if radio.band is not None else None
