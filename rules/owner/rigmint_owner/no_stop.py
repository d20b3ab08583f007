"""`owner:no-stop`: a driven head that can hit people, and nobody can stop it."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import HEAD_AXES, Case, Claim, Finding, Fix, Grade, Item, Rule, SignalKind, Stopped, Unknown

_CAN_HIT = ("crane", "overhead", "cable", "vehicle")
_AWAY = "away"


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each head without a stop in reach."""
    on = case.setup.on
    for head in case.items:
        driver = _find_driver(case, head)
        if driver is None or (on is not None and on not in _CAN_HIT):
            continue
        stops = _list_stops(case, head)
        if any(claim.is_certain for claim in stops):
            continue
        if on is None:
            says = f"what the rig is on decides whether {head.name} needs a stop in reach of the crew"
            yield Unknown("owner:no-stop", "on", head.name, says)
        elif stops:
            item, name = next(iter(stops[0].assumes))
            says = f"whether {stops[0].control} stops {head.name} hangs on {item}.{name}, which nobody wrote down"
            yield Unknown("owner:no-stop", name, f"{item}.set.{name}", says)
        else:
            yield _report(case, head, driver, on)


def _find_driver(case: Case, head: Item) -> Claim | None:
    """A hand from another item on one of the head's axes."""
    if head.part.kind != "head" or head.name in case.setup.off:
        return None
    claims = [
        claim
        for name in HEAD_AXES
        if (axis := case.hands.axes.get(f"{head.name}.{name}")) is not None
        for claim in axis.claims
    ]
    return next((one for one in claims if one.arrives is not SignalKind.FOLLOW and one.item != head.name), None)


def _list_stops(case: Case, head: Item) -> list[Claim]:
    """The stops of the crew: a button on the head, or on what rides with it in nobody's hands, is out of reach."""
    axis = case.hands.axes.get(f"{head.name}.stop")
    claims = axis.claims if axis is not None else ()
    return [one for one in claims if one.item != head.name and _is_in_hand(case, one)]


def _is_in_hand(case: Case, claim: Claim) -> bool:
    return claim.person is not None or case.rig.items[claim.item].rides == _AWAY


def _report(case: Case, head: Item, driver: Claim, on: str) -> Finding:
    miss = next((one for one in case.nearest_misses(f"{head.name}.stop") if _is_theirs(case, head, one)), None)
    nearest = f": {miss.control} would, but {miss.says}" if miss is not None else ""
    where = "overhead" if on == "overhead" else f"on a {on}"
    fix = f"Clear what is in the way: {miss.says}." if miss is not None else "Give the crew a desk with a stop."
    return Finding(
        code="owner:no-stop",
        grade=Grade.HURT,
        says=f"{head.name} is driven by {driver.control} {where}, and no stop in the crew's hands reaches it{nearest}.",
        at=head.name,
        cause=_find_cause(case, head, driver, miss),
        path=driver.path,
        fixes=(Fix(fix),),
    )


def _is_theirs(case: Case, head: Item, miss: Stopped) -> bool:
    item = miss.control.partition(".")[0]
    return item != head.name and (case.setup.holder(item) is not None or case.rig.items[item].rides == _AWAY)


def _find_cause(case: Case, head: Item, driver: Claim, miss: Stopped | None) -> str:
    """The lead, link or setting that is in the way; else the device that drives without a stop, or the head, where it
    takes none."""
    if miss is not None and (miss.by in case.rig.leads or ".set." in miss.by or miss.by.startswith("link:")):
        return miss.by
    takes_stop = any("stop" in mover.axis.words for mover in head.part.moves.values())
    return driver.item if takes_stop else head.name


RULE = Rule(
    code="owner:no-stop",
    grades=(Grade.HURT,),
    title="Nobody can stop the head",
    looks_for=(
        "A head that somebody drives from another device, on a crane, overhead, on a cable or on a vehicle, and no"
        " control with the axis `stop` in the crew's hands that reaches it. A button on the head is out of reach."
    ),
    why="A head that runs away has torque enough to hurt whoever stands near, and the wheels do not stop it.",
    put_right="Give the operator or the grip a stop that reaches the head, and try it before anybody goes near.",
    source="common practice",
    check=check,
    caution=(
        "A stop by radio or bus is no emergency stop. Have a way to take the power off, and keep people clear of the"
        " head's swing; local codes and qualified people decide."
    ),
)
