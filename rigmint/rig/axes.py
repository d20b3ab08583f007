"""Which items hold an axis: a lens its rings, a head its joints, any other its movers."""

from __future__ import annotations

from collections.abc import Mapping

from rigmint.rig.part import Part
from rigmint.words import HEAD_AXES, LENS_AXES


def rings_of(part: Part) -> tuple[str, ...]:
    """The rings of a lens; a lens that states none may have any of the three."""
    if part.rings:
        return tuple(part.rings)
    return LENS_AXES if part.kind == "lens" else ()


def joints_of(part: Part) -> tuple[str, ...]:
    """The joints of a head; a head that states none may have any of the three."""
    if part.joints:
        return tuple(part.joints)
    return HEAD_AXES if part.kind == "head" else ()


def find_axis_holders(axis: str, parts: Mapping[str, Part]) -> list[str]:
    """The items that hold an axis, in the order given: `focus` finds lenses, `pan` heads, `record` cameras."""
    if axis in LENS_AXES:
        return [name for name, part in parts.items() if axis in rings_of(part)]
    if axis in HEAD_AXES:
        return [name for name, part in parts.items() if axis in joints_of(part)]
    movers = [name for name, part in parts.items() if any(axis in mover.axis.words for mover in part.moves.values())]
    if movers or axis != "record":
        return movers
    return [name for name, part in parts.items() if part.kind == "camera"]
