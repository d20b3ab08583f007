"""`polarity:no-return`: a feed without a minus of its own."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from rigmint import Case, DeadEnd, Feed, Finding, Fix, Grade, RailFeed, Rule, say_list

_LACKING = (Feed.BY_SHIELD, Feed.NO_RETURN)
"""Worst first."""
_NOWHERE = "its minus leads nowhere, so it does not switch on"


def check(case: Case) -> Iterator[Finding]:
    """One finding for each place at which plus arrives and the return does not."""
    ends: dict[DeadEnd, list[RailFeed]] = defaultdict(list)
    for rail in case.powering.rails:
        if rail.feed in _LACKING:
            ends[case.return_end(rail)].append(rail)
    for end, rails in ends.items():
        yield _report(case, end, sorted(rails, key=lambda one: _rank(end, one)))


def _rank(end: DeadEnd, rail: RailFeed) -> tuple[int, bool]:
    """The worst first, and of these the device at whose own port it stops."""
    return _LACKING.index(rail.feed), rail.load.item != end.at.partition(".")[0]


def _report(case: Case, end: DeadEnd, rails: Sequence[RailFeed]) -> Finding:
    first = rails[0]
    item = first.load.item
    others = sorted({rail.load.item for rail in rails} - {item})
    burns = first.feed is Feed.BY_SHIELD
    outcome = _say_shield(case.find_only_returns(first)) if burns else _NOWHERE
    says = f"{item} gets plus through {end.cause}, but {outcome}."
    if others:
        says += f" {say_list(others)} {'lacks' if len(others) == 1 else 'lack'} it too."
    return Finding(
        code="polarity:no-return",
        grade=Grade.BURN if burns else Grade.DEAD,
        says=says,
        at=end.at,
        cause=end.cause,
        also=tuple(name for name in (item, *others) if name != end.at.partition(".")[0]),
        fixes=(Fix(f"Swap the lead at {end.at} for one whose minus rings through, and meter it first."),),
    )


def _say_shield(labels: tuple[str, ...]) -> str:
    if len(labels) == 1:
        return f"no minus: its whole current returns through the shield of {labels[0]}"
    return "no minus: its whole current returns through the shields of its signal leads"


RULE = Rule(
    code="polarity:no-return",
    grades=(Grade.BURN, Grade.DEAD),
    title="A feed has no return of its own",
    looks_for=(
        "A device whose plus is joined to a source while its minus is not, or only through the shield of a lead that"
        " carries picture or another signal."
    ),
    why=(
        "Without a return nothing works. When a picture lead is plugged, its thin shield becomes the return for the"
        " whole device, and the picture input at either end pays for it."
    ),
    put_right="Give the feed its own minus conductor before any signal lead is plugged.",
    source="common practice",
    check=check,
)
