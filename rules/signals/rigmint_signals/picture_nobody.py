"""`picture:nobody`: a screen that no picture reaches."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Grade, Rule
from rigmint_signals.in_the_way import find_obstacle

_PICTURE = "picture"


def check(case: Case) -> Iterator[Finding]:
    """One finding for each thing that keeps the picture from screens; nothing where nothing that is on makes one."""
    if all(item in case.setup.off for item, _ in case.flow_makers(_PICTURE)):
        return
    reached = {arrival.place for arrival in case.flows(_PICTURE)}
    for item in case.items:
        if item.name in case.setup.off:
            continue
        for screen in case.flow_ends(item.name, _PICTURE):
            if f"{item.name}.{screen}" not in reached:
                yield _report(case, item.name, screen)


def _report(case: Case, item: str, screen: str) -> Finding:
    obstacle = find_obstacle(case, _PICTURE, item, [screen])
    return Finding(
        code="picture:nobody",
        grade=Grade.DEAD,
        says=f"No picture reaches {item}.{screen}: {obstacle.says}.",
        at=f"{item}.{screen}",
        cause=obstacle.cause,
        path=obstacle.path,
        fixes=obstacle.fixes,
    )


RULE = Rule(
    code="picture:nobody",
    grades=(Grade.DEAD,),
    title="A screen without a picture",
    looks_for=(
        "A screen or a recording of an item that is there and on, where the item's passes of picture end, and that no"
        " picture reaches; with the first thing in the way."
    ),
    why="The input is set to the other socket, the loop is taken from the wrong side, a lead stayed in the case.",
    put_right="Plug the lead, pair the link or set the input that is named; or leave the screen out of the setup.",
    source="common practice",
    check=check,
)
