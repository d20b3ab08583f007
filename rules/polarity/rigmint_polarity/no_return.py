"""`polarity:no-return`: a feed without a minus of its own."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Feed, Finding, Fix, Grade, RailFeed, Rule


def check(case: Case) -> Iterator[Finding]:
    """One finding for each device whose plus arrives and whose return does not."""
    for rail in case.powering.rails:
        if rail.feed is Feed.NO_RETURN:
            yield _report(case, rail, Grade.DEAD, "its minus leads nowhere, so it does not switch on")
        elif rail.feed is Feed.BY_SHIELD:
            yield _report(case, rail, Grade.BURN, _say_shield(case.find_only_returns(rail)))


def _say_shield(labels: tuple[str, ...]) -> str:
    if len(labels) == 1:
        return f"no minus: its whole current returns through the shield of {labels[0]}"
    return "no minus: its whole current returns through the shields of its signal leads"


def _report(case: Case, rail: RailFeed, grade: Grade, outcome: str) -> Finding:
    end = case.dead_end(rail)
    item = rail.load.item
    return Finding(
        code="polarity:no-return",
        grade=grade,
        says=f"{item} gets plus through {end.cause}, but {outcome}.",
        at=end.at,
        cause=end.cause,
        fixes=(Fix(f"Swap the lead at {end.at} for one whose minus rings through, and meter it first."),),
    )


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
