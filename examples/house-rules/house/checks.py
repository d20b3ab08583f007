"""Rules of the night desk, without packaging.

A file of house checks is Python with `RULES`, made of what `rigmint` offers; or it has the hook of a pack. It stands
alone: it imports what is installed, and nothing beside itself.
"""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Parameter, Rule, Unknown

WANTED = {"camera": "a camera goes out with its number", "head": "a head goes out with its number"}


def find_no_asset(case: Case) -> Iterator[Finding]:
    """Cameras and heads without a number."""
    for item in case.items:
        if item.part.kind in WANTED and item.asset is None:
            yield Finding(
                code="nightdesk:no-asset",
                grade=Grade.FIGHT,
                says=f"{item.name} has no asset number: {WANTED[item.part.kind]}.",
                at=item.name,
                cause=item.name,
                fixes=(Fix("Read it off the label and write it as `asset:`."),),
            )


def find_heavy_kit(case: Case) -> Iterator[Finding | Unknown]:
    """What one person carries to the van, in one case."""
    unweighed = [item.name for item in case.items if item.part.mass is None]
    if unweighed:
        yield Unknown("nightdesk:heavy-kit", "mass", unweighed[0], f"{', '.join(unweighed)} state no mass")
        return
    total = sum(item.part.mass or 0.0 for item in case.items)
    most = case.parameters["at_most"]
    if total > most:
        heaviest = max(case.items, key=lambda item: item.part.mass or 0.0).name
        yield Finding(
            code="nightdesk:heavy-kit",
            grade=Grade.TIDY,
            says=f"The kit weighs {total:.1f} kg; one person is sent with {most:.0f} kg at most.",
            at=heaviest,
            cause=heaviest,
            measured=Measured(total, most, "kg"),
            fixes=(Fix("Split it over two cases."),),
        )


RULES = (
    Rule(
        code="nightdesk:no-asset",
        grades=(Grade.FIGHT,),
        title="A camera or a head without an asset number",
        looks_for="Cameras and heads without `asset:`.",
        why="At night nobody can look up which unit went out.",
        put_right="Write the number on the label under `asset:`.",
        source="house rule",
        check=find_no_asset,
    ),
    Rule(
        code="nightdesk:heavy-kit",
        grades=(Grade.TIDY,),
        title="A kit too heavy for one person",
        looks_for="Rigs whose items together weigh more than one person is sent with.",
        why="The night desk sends one driver.",
        put_right="Split the kit over two cases.",
        source="house rule",
        check=find_heavy_kit,
        parameters={"at_most": Parameter(20.0, "mass", "kg that one person is sent with")},
    ),
)
