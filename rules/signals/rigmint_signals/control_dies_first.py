"""`radio:control-dies-first`: the picture goes on where control has stopped."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint import Case, Claim, Finding, FlowArrival, Grade, Measured, Rule, SignalKind, say_metres
from rigmint_signals.hops import LinkHop, find_best, fix_distance, list_assumed, list_hops, say_reach

_LINK = "link:"
_RECORD = ".record"


@dataclass(frozen=True, slots=True)
class _Screen:
    """A screen that gets its picture by radio: whose it is, and how far off it works at least, in m."""

    place: str
    person: str | None
    reach: float


def check(case: Case) -> Iterator[Finding]:
    """One finding for each link of control that the picture of the same person outlives."""
    hops = {(hop.link.place, hop.other.place): hop for hop in list_hops(case) if hop.known}
    screens = list(_list_screens(case, hops))
    for key, claims in _gather_claims(case, hops).items():
        hop = hops[key]
        control = find_best(hop.known)
        if hop.distance is not None and hop.distance <= control.derated:
            continue
        for person, claim in claims.items():
            outliving = [screen for screen in _screens_of(screens, person) if screen.reach > control.derated]
            if outliving:
                screen = max(outliving, key=lambda one: (one.reach, one.place))
                yield _report(hop, claim, screen)


def _screens_of(screens: list[_Screen], person: str | None) -> list[_Screen]:
    """The screens that somebody has; those that nobody has where they have none of their own."""
    own = [screen for screen in screens if screen.person == person]
    return own or [screen for screen in screens if screen.person is None]


def _list_screens(case: Case, hops: dict[tuple[str, str], LinkHop]) -> Iterator[_Screen]:
    for arrival in case.flows("picture"):
        item, _, name = arrival.place.partition(".")
        crossed = _crossed_hops(arrival, hops)
        if crossed and name in case.flow_ends(item, "picture"):
            reach = min(reach.derated for hop in crossed for reach in hop.known)
            yield _Screen(arrival.place, case.setup.holder(item), reach)


def _crossed_hops(arrival: FlowArrival | Claim, hops: dict[tuple[str, str], LinkHop]) -> list[LinkHop]:
    path = arrival.path
    found = []
    for index, step in enumerate(path):
        if step.startswith(_LINK):
            ends = (path[index - 1], path[index + 1])
            found += [hops[step, end] for end in ends if (step, end) in hops]
    return found


def _gather_claims(case: Case, hops: dict[tuple[str, str], LinkHop]) -> dict[tuple[str, str], dict[str | None, Claim]]:
    """(link, radio) to the persons who control something over that hop, each with one claim."""
    found: dict[tuple[str, str], dict[str | None, Claim]] = {}
    for _, axis in sorted(case.hands.axes.items(), key=lambda pair: pair[0].endswith(_RECORD)):  # what hurts most first
        for claim in axis.claims:
            is_meant = not axis.meant or claim.person in axis.meant
            if claim.automatic or claim.arrives is SignalKind.FOLLOW or not is_meant:
                continue
            for hop in _crossed_hops(claim, hops):
                found.setdefault((hop.link.place, hop.other.place), {}).setdefault(claim.person, claim)
    return found


def _report(hop: LinkHop, claim: Claim, screen: _Screen) -> Finding:
    control = find_best(hop.known)
    if hop.distance is None:
        job = "nobody states how far away they work"
    else:
        job = f"the job is {say_metres(hop.distance)} away"
    return Finding(
        code="radio:control-dies-first",
        grade=Grade.THIN,
        says=(
            f"{claim.item} loses {hop.link.place} at about {say_reach(control.derated, control)}, while the picture on"
            f" {screen.place} goes on to {say_metres(screen.reach)} or further, and {job}."
        ),
        at=hop.other.place,
        cause=hop.link.place,
        path=claim.path,
        measured=Measured(control.derated, screen.reach, "m"),
        assumed=list_assumed(hop, control),
        fixes=(fix_distance(hop, control),),
    )


RULE = Rule(
    code="radio:control-dies-first",
    grades=(Grade.THIN,),
    title="The picture goes on when control has stopped",
    looks_for=(
        "A link over which somebody controls a lens, a head or record, that reaches less far than the picture on the"
        " screen of the same person, where the distance of the job is unknown or beyond what the place leaves of the"
        " control's reach."
    ),
    why=(
        "People judge the distance by the picture. It still looks fine at 500 m when focus has stopped at 150 m, and"
        " the take shows it."
    ),
    put_right="State the distance, keep within the shorter of the two reaches, or use control that reaches further.",
    source="common practice",
    check=check,
)
