"""Who has what, for a person: a matrix of axes and setups first, then each hand with its kind, path and reach."""

from __future__ import annotations

from collections.abc import Mapping

from rigmint.report.held_back import find_held_back
from rigmint.report.layout import count, wrap, wrap_chain
from rigmint.report.owner_marks import Mark, describe_holding, name_hand
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.report.table import Cell, lay_table
from rigmint.report.wheels import describe_wheel
from rigmint.rig.device import SignalKind
from rigmint.study.dial_speed import DialSpeed
from rigmint.study.hands import AxisHands, Claim, Hands
from rigmint.words import AXES

_INDENT = 4


def render_owners(
    file: str, setups: Mapping[str, Hands], style: Style, dials: Mapping[str, tuple[DialSpeed, ...]] | None = None
) -> str:
    """The whole text, ending in a newline. `setups`: name to study, in the order of the rig file; `dials`: name to the
    wheels that drive a ring by speed."""
    places = _order_places(setups)
    names = {place: _name_axis(place, setups) for place in places}
    lines = [f"{clean(file)}   who has what, {count(len(setups), 'setup')}", ""]
    if not places:
        return "\n".join([*lines, "No lens ring, joint or record is on this rig."]) + "\n"
    lines += _lay_matrix(places, names, setups, style)
    for setup, hands in setups.items():
        told = [place for place in places if place in hands.axes and _has_details(hands.axes[place])]
        lines += ["", clean(setup)] if told else []
        for place in told:
            wheels = (dials or {}).get(setup, ())
            lines += ["", *_describe_axis(hands.axes[place], names[place], wheels, style.width)]
    return "\n".join(lines) + "\n"


def _has_details(axis: AxisHands) -> bool:
    """Whether there is more to tell than that nobody has it and nobody is meant to."""
    return bool(axis.meant or axis.claims or axis.stopped)


def _order_places(setups: Mapping[str, Hands]) -> list[str]:
    places = dict.fromkeys(place for hands in setups.values() for place in hands.axes)
    ranks = {axis: rank for rank, axis in enumerate(AXES)}
    return sorted(places, key=lambda place: (ranks.get(place.partition(".")[2], len(ranks)), place))


def _name_axis(place: str, setups: Mapping[str, Hands]) -> str:
    """The short name where it is the same in every setup, else the place."""
    names = {hands.axes[place].name for hands in setups.values() if place in hands.axes}
    return names.pop() if len(names) == 1 else place


def _lay_matrix(places: list[str], names: Mapping[str, str], setups: Mapping[str, Hands], style: Style) -> list[str]:
    used: set[Mark] = set()
    rows = []
    for place in places:
        row = [Cell(names[place])]
        for hands in setups.values():
            axis = hands.axes.get(place)
            row.append(_fill_cell(axis, used) if axis is not None else Cell(""))
        rows.append(row)
    lines = lay_table([Cell("axis"), *(Cell(setup) for setup in setups)], rows, style)
    legend = [f"{mark.sign:<2}  {mark.words}" for mark in Mark if mark in used]
    return [*lines, "", *legend] if legend else lines


def _fill_cell(axis: AxisHands, used: set[Mark]) -> Cell:
    holding = describe_holding(axis)
    used.update(holding.marks)
    text = " ".join([holding.names, *(mark.sign for mark in holding.marks)])
    return Cell(text, min(holding.marks, key=lambda mark: mark.grade.rank).grade if holding.marks else "")


def _describe_axis(axis: AxisHands, name: str, wheels: tuple[DialSpeed, ...], width: int) -> list[str]:
    meant = f"meant for {', '.join(axis.meant)}" if axis.meant else "not said whose it is"
    lines = wrap(f"{name}: {meant}", width, _INDENT - 2)
    for claim in axis.certain:
        lines += wrap(describe_claim(claim), width, _INDENT, _INDENT + 2)
        lines += wrap_chain(claim.path, width, _INDENT + 2)
        for wheel in wheels:
            if wheel.place == axis.place and wheel.claim == claim:
                lines += wrap(describe_wheel(wheel), width, _INDENT + 2, _INDENT + 4)
    if not axis.certain:
        lines += wrap("nobody has it", width, _INDENT)
    for stopped in find_held_back(axis):
        lines += wrap(f"held back: {stopped.control} at {stopped.by}: {stopped.says}", width, _INDENT, _INDENT + 2)
    return lines


def describe_claim(claim: Claim) -> str:
    """A claim in words: whose hand, by which control, how it arrives."""
    hand = name_hand(claim)
    if claim.sends is SignalKind.FOLLOW:
        return f"{hand}, by the follow mode of {claim.item}"
    parts = [f"{hand}, {claim.control}", claim.sends.value]
    if claim.arrives is not claim.sends:
        parts.append(f"arrives as {claim.arrives.value}")
    if claim.takes_over in ("touch", "button"):
        parts.append(f"takes over by {claim.takes_over}")
    elif claim.takes_over is not None:
        parts.append("steps back for another hand")
    if claim.reach is not None:
        parts.append(f"reaches {claim.reach:.3g} m")
    return ", ".join(parts)
