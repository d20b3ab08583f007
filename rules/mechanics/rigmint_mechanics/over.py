"""`payload:over`: a head or a carrier carries more than it may."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Burden, Case, Finding, Fix, Grade, Measured, Parameter, Rule, Unknown, exceeds, say_kilograms
from rigmint_mechanics.loads import CAN_HIT, can_ride_elsewhere, list_deciding, say_load, tell_unweighed

_CODE = "payload:over"


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each head and each carrier that is overloaded, or nearly."""
    for load in case.payloads.loads:
        if load.high is None:
            continue
        grade = _judge(case, load, load.high)
        if grade is not None:
            yield _report(case, load, load.high, grade)
        elif load.unweighed:
            yield tell_unweighed(_CODE, load, load.high)
        if case.setup.on is None and exceeds(load.mass, load.high):
            says = f"whether {load.carrier} can come down on somebody hangs on what the rig is on"
            yield Unknown(_CODE, "on", load.carrier, says)
    if not case.payloads.riding.is_order_known:
        for head in case.payloads.riding.on_head:
            yield Unknown(_CODE, "docks", head, f"no dock says which of the carriers carries {head}")
    for name in case.payloads.unstated:
        yield Unknown(_CODE, "payload", name, f"{name} does not state what it carries")


def _judge(case: Case, load: Burden, high: float) -> Grade | None:
    if case.setup.on in CAN_HIT and exceeds(load.mass, high):
        return Grade.HURT
    if exceeds(load.mass, case.parameters["dead_above"] * high):
        return Grade.DEAD
    return Grade.THIN if exceeds(load.mass, case.parameters["thin_above"] * high) else None


def _report(case: Case, load: Burden, high: float, grade: Grade) -> Finding:
    is_over = exceeds(load.mass, high)
    share = (
        f"{100 * load.mass / high:.0f} % of the {say_kilograms(high)} that it takes" if high > 0 else "it takes none"
    )
    return Finding(
        code=_CODE,
        grade=grade,
        says=f"{say_load(load)}: {share}{'' if is_over else ', with nothing left for a shake or a filter'}.",
        at=load.carrier,
        cause=load.carrier,
        measured=Measured(load.mass, high, "kg"),
        assumed=list_deciding(case, load, max(load.mass - case.parameters["thin_above"] * high, 0.0)),
        fixes=_list_fixes(case, load, high),
    )


def _list_fixes(case: Case, load: Burden, high: float) -> tuple[Fix, ...]:
    """The lightest thing that need not sit on the head and whose leaving is enough; else the heaviest of these."""
    excess = load.mass - case.parameters["thin_above"] * high
    movable = [one for one in load.carried if one.mass is not None and can_ride_elsewhere(case, one)]
    enough = [one for one in movable if one.mass is not None and one.mass >= excess]
    chosen = enough[-1] if enough else movable[0] if movable else None
    other = Fix(
        f"Use a {'head' if load.is_head else 'carrier'} that takes {say_kilograms(load.mass)} with something to spare."
    )
    if chosen is None:
        return (other,)
    where = "below the head" if load.is_head else "off the rig"
    rest = "" if enough else f"; that leaves {say_kilograms(excess - (chosen.mass or 0.0))} to find"
    return (Fix(f"Move {chosen.name} ({say_kilograms(chosen.mass or 0.0)}) {where}{rest}."), other)


RULE = Rule(
    code=_CODE,
    grades=(Grade.HURT, Grade.DEAD, Grade.THIN),
    title="More weight than it takes",
    looks_for=(
        "A head that carries more on its moving stages than its payload, or a carrier that carries more with the head"
        " and all that rides on it; also what comes near. Things without a mass are named, and the sum is then a lower"
        " bound."
    ),
    why=(
        "An overloaded head drifts, overheats its motors and lets go in a move; an overloaded arm or mount breaks over"
        " somebody's head."
    ),
    put_right="Take weight off, best what need not sit on the head, or use a head or a carrier for that weight.",
    source="the maker's payload, by the part file; the shares: common practice",
    parameters={
        "thin_above": Parameter(0.95, "ratio", "share of the payload above which it is tight"),
        "dead_above": Parameter(1.10, "ratio", "share of the payload above which a head in the hand does not work"),
    },
    check=check,
    caution=(
        "Weigh the rig as it flies. The maker's rating for the way it is mounted holds, and on cranes, overhead, on"
        " cables and on vehicles a qualified person decides."
    ),
)
