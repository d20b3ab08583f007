"""The misplugs within reach that destroy something, sorted by the one piece of tape that answers them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.electronics import has_electronics
from rigmint.study.loose_ends import find_loose_volts
from rigmint.study.misplug.burns import Harm, HarmKind
from rigmint.study.misplug.moves import Move, Sockets
from rigmint.study.misplug.outcome import Misplug, Outcome, find_marks
from rigmint.study.misplug.sift import Sieve
from rigmint.study.misplug.victims import find_victim, order_harms
from rigmint.study.studies import Studies

_SAME = 0.5
"""V by which a feed must exceed what an output gives itself to be worth a word: two supplies of 5 V side by side are
not."""


@dataclass(frozen=True, slots=True)
class Hazard:
    """Misplugs that one mark answers. `place`: the socket that dies; or the lead, where several sockets die of it.
    Misplugs by which the same two sources meet have one cause, and are one hazard of several marks: `further`."""

    place: str
    misplugs: tuple[Misplug, ...]
    """The worst first."""
    further: tuple[str, ...] = ()
    """Other sockets and leads to mark, besides `place`."""


def find_hazards(studies: Studies, setup: Setup) -> tuple[Hazard, ...]:
    """The hazards of a setup that no mark answers, of ends of its leads moved within reach. Of a rig that is shorted as
    it stands nothing is told: every volt on it hangs on that."""
    if any(harm.kind is HarmKind.SHORT for harm in studies.certain_harms(setup).values()):
        return ()
    unmarked = [one for one in find_burning_moves(studies, setup) if not find_marks(studies.rig, one)]
    return unite_ties(sort_by_mark(studies.rig, unmarked))


def find_burning_moves(studies: Studies, setup: Setup) -> tuple[Misplug, ...]:
    """The moves within reach that destroy something which is not destroyed as the rig stands."""
    rig, bench = studies.rig, studies.misplug_bench(setup)
    sockets, wiring = Sockets(rig, setup), bench.wiring
    sieve = Sieve(rig, wiring.wired, wiring.judge)
    found = []
    for move in _list_moves(studies, setup, sockets):
        is_idle = sieve.is_idle(move)
        if is_idle and not bench.is_negotiated:
            continue
        mistake = sockets.make_mistake(move)
        if is_idle and not bench.settles_otherwise(mistake):
            continue
        harms = [one for one in bench.try_mistake(mistake, rise=_SAME).harms if _is_worth_a_word(studies, setup, one)]
        if harms:
            ordered = order_harms(rig, setup, mistake, harms)
            victim = find_victim(mistake, ordered)
            found.append(Misplug(mistake, (setup.name,), Outcome.BURN, victim, ordered[0].volts, ordered))
    return tuple(found)


def _list_moves(studies: Studies, setup: Setup, sockets: Sockets) -> Iterator[Move]:
    """The moves within reach. A lead that is at fault where it is, a socket that is at fault as it stands, and an end
    that hangs loose with volts on it are told of as they are."""
    faulty = {harm.ref for harm in studies.certain_harms(setup).values() if harm.ref is not None}
    for label in sorted(setup.leads):
        lead = studies.rig.leads[label]
        if faulty.intersection(lead.plugged.values()):
            continue
        live = {end for end in lead.loose if find_loose_volts(studies.certain_volts(setup), lead, end) is not None}
        for end in sorted(lead.body.ends.keys() - live):
            yield from (move for move in sockets.list_near_moves(lead, end) if move.into not in faulty)


def _is_worth_a_word(studies: Studies, setup: Setup, harm: Harm) -> bool:
    if harm.kind is not HarmKind.INTO_OUTPUT or harm.ref is None:
        return True
    own = studies.certain_volts(setup).ports[harm.ref].high
    return own is None or harm.volts > own.volts + _SAME


def sort_by_mark(rig: Rig, misplugs: Sequence[Misplug]) -> tuple[Hazard, ...]:
    """The misplugs by as few marks as answer them all, near enough: each time the lead or the socket that most are
    about, the socket where both are alike."""
    left: dict[tuple[str, PortRef], list[Misplug]] = {}
    for one in misplugs:
        left.setdefault((one.mistake.lead or "", one.port), []).append(one)
    found = []
    while left:
        leads: dict[str, set[PortRef]] = defaultdict(set)
        sockets: dict[PortRef, set[str]] = defaultdict(set)
        for lead, socket in left:
            leads[lead].add(socket)
            sockets[socket].add(lead)
        lead = min(leads, key=lambda one: (-len(leads[one]), one))
        socket = min(sockets, key=lambda one: (-len(sockets[one]), one))
        is_lead = len(leads[lead]) > len(sockets[socket])
        covered = [pair for pair in left if (pair[0] == lead if is_lead else pair[1] == socket)]
        group = [one for pair in covered for one in left.pop(pair)]
        found.append(Hazard(lead if is_lead else socket.place, tuple(sorted(group, key=lambda one: _rank(rig, one)))))
    return tuple(sorted(found, key=lambda one: one.place))


def unite_ties(hazards: Sequence[Hazard]) -> tuple[Hazard, ...]:
    """The hazards, those united that only let the same two sources meet. Where the grounds of two feeds are joined,
    each output of the one takes each lead of the other: that is told once."""
    found: dict[tuple[object, ...], list[Hazard]] = defaultdict(list)
    for hazard in hazards:
        found[_name_tie(hazard) or (hazard.place,)].append(hazard)
    return tuple(
        Hazard(
            first.place,
            tuple(one for hazard in (first, *others) for one in hazard.misplugs),
            tuple(hazard.place for hazard in others),
        )
        for first, *others in found.values()
    )


def _name_tie(hazard: Hazard) -> tuple[object, ...] | None:
    """What makes hazards one that do nothing but tie two sources; None for others."""
    first = [one.harms[0] for one in hazard.misplugs]
    if any(harm.kind is not HarmKind.TIED for harm in first):
        return None
    return HarmKind.TIED, frozenset(frozenset(harm.what.split()) for harm in first)


def _rank(rig: Rig, misplug: Misplug) -> tuple[bool, int, float, str, str]:
    """A device before what only hands on, then the worst first."""
    harm = misplug.harms[0]
    excess = harm.volts / harm.limit if harm.limit else 1.0
    is_bare = not has_electronics(rig.items[misplug.port.item].part)
    return is_bare, harm.kind, -excess, misplug.port.place, misplug.mistake.lead or ""
