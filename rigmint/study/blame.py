"""Which lead or item a wrong voltage is put down to: what a technician would change.

- Reversed: the lead in which the polarity turns.
- Over: the lead into the first port on the way that is hurt; or, where a lead on the way is a second feed that nothing
  needs, that lead. Where all that hangs on a common trunk or source is hurt, the trunk or the source.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from rigmint.graph.pins import Pin
from rigmint.rig.electric import MINUS
from rigmint.rig.rig import Lead, PortRef, Setup
from rigmint.study.electronics import wants_volts
from rigmint.study.paths import Way, find_way, list_hops
from rigmint.study.potentials import Potentials
from rigmint.study.spare import find_items_lost, find_spare_feed
from rigmint.study.studies import Studies
from rigmint.study.worst_volts import Reach


@dataclass(frozen=True, slots=True)
class Victim:
    """A port that a source hurts, with the way by which it does."""

    ref: PortRef
    reach: Reach
    way: Way
    cause: str


@dataclass(frozen=True, slots=True)
class Blame:
    """One cause and all its victims, the nearest to the source first."""

    cause: str
    victims: tuple[Victim, ...]


def blame_over(
    studies: Studies, setup: Setup, hurt: Sequence[tuple[PortRef, Reach]], is_hurt_at: Callable[[PortRef, float], bool]
) -> tuple[Blame, ...]:
    """Causes of volts above a limit. `is_hurt_at`: whether a port is hurt by so many volts."""
    refs = {ref for ref, _ in hurt}
    victims = []
    for ref, reach in hurt:
        way = studies.worst_volts(setup).way_to(ref, reach)
        base = _lead_into_first(studies, way, refs) or reach.source.item
        spare = _find_spare_feed(studies, setup, ref, way, base, is_hurt_at)
        victims.append(Victim(ref, reach, way, spare or base))
    return _group(_climb_to_trunk(studies, setup, victims))


def blame_reversed(studies: Studies, setup: Setup, hurt: Sequence[tuple[PortRef, Reach]]) -> tuple[Blame, ...]:
    """Causes of reversed volts: the lead after which the sign is wrong."""
    worst = studies.worst_volts(setup)
    victims = []
    for ref, reach in hurt:
        way = worst.way_to(ref, reach)
        turned = {
            other
            for other, volts in worst.ports.items()
            if volts.low is not None and volts.low.volts < 0 and volts.low.source == reach.source
        }
        cause = _lead_into_first(studies, way, turned | {ref}) or reach.source.item
        victims.append(Victim(ref, reach, way, cause))
    return _group(victims)


def blame_last_lead(studies: Studies, setup: Setup, ref: PortRef, reach: Reach) -> Victim:
    """The lead that is plugged into the port itself."""
    way = studies.worst_volts(setup).way_to(ref, reach)
    return Victim(ref, reach, way, way.leads[-1] if way.leads else reach.source.item)


def trace_short(studies: Studies, setup: Setup, shorted: Potentials) -> tuple[Way, str]:
    """The ring on which a source's plus meets its minus, and the lead that closes it: one that joins a feed to a
    minus, else the first without which there is no short."""
    network = studies.network(setup)
    hops = list_hops(network, outwards=True)
    way = find_way(network, hops, shorted.source.plus, {shorted.source.minus})
    if way is None:  # the short is behind a regulator or a diode: the ring runs to the net where they meet
        nets = studies.worst_volts(setup).nets
        goals = {pin for pin, net in enumerate(nets) if net == shorted.shorted}
        way = find_way(network, hops, shorted.source.plus, goals)
    if way is None:
        msg = f"no way to the short of {shorted.source.place}"
        raise LookupError(msg)
    crossed = [label for label in way.leads if is_crossed(studies, studies.rig.leads[label])]
    closing = [label for label in way.leads if not studies.worst_volts_without(setup, label).shorts]
    cause = next(iter([*crossed, *closing, *way.leads]), shorted.source.item)
    return way, cause


def is_crossed(studies: Studies, lead: Lead) -> bool:
    """Whether a conductor of the lead joins a feed of one port to a minus of another."""
    roles: dict[tuple[str, str], str] = {}
    for end, ref in lead.plugged.items():
        port = studies.rig.port(ref)
        for contact, role in port.pins.items():
            roles[end, contact] = "feed" if contact in port.feeds else role
    pairs = [
        {
            roles.get((conductor.source.end, conductor.source.contact)),
            roles.get((conductor.target.end, conductor.target.contact)),
        }
        for conductor in lead.body.conductors
    ]
    return {"feed", MINUS} in pairs


def _find_spare_feed(
    studies: Studies,
    setup: Setup,
    ref: PortRef,
    way: Way,
    base: str,
    is_hurt_at: Callable[[PortRef, float], bool],
) -> str | None:
    labels = list(way.leads)
    if base in labels:
        labels = labels[: labels.index(base) + 1]
    clearing = []
    for label in labels:
        high = studies.worst_volts_without(setup, label).ports[ref].high
        if high is None or not is_hurt_at(ref, high.volts):
            clearing.append(label)
    return find_spare_feed(studies, setup, way, clearing, ref.item)


def _lead_into_first(studies: Studies, way: Way, refs: set[PortRef]) -> str | None:
    """The lead by which the way enters the first port among `refs`; None where it does so before any lead."""
    label: str | None = None
    for place in way.places[1:]:
        if place in studies.rig.leads:
            label = place
            continue
        item, _, port = place.partition(".")
        if PortRef(item, port) in refs:
            return label
    return label


def _climb_to_trunk(studies: Studies, setup: Setup, victims: list[Victim]) -> list[Victim]:
    by_source: dict[str, list[Victim]] = defaultdict(list)
    for victim in victims:
        by_source[victim.reach.source.place].append(victim)
    climbed = []
    for group in by_source.values():
        trunk = _find_trunk(studies, setup, group) if len({victim.cause for victim in group}) > 1 else None
        for victim in group:
            climbed.append(Victim(victim.ref, victim.reach, victim.way, trunk or victim.cause))
    return climbed


def _find_trunk(studies: Studies, setup: Setup, victims: list[Victim]) -> str | None:
    """What all victims hang on, if everything that hangs on it is a victim. What gets less than they do hangs on one of
    them, or on a regulator."""
    hurt_items = {victim.ref.item for victim in victims}
    least = min(victim.reach.volts for victim in victims)
    fed = _items_fed(studies, setup, victims[0].reach.potentials, least)
    common = [label for label in victims[0].way.leads if all(label in victim.way.leads for victim in victims)]
    for label in reversed(common):
        is_trunk = find_items_lost(studies, setup, label) & fed <= hurt_items
        if is_trunk and not any(victim.cause == label for victim in victims):
            return label
    return victims[0].reach.source.item if fed and fed <= hurt_items else None


def _items_fed(studies: Studies, setup: Setup, potentials: Potentials, least: float) -> set[str]:
    """The items that a source brings at least so many V: those with a load there, and those that state none but want
    volts."""
    worst, items = studies.worst_volts(setup), studies.rig.items
    pins = worst.network.index
    high = {net for net, volts in potentials.plus.items() if volts >= least}
    loaded = {load.item for load in worst.network.loads if worst.nets[load.rail_pin] in high}
    reached = {
        ref.item
        for ref, volts in worst.ports.items()
        if any(worst.nets[pins[Pin(ref.item, ref.port, contact)]] in high for contact in volts.port.feeds)
    }
    unrated = {name for name in reached - {potentials.source.item} if wants_volts(items[name].part)}
    return (loaded | unrated) - setup.off


def _group(victims: list[Victim]) -> tuple[Blame, ...]:
    groups: dict[str, list[Victim]] = defaultdict(list)
    for victim in victims:
        groups[victim.cause].append(victim)
    return tuple(
        Blame(cause, tuple(sorted(group, key=lambda victim: (len(victim.way.places), victim.ref))))
        for cause, group in sorted(groups.items())
    )
