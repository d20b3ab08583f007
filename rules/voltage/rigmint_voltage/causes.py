"""What feeds that meet are put down to, the remedy for one too many, and which regulator a way only guesses at."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from rigmint import Case, Fix, MoveEnd, PortRef, Reach, TakeOutLead, Way, say_volts


def find_meeting(case: Case, way: Way, victim: str) -> str:
    """The feed on the way that nothing needs; else the last lead; else the item in which the two are docked."""
    spare = case.find_spare_feed(way, victim)
    if spare is not None or way.leads:
        return spare or way.leads[-1]
    between = [owner for owner in _owners(case, way) if owner not in (way.places[0], victim)]
    return between[0] if between else victim


def find_tie(case: Case, one: str, other: str) -> str | None:
    """What the tie of two items' sources is put down to, whichever pushes into the other; None where they are not
    tied."""
    ties = [tied for tied in case.tied_sources if {tied.giver.item, tied.taker.item} == {one, other}]
    if not ties:
        return None
    worst = max(ties, key=lambda tied: tied.amps)
    return find_meeting(case, worst.way, worst.taker.item)


def list_highest(case: Case, is_hurt_at: Callable[[PortRef, float], bool]) -> list[tuple[PortRef, Reach]]:
    """The ports that too many volts reach, with what brings them: what is certain before what rests on a guess."""
    certain = case.certain_volts.ports
    found = []
    for ref, worst in case.worst_volts.ports.items():
        hurting = [
            reach for reach in (certain[ref].high, worst.high) if reach is not None and is_hurt_at(ref, reach.volts)
        ]
        found += [(ref, reach) for reach in hurting[:1]]
    return found


def find_guess(case: Case, way: Way) -> str | None:
    """The item through whose regulator the way runs backwards, though its part file does not state whether it can."""
    if not way.guessed:
        return None
    steps = set(pairwise(way.pins))
    return next(
        regulator.owner
        for regulator in case.network.regulators
        if regulator.spec.blocks is None and (regulator.output, regulator.source) in steps
    )


def say_guess(owner: str) -> str:
    """The sentence that a finding on a guess ends in."""
    return f" Nobody states whether the regulator in {owner} blocks that."


def fix_spare(case: Case, label: str) -> Fix:
    """The remedy for a second feed: without the lead; where it carries signals too, without its plus."""
    if case.carries_signals(label):
        return Fix(f"Swap {label} for a lead without plus: everything it feeds is fed without it.")
    return Fix(f"Take out {label}: everything it feeds is fed without it.", (TakeOutLead(label),))


def fix_outlet(case: Case, label: str, ref: PortRef) -> tuple[Fix, ...]:
    """A free output that gives volts in the window of a port, for the lead that feeds it."""
    works = case.port(ref).works
    if works is None or label not in case.rig.leads:
        return ()
    fixes = []
    for end, outlet in case.find_outlets(label, works)[:1]:
        usual = case.nominal_volts.ports[outlet].high
        gives = f", which gives {say_volts(usual.volts)}" if usual is not None else ""
        fixes.append(Fix(f"Plug {label} into {outlet.place}{gives}.", (MoveEnd(label, end, outlet.place),)))
    return tuple(fixes)


def _owners(case: Case, way: Way) -> list[str]:
    return list(dict.fromkeys(case.network.pins[number].owner for number in way.pins))
