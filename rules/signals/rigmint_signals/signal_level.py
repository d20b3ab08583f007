"""`signal:level`: a signal of more volts than the input survives."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Rule, TakeOutLead, say_volts
from rigmint_signals.signal_pairs import SignalPair, find_move, is_trigger, list_pairs, list_records


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead that brings too many volts to a signal contact."""
    for pair in list_pairs(case):
        gives = pair.gives
        if not isinstance(gives, str) and gives > pair.taker.survives:
            yield _report(case, pair, gives)


def _report(case: Case, pair: SignalPair, volts: float) -> Finding:
    taker = pair.taker
    limit = say_volts(taker.survives, assumed=taker.is_assumed)
    fixes = [move] if (move := find_move(case, pair)) is not None else []
    if pair.lead is not None:
        fixes.append(Fix(f"Take out {pair.lead}.", (TakeOutLead(pair.lead),)))
    return Finding(
        code="signal:level",
        grade=Grade.BURN,
        says=(
            f"{pair.giver.ref.place} gives {say_volts(volts)} on `{pair.giver.signal}`; `{taker.signal}` of"
            f" {taker.ref.place} survives {limit}."
        ),
        at=taker.ref.place,
        cause=pair.cause,
        also=list_records(case, pair) if is_trigger(case, pair) else (),
        path=pair.path,
        measured=Measured(volts, taker.survives, "V"),
        assumed=(f"{taker.ref.place} survives of {taker.signal}",) if taker.is_assumed else (),
        fixes=(*fixes, *(() if fixes else (Fix(f"Put a level converter between {' and '.join(pair.path)}."),))),
    )


RULE = Rule(
    code="signal:level",
    grades=(Grade.BURN,),
    title="A signal of too many volts",
    looks_for=(
        "A signal contact (record, serial, timecode, sync) that a lead or a dock joins to one that gives more volts"
        " than it survives: 3.6 V where its part does not say."
    ),
    why="Trigger and data inputs sit behind a few milliamps of protection. A 12 V pulse into a 3.3 V input ends it.",
    put_right="Use the output that is made for the input, or a level converter between the two.",
    source="the makers' limits; 3.6 V for an input that states none: common practice for 3.3 V logic",
    check=check,
)
