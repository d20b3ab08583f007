"""`tidy:idle-control`: a control that was packed for an axis and reaches nothing, while nobody has the axis."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import LENS_AXES, AxisHands, Case, Finding, Fix, Grade, Rule, Stopped


def check(case: Case) -> Iterator[Finding]:
    """One finding for each axis that moves, that nobody has, and that the rig says nothing about."""
    reaching = {claim.control for axis in case.hands.axes.values() for claim in axis.claims}
    for axis in case.hands.axes.values():
        if axis.claims or axis.meant or not _is_driven(case, axis):
            continue
        idle = [miss for miss in case.nearest_misses(axis.place) if _is_idle(case, miss, reaching)]
        if idle:
            yield _report(case, axis, idle[0])


def _is_driven(case: Case, axis: AxisHands) -> bool:
    """Whether something is there that would move it: a motor on the ring, a motor or a trigger of the item's own."""
    item, _, name = axis.place.partition(".")
    if name in LENS_AXES:
        motors = [fitting for fitting in case.rig.fitted.values() if (fitting.lens, fitting.ring) == (item, name)]
        return any(fitting.motor in case.setup.items - case.setup.off for fitting in motors)
    own = case.rig.items.get(item)
    return own is not None and any(name in mover.axis.words for mover in own.part.moves.values())


def _is_idle(case: Case, miss: Stopped, reaching: set[str]) -> bool:
    """Whether it is set to the axis, is on, and reaches no other: what a setting keeps away is kept away."""
    item, _, name = miss.control.partition(".")
    control = case.rig.items[item].part.controls[name]
    return miss.control not in reaching and not control.automatic and not _is_kept_away(case, miss)


def _is_kept_away(case: Case, miss: Stopped) -> bool:
    return ".set." in miss.by or miss.by.partition(".")[0] in case.setup.off


def _report(case: Case, axis: AxisHands, miss: Stopped) -> Finding:
    return Finding(
        code="tidy:idle-control",
        grade=Grade.TIDY,
        says=f"Nobody has {axis.place}: {miss.control} would reach it, but {miss.says}.",
        at=axis.place,
        cause=_find_cause(case, miss.by),
        path=(miss.control, miss.by),
        fixes=(Fix(f"Join {miss.control} to it, or write under `who` that nobody has {axis.name}."),),
    )


def _find_cause(case: Case, place: str) -> str:
    """A lead or a link; a port counts as its item."""
    if place in case.rig.leads or place.startswith("link:"):
        return place
    return place.partition(".")[0].partition(":")[0]


RULE = Rule(
    code="tidy:idle-control",
    grades=(Grade.TIDY,),
    title="A control that reaches nothing",
    looks_for=(
        "An axis that something drives, that nobody has and of which `who` says nothing, with a control on the rig that"
        " is set to it, is not switched away and reaches no axis at all."
    ),
    why="It was packed for that axis. On set somebody picks it up and turns it, and nothing moves.",
    put_right="Join it, or leave it at home and write down that nobody has the axis.",
    source="common practice",
    check=check,
)
