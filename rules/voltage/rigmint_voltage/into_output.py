"""`backfeed:into-output`: a feed into a socket that gives power."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Rule, TakeOutLead, say_volts


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead that feeds an output."""
    for feed in case.backfeeds:
        spare = case.find_spare_feed(feed.way, feed.ref.item)
        cause = spare or (feed.way.leads[-1] if feed.way.leads else feed.source.item)
        grade = Grade.THIN if feed.guessed else Grade.BURN
        port = case.port(feed.ref)
        says = (
            f"{feed.ref.place} gives power, and {feed.source.item} can push {say_volts(feed.volts)} back into it"
            f" through {cause}."
        )
        if feed.guessed:
            says += f" The part file of {feed.ref.item} does not state whether its regulator blocks that."
        fixes = [Fix(f"Feed what hangs on {feed.ref.place} from one side only, or put a diode into the feed.")]
        if cause in case.rig.leads:
            fixes.insert(0 if spare else 1, Fix(f"Take out {cause}.", (TakeOutLead(cause),)))
        yield Finding(
            code="backfeed:into-output",
            grade=grade,
            says=says,
            at=feed.ref.place,
            cause=cause,
            path=feed.way.places,
            measured=Measured(feed.volts, port.survives.high if port.survives else None, "V"),
            assumed=(f"{feed.ref.item} blocks",) if feed.guessed else (),
            fixes=tuple(fixes),
        )


RULE = Rule(
    code="backfeed:into-output",
    grades=(Grade.BURN, Grade.THIN),
    title="A feed runs into an output",
    looks_for=(
        "A port that gives power and that a source of another device reaches from outside, where current can go on"
        " inside: into a cell, a load, or a regulator that does not block."
    ),
    why=(
        "A motor fed from a tap hands battery volts down its control lead into the head or handgrip that should feed"
        " it. Outputs are seldom built for that."
    ),
    put_right="Feed it from one side: take out the feed that is not needed, or use a lead without the plus conductor.",
    source="common practice",
    check=check,
)
