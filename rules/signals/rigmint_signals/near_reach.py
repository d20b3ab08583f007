"""`radio:near-reach`: a link works beyond what its surroundings leave of its reach."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Grade, Measured, Rule, Unknown, exceeds, say_list, say_metres
from rigmint_signals.hops import LinkHop, find_best, fix_distance, list_assumed, list_hops, say_reach


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each link beyond its derated reach; what hangs on an unknown place is said once, together."""
    undecided = []
    for hop in list_hops(case):
        if hop.distance is None:
            continue
        if not hop.known:
            says = f"nothing states how far {hop.link.place} reaches"
            yield Unknown("radio:near-reach", "reach", hop.link.place, says)
            continue
        beyond = [reach for reach in hop.known if exceeds(hop.distance, reach.derated)]
        if len(beyond) == len(hop.known):
            yield _report(case, hop, hop.distance)
        elif beyond:
            undecided.append(hop)
    if undecided:
        yield _report_unknown(case, undecided)


def _report(case: Case, hop: LinkHop, distance: float) -> Finding:
    reach = find_best(hop.known)
    where = f" ({case.setup.where})" if case.setup.where is not None else ""
    hub = hop.link.radios[0]
    return Finding(
        code="radio:near-reach",
        grade=Grade.THIN,
        says=(
            f"{hop.other.place} is {say_metres(distance)} away from {hub.place} on {hop.link.place}; of its reach of"
            f" {say_reach(reach.stated, reach)} the surroundings{where} leave about {say_reach(reach.derated, reach)}."
        ),
        at=hop.other.place,
        cause=hop.link.place,
        path=(hub.place, hop.link.place, hop.other.place),
        measured=Measured(distance, reach.derated, "m"),
        assumed=list_assumed(hop, reach),
        fixes=(fix_distance(hop, reach),),
    )


def _report_unknown(case: Case, hops: list[LinkHop]) -> Unknown:
    missing = [key for key in ("region", "where") if getattr(case.setup, key) is None]
    places = list(dict.fromkeys(hop.link.place for hop in hops))
    says = f"whether the reach of {say_list(places)} is enough hangs on {' and '.join(missing)}"
    return Unknown("radio:near-reach", " and ".join(missing), places[0], says)


RULE = Rule(
    code="radio:near-reach",
    grades=(Grade.THIN,),
    title="Near the end of the radio's reach",
    looks_for=(
        "A link whose distance is beyond what its surroundings leave of its stated reach: open ground 50 %, a street"
        " 30 %, a vehicle or steel 25 %. A library sets these shares under `radio:`."
    ),
    why="Bodies, vehicles and wet trees take most of what a maker measured on a clear day.",
    put_right="Work closer, raise the antennas, or use radios that reach further.",
    source="common practice",
    check=check,
)
