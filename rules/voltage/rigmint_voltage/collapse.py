"""`voltage:collapse`: the circuit has no operating point."""

from __future__ import annotations

import math
from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, MoveEnd, Point, PointPower, Rule

_WORDS = {
    Point.FULL: "even with full batteries",
    Point.TYPICAL: "at typical load",
    Point.CHANGE: "at the battery change, with peaks",
}
_ORDER = (Point.FULL, Point.TYPICAL, Point.CHANGE)


def check(case: Case) -> Iterator[Finding]:
    """One finding, at the first operating point that does not exist."""
    if case.worst_volts.shorts:
        return
    for point in _ORDER:
        power = case.power.points[point]
        if power.collapsed:
            yield _report(case, point, power)
            return


def _report(case: Case, point: Point, power: PointPower) -> Finding:
    weak = power.weak or next(iter(sorted(case.setup.items)))
    if power.margin > 0:
        says = (
            f"The feed of {weak} breaks down {_WORDS[point]}: it can give {_say_share(power.margin)} of the power that"
            " is drawn, and the volts fall until devices switch off."
        )
    else:
        says = f"The feed of {weak} breaks down {_WORDS[point]}: no voltage satisfies everything that hangs on it."
    cause = case.find_feeding_lead(weak) or weak
    return Finding(
        code="voltage:collapse",
        grade=Grade.DEAD,
        says=says,
        at=weak,
        cause=cause,
        measured=Measured(power.margin, 1.0, "of the load", low_is_bad=True),
        fixes=_list_fixes(case, cause),
    )


def _list_fixes(case: Case, cause: str) -> tuple[Fix, ...]:
    """A free tap, where that was computed to cure; else in words."""
    rest = Fix(f"Feed the heaviest load behind {cause} from a source or a tap of its own, or thicken {cause}.")
    way = case.find_way_through(cause) if cause in case.rig.leads else None
    tap = case.find_tap_remedy(way, Point.FULL, lambda trial: not trial.collapses) if way is not None else None
    if tap is None:
        return (rest,)
    says = f"Plug {tap.label} into {tap.to.place}, a tap of its own: the feed then holds."
    return (Fix(says, (MoveEnd(tap.label, tap.end, tap.to.place),)), rest)


def _say_share(margin: float) -> str:
    """Never the whole: what is just not enough is 99 %."""
    return f"{math.floor(100 * margin)} %" if margin >= 0.01 else "less than 1 %"


RULE = Rule(
    code="voltage:collapse",
    grades=(Grade.DEAD,),
    title="The feed breaks down",
    looks_for=(
        "An operating point (full, typical, change) at which no solution of the circuit exists: devices that draw"
        " constant power ask for more than the resistance of the way can carry."
    ),
    why="As the volts fall, each device draws more amps, until the feed gives way and everything on it goes off.",
    put_right="Shorter, thicker feeds; the heaviest load on its own; a source of higher volts.",
    source="maximum power transfer, V^2/4R: any circuits text",
    check=check,
)
