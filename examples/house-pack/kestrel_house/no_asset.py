"""`kestrel:no-asset`: what the house counts leaves with its number."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Rule, say_list

COUNTED = frozenset({"camera", "desk", "hand_unit", "head", "lens", "monitor", "motor_driver", "receiver", "sender"})
"""Kinds of part that the house keeps one by one."""


def check(case: Case) -> Iterator[Finding]:
    """One finding a rig: a list is read, twenty findings are not."""
    missing = [item.name for item in case.items if item.part.kind in COUNTED and item.asset is None]
    if not missing:
        return
    first, *others = missing
    yield Finding(
        code="kestrel:no-asset",
        grade=Grade.TIDY,
        says=f"No asset number for {say_list(missing)}.",
        at=first,
        cause=first,
        also=tuple(others),
        fixes=(Fix("Read it off the label and write it as `asset:`."),),
    )


RULE = Rule(
    code="kestrel:no-asset",
    grades=(Grade.TIDY,),
    title="Devices without an asset number",
    looks_for="Cameras, lenses, heads and other devices that the house counts, without `asset:`.",
    why="What leaves without its number cannot be checked in again, and the wrong unit goes to the workshop.",
    put_right="Write the number on the label under `asset:`.",
    source="house rule",
    check=check,
)
