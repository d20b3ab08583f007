"""`current:over`: more amps than a lead, contact, port or source takes."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Limiter, Measured, MoveEnd, Point, Rule, Trial, say_amps
from rigmint_current.limits import Limit, list_limits

_NEAR = 0.8


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead or source, at its tightest limit."""
    worst: dict[str, tuple[int, float, Limit, Point]] = {}
    for limit in list_limits(case):
        judged = _judge(limit)
        if judged is None:
            continue
        rank, share, point = judged
        known = worst.get(limit.cause)
        if known is None or (rank, -share) < (known[0], -known[1]):
            worst[limit.cause] = (rank, share, limit, point)
    is_source_over = any(_has_cell(case, cause) for cause in worst)
    for cause, (rank, _, limit, point) in worst.items():
        if cause in case.rig.leads or _has_cell(case, cause) or not is_source_over:  # a plate's battery speaks for it
            yield _report(case, limit, point, Grade.DEAD if rank == 0 else Grade.THIN)


def _has_cell(case: Case, cause: str) -> bool:
    return cause in case.rig.items and bool(case.rig.items[cause].part.cells)


def _judge(limit: Limit) -> tuple[int, float, Point] | None:
    """Rank (0 is dead), share of the limit, and the point that decides. Of two limits that are equal but for rounding
    the first one speaks."""
    typical, change = (round(limit.find_share(point), 9) for point in (Point.TYPICAL, Point.CHANGE))
    if typical > 1:
        return 0, typical, Point.TYPICAL
    if change > 1:
        return 1, change, Point.CHANGE
    return (1, typical, Point.TYPICAL) if typical > _NEAR else None


def _report(case: Case, limit: Limit, point: Point, grade: Grade) -> Finding:
    amps = limit.amps[point]
    when = "at typical load" if point is Point.TYPICAL else case.say_change()
    tilde = "~" if limit.assumed else ""
    return Finding(
        code="current:over",
        grade=grade,
        says=f"{limit.cause} carries {say_amps(amps)} {when}; {limit.what} takes {tilde}{say_amps(limit.limit)}.",
        at=limit.at,
        cause=limit.cause,
        measured=Measured(amps, limit.limit, "A", low_is_bad=False),
        assumed=limit.assumed,
        fixes=_list_fixes(case, limit),
    )


def _list_fixes(case: Case, limit: Limit) -> tuple[Fix, ...]:
    if limit.cause in case.rig.leads:
        words = Fix(f"Feed the heaviest load behind {limit.cause} from a tap of its own, or use a thicker lead.")
        return (*_find_tap(case, limit.cause), words)
    if _has_cell(case, limit.cause):
        return (Fix(f"Use a source that gives more, or feed part of the rig from a second one beside {limit.cause}."),)
    return (Fix(f"Take a load off {limit.cause}: feed the heaviest one elsewhere."),)


def _find_tap(case: Case, label: str) -> tuple[Fix, ...]:
    """The heaviest load behind a lead on a free tap, where that was computed to keep the lead below its limits."""

    def cures(trial: Trial) -> bool:
        limits = [one for one in trial.list_limits() if one.owner == label and one.limiter is not Limiter.FUSE]
        return not trial.collapses and all(
            one.find_share(Point.TYPICAL) <= _NEAR and one.find_share(Point.CHANGE) <= 1 for one in limits
        )

    way = case.find_way_through(label)
    tap = case.find_tap_remedy(way, Point.TYPICAL, cures) if way is not None else None
    if tap is None:
        return ()
    says = f"Plug {tap.label} into {tap.to.place}, a tap of its own: {label} then stays within its limits."
    return (Fix(says, (MoveEnd(tap.label, tap.end, tap.to.place),)),)


RULE = Rule(
    code="current:over",
    grades=(Grade.DEAD, Grade.THIN),
    title="More current than something takes",
    looks_for=(
        "A conductor, a contact, a port or a source whose current passes its limit at typical load (dead), is above"
        " 80 % of it, or passes it only at the battery change with peaks (thin). Conductors in free air by gauge."
    ),
    why="Protection trips, contacts and thin conductors heat up, connectors wear out and drop.",
    put_right="Put the heaviest load on its own free tap; use a thicker lead; share the load between two sources.",
    source="conductor ratings in free air: common practice; else the maker's limits",
    check=check,
)
