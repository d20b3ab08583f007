"""`record:kind`: a record trigger of one kind on an input of another."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Rule
from rigmint_signals.signal_pairs import SignalPair, find_move, list_records, list_wrong_triggers, say_level


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead that joins two kinds of trigger."""
    for pair in list_wrong_triggers(case):
        yield _report(case, pair)


def _report(case: Case, pair: SignalPair) -> Finding:
    gives, takes = pair.giver.level, pair.taker.level
    assert gives is not None
    assert takes is not None
    item = pair.taker.ref.item
    wanted = say_level(takes.takes, takes.kind)
    other = Fix(f"Start {item} from an output that gives {wanted}, or use a lead that turns one into the other.")
    return Finding(
        code="record:kind",
        grade=Grade.DEAD,
        says=(
            f"{pair.giver.ref.place} gives {say_level(gives.gives, gives.kind)}, and {pair.taker.ref.place} takes"
            f" {wanted}: {item} does not start and stop as it should."
        ),
        at=pair.taker.ref.place,
        cause=pair.cause,
        also=list_records(case, pair),
        path=pair.path,
        fixes=(find_move(case, pair) or other,),
    )


RULE = Rule(
    code="record:kind",
    grades=(Grade.DEAD,),
    title="The wrong kind of record trigger",
    looks_for=(
        "A record contact joined to one of another kind: a pulse into an input that records while it is held, or the"
        " reverse; a closure into an input that waits for volts, or the reverse; serial data against a contact."
    ),
    why=(
        "The plug fits and looks right. The camera does not start, or starts and stops again after half a second, and"
        " everybody presses twice."
    ),
    put_right="Use the output of the kind that the camera takes, or a lead that turns one into the other.",
    source="common practice",
    check=check,
)
