"""`backfeed:tied-sources`: two sources with nothing between them."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Rule, TakeOutLead, say_amps
from rigmint_voltage.causes import find_meeting, fix_spare


def check(case: Case) -> Iterator[Finding]:
    """One finding for each pair of sources, at the one that takes the current."""
    told: set[frozenset[str]] = set()
    for tied in sorted(case.tied_sources, key=lambda one: -one.amps):
        pair = frozenset((tied.giver.place, tied.taker.place))
        if pair in told:
            continue
        told.add(pair)
        cause = find_meeting(case, tied.way, tied.taker.item)
        charge = tied.taker.cell.charge
        takes = f"takes {say_amps(charge)} at most" if charge > 0 else "must not be charged"
        assumed = tuple(
            f"{source.place} {figure}"
            for source in (tied.giver, tied.taker)
            for figure in ("resistance", "charge")
            if figure in source.cell.assumed
        )
        yield Finding(
            code="backfeed:tied-sources",
            grade=Grade.BURN,
            says=(
                f"{tied.giver.item} and {tied.taker.item} meet at {cause} with nothing between: fresh against flat,"
                f" about {say_amps(tied.amps)} flows into {tied.taker.item}, which {takes}."
            ),
            at=tied.taker.place,
            cause=cause,
            also=(tied.giver.place,),
            path=tied.way.places,
            measured=Measured(tied.amps, charge, "A"),
            assumed=assumed,
            fixes=_list_fixes(case, tied.taker.item, cause),
        )


def _list_fixes(case: Case, taker: str, cause: str) -> tuple[Fix, ...]:
    diodes = Fix("Use a plate with diodes for changing over, or one source at a time.")
    if cause not in case.rig.leads:
        return (diodes,)
    take_out = Fix(f"Take out {cause}.", (TakeOutLead(cause),))
    is_pack = case.rig.items[taker].part.kind in ("battery", "supply")
    if not is_pack and case.is_spare(cause):
        return (fix_spare(case, cause),)
    return (diodes, take_out)


RULE = Rule(
    code="backfeed:tied-sources",
    grades=(Grade.BURN,),
    title="Two sources are tied together",
    looks_for=(
        "Two batteries or supplies whose plus and minus are joined with no diode between them, where the current from"
        " a fresh one into one at its change-over exceeds what that one may be charged with."
    ),
    why="The fresh pack charges the flat one without limit, and a supply is driven backwards. Lithium cells may burn.",
    put_right="One source at a time, or a plate that blocks between them.",
    source="common practice; two unequal sources in parallel, any circuits text",
    caution="Lithium batteries that were charged by accident are to be set aside and judged by qualified people.",
    check=check,
)
