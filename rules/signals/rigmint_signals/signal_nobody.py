"""`signal:nobody`: a flow that the job needs does not arrive."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Grade, Rule
from rigmint_signals.in_the_way import find_obstacle


def check(case: Case) -> Iterator[Finding]:
    """One finding for each thing in the way of a flow that `needs` names."""
    for flow, items in case.setup.needs.flows.items():
        for item in items:
            if item in case.setup.items - case.setup.off and not _arrives(case, flow, item):
                yield _report(case, flow, item)


def _arrives(case: Case, flow: str, item: str) -> bool:
    """At an end of the item where it has one for the flow, else at any of its places; or the item makes it itself."""
    ends = case.flow_ends(item, flow)
    goals = {f"{item}.{end}" for end in ends}
    makes = any(flow in maker.flows for maker in case.rig.items[item].part.makes.values())
    return makes or any(
        arrival.place in goals if goals else arrival.place.partition(".")[0] == item for arrival in case.flows(flow)
    )


def _report(case: Case, flow: str, item: str) -> Finding:
    part = case.rig.items[item].part
    ends = case.flow_ends(item, flow)
    goals = ends or [name for name in (*part.ports, *part.radios) if case.signals.carries(item, name, flow)]
    obstacle = find_obstacle(case, flow, item, goals)
    return Finding(
        code="signal:nobody",
        grade=Grade.DEAD,
        says=f"{item} needs {flow}, and none arrives: {obstacle.says}.",
        at=f"{item}.{ends[0]}" if ends else item,
        cause=obstacle.cause,
        path=obstacle.path,
        fixes=obstacle.fixes,
    )


RULE = Rule(
    code="signal:nobody",
    grades=(Grade.DEAD,),
    title="A signal that the job needs does not arrive",
    looks_for=(
        "A flow (timecode, sync, tally, range, picture or another) that `needs:` names for an item and that does not"
        " arrive there; with the first thing in the way: the setting, lead, protocol or missing wire."
    ),
    why="A camera without timecode or sync runs all the same. It is found out in the cutting room.",
    put_right="Plug the lead, pair the link or set the setting that is named; or take the need out.",
    source="common practice",
    check=check,
)
