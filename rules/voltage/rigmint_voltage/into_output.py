"""`backfeed:into-output`: a feed into a socket that gives power."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Rule, TakeOutLead, say_volts
from rigmint_voltage.causes import find_guess, find_meeting, find_tie, fix_spare, say_guess


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead that feeds an output."""
    for feed in case.backfeeds:
        place, source = feed.ref.place, feed.source.item
        cause = find_tie(case, source, feed.ref.item) or find_meeting(case, feed.way, feed.ref.item)
        survives = case.port(feed.ref).survives
        says = f"{place} gives power, and {source} can push {say_volts(feed.volts)} back into it through {cause}."
        guess = (find_guess(case, feed.way) or feed.ref.item) if feed.guessed else None
        yield Finding(
            code="backfeed:into-output",
            grade=Grade.BURN if guess is None else Grade.THIN,
            says=says if guess is None else says + say_guess(guess),
            at=place,
            cause=cause,
            path=feed.way.places,
            measured=Measured(feed.volts, survives.high if survives else None, "V"),
            assumed=(f"{guess} blocks",) if guess is not None else (),
            fixes=_list_fixes(case, cause, place),
        )


def _list_fixes(case: Case, cause: str, place: str) -> tuple[Fix, ...]:
    one_side = Fix(f"Feed what hangs on {place} from one side only, or use a lead there without the plus.")
    if cause not in case.rig.leads:
        return (one_side,)
    if case.is_spare(cause):
        return (fix_spare(case, cause), one_side)
    return (one_side, Fix(f"Take out {cause}.", (TakeOutLead(cause),)))


RULE = Rule(
    code="backfeed:into-output",
    grades=(Grade.BURN, Grade.THIN),
    title="A feed runs into an output",
    looks_for=(
        "A port that gives power and that a source of another device reaches from outside, where current can go on"
        " inside: into a cell, a load, or a regulator that does not block. Thin where nobody states whether it blocks."
    ),
    why=(
        "A motor fed from a tap hands battery volts down its control lead into the head or handgrip that should feed"
        " it. Outputs are seldom built for that."
    ),
    put_right="Feed it from one side: take out the feed that is not needed, or use a lead without the plus conductor.",
    source="common practice",
    check=check,
)
