"""The hops of links that are live: a hub and one of the others, both switched on, and how far apart they work."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rigmint import Case, Fix, Link, LinkReach, PortRef, say_metres


@dataclass(frozen=True, slots=True)
class LinkHop:
    """`distance` in m: of the link, else what the job needs; None where neither is stated. `reaches`: one for each
    region and place in which the rig may be; `None` among them where nothing states a reach."""

    link: Link
    other: PortRef
    distance: float | None
    reaches: tuple[LinkReach | None, ...]

    @property
    def known(self) -> tuple[LinkReach, ...]:
        """The reaches; empty where one of them is not known."""
        reaches = tuple(reach for reach in self.reaches if reach is not None)
        return reaches if len(reaches) == len(self.reaches) else ()


def list_hops(case: Case) -> Iterator[LinkHop]:
    """Every live hop of every link that is there."""
    for name in sorted(case.setup.links):
        link = case.rig.links[name]
        for other in list_live_others(case, link):
            distance = case.setup.distances.get(name, case.setup.needs.distance)
            yield LinkHop(link, other, distance, case.reaches(link, other))


def list_live_others(case: Case, link: Link) -> list[PortRef]:
    """The radios of a link beside the hub that are there and on; none where the hub is off."""
    if link.radios[0].item in case.setup.off:
        return []
    return [ref for ref in link.radios[1:] if ref.item in case.setup.items - case.setup.off]


def fix_distance(hop: LinkHop, reach: LinkReach) -> Fix:
    """Stay inside what the place leaves of the reach. In words alone: how far the job goes is not the file's to say."""
    whole = math.floor(round(reach.derated, 6))  # a reach that was stated in feet may be 119.99999999999999 m
    near = f"within {say_metres(whole)} of {hop.link.radios[0].item}"
    return Fix(f"Keep {hop.other.item} {near}, or use radios that reach further.")


def list_assumed(hop: LinkHop, reach: LinkReach) -> tuple[str, ...]:
    """The figure that a budget stands in for."""
    return (f"{hop.link.place} reach",) if reach.assumed else ()


def say_reach(metres: float, reach: LinkReach) -> str:
    """`150 m`, with `~` where the reach is assumed."""
    return f"{'~' if reach.assumed else ''}{say_metres(metres)}"


def find_best(reaches: Sequence[LinkReach]) -> LinkReach:
    """The one that leaves most, of those that may hold."""
    return max(reaches, key=lambda reach: (reach.derated, reach.stated))
