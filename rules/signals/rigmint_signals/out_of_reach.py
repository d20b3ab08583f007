"""`radio:out-of-reach`: a link is asked to reach further than its makers say it does."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Grade, Measured, Rule, exceeds, say_metres
from rigmint_signals.hops import LinkHop, find_best, fix_distance, list_assumed, list_hops, say_reach


def check(case: Case) -> Iterator[Finding]:
    """One finding for each link that does not reach, whatever the region is."""
    for hop in list_hops(case):
        if hop.distance is not None and hop.known and all(exceeds(hop.distance, reach.stated) for reach in hop.known):
            yield _report(case, hop, hop.distance)


def _report(case: Case, hop: LinkHop, distance: float) -> Finding:
    reach = find_best(hop.known)
    region = f" in region {case.setup.region}" if case.setup.region is not None and not reach.assumed else ""
    states = "a free-space budget with 20 dB in reserve gives" if reach.assumed else "its reach is"
    hub = hop.link.radios[0]
    return Finding(
        code="radio:out-of-reach",
        grade=Grade.DEAD,
        says=(
            f"{hop.other.place} is {say_metres(distance)} away from {hub.place} on {hop.link.place};"
            f" {states} {say_reach(reach.stated, reach)}{region}."
        ),
        at=hop.other.place,
        cause=hop.link.place,
        path=(hub.place, hop.link.place, hop.other.place),
        measured=Measured(distance, reach.stated, "m"),
        assumed=list_assumed(hop, reach),
        fixes=(fix_distance(hop, reach),),
    )


RULE = Rule(
    code="radio:out-of-reach",
    grades=(Grade.DEAD,),
    title="Further away than the radio reaches",
    looks_for=(
        "A link whose distance (its own, else what the job needs) is beyond what the makers of its radios state for the"
        " region; where none is stated, beyond the free-space budget with 20 dB in reserve."
    ),
    why="A stated reach is measured with nothing in the way. Beyond it the link drops in the take.",
    put_right="Work closer, bring the receiving side nearer by a lead, or use radios that reach further.",
    source="the makers' stated reach; free-space loss by Recommendation ITU-R P.525 where none is stated",
    check=check,
)
