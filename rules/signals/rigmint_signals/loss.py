"""`radio:loss`: what a head does when its link drops, where that can hit people."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Item, Link, Rule, SignalKind, Unknown

_PLACES = {"crane": "on a crane", "overhead": "overhead", "cable": "on a cable", "vehicle": "on a vehicle"}
_GOES_ON = "continue"


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each head that is driven by radio and may go on without it."""
    for item in case.items:
        if item.name in case.setup.off or item.part.on_loss not in (None, _GOES_ON):
            continue
        link = _find_link(case, item)
        if link is None:
            continue
        if case.setup.on is None:
            says = f"what {item.name} is mounted on decides whether it can hit people"
            yield Unknown("radio:loss", "on", item.name, says)
        elif case.setup.on in _PLACES:
            yield _report(item, link, _PLACES[case.setup.on])


def _find_link(case: Case, item: Item) -> Link | None:
    """The first link over which somebody drives one of the item's joints."""
    for joint in item.part.joints:
        axis = case.hands.axes.get(f"{item.name}.{joint}")
        for claim in axis.claims if axis is not None else ():
            if claim.arrives is SignalKind.FOLLOW:
                continue
            for step in claim.path:
                if step.startswith("link:"):
                    return case.rig.links[step.removeprefix("link:")]
    return None


def _report(item: Item, link: Link, place: str) -> Finding:
    goes_on = item.part.on_loss == _GOES_ON
    states = "goes on moving" if goes_on else "does what nobody states"
    if goes_on:
        fix = f"Drive {item.name} by a line, or use a head that holds when its link drops."
    else:
        fix = (
            f"Try it: drive {item.name}, switch the hand's radio off, and see that it holds; write `on_loss: hold` in"
            " its part, or drive it by a line."
        )
    return Finding(
        code="radio:loss",
        grade=Grade.HURT,
        says=f"{item.name} {states} when {link.place} drops, {place}, where it can hit people.",
        at=item.name,
        cause=item.name,
        fixes=(Fix(fix),),
    )


RULE = Rule(
    code="radio:loss",
    grades=(Grade.HURT,),
    title="A head that may go on when its link drops",
    looks_for=(
        "A head that is driven by radio on a crane, overhead, on a cable or a vehicle, and whose part says that it goes"
        " on moving when the link drops, or does not say."
    ),
    why="A head that keeps its last speed swings into whoever stands beside it, and nobody can stop it.",
    put_right="Use a head that holds when its link drops, try it at prep, or drive it by a line.",
    source="common practice",
    caution="Keep everybody clear of the swing until it is shown that the head holds when its link drops.",
    check=check,
)
