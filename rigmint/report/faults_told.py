"""What a single fault does, in words, for `power --faults` and for the sheet. What does the same is told together."""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass

from rigmint.lint.wording import say_amps, say_list, say_volts
from rigmint.rig.rig import Rig
from rigmint.study.fault_list import FaultKind
from rigmint.study.fault_outcome import FaultOutcome
from rigmint.study.faults import Faults

_MOST = 6
_TELLING_AMPS = 0.05
_ASKED_FOR = ("camera", "head", "recorder")
_TAKES_ITEM = (FaultKind.SOURCE_OUT, FaultKind.ITEM_OFF)
_KINDS = {
    FaultKind.LEAD_OUT: "out",
    FaultKind.PLUS_OPEN: "plus open",
    FaultKind.MINUS_OPEN: "minus open",
    FaultKind.SOURCE_FLAT: "flat",
    FaultKind.SOURCE_OUT: "taken off",
    FaultKind.LINK_LOST: "link lost",
    FaultKind.ITEM_OFF: "off",
}


@dataclass(frozen=True, slots=True)
class ToldFault:
    """One line: what fails (faults of one place that do the same), what goes, what stays, what to do when it is back.
    Each in words; empty where there is nothing to say."""

    place: str
    what: str
    goes: str
    stays: str
    after: str


def tell_faults(rig: Rig, faults: Faults, without: Set[FaultKind] = frozenset()) -> tuple[ToldFault, ...]:
    """A line for each place and effect, in the order of the study; what does nothing at all is left out, and so are
    the kinds `without`."""
    groups: dict[tuple[str, tuple[object, ...]], list[FaultOutcome]] = {}
    for outcome in faults.outcomes:
        if not outcome.is_harmless and outcome.fault.kind not in without:
            groups.setdefault((outcome.fault.item, outcome.effect), []).append(outcome)
    return tuple(_tell(rig, group, faults) for group in groups.values())


def list_harmless(faults: Faults) -> tuple[str, ...]:
    """The places of which no fault does anything."""
    harmful = {outcome.fault.item for outcome in faults.outcomes if not outcome.is_harmless}
    return tuple(dict.fromkeys(one.fault.place for one in faults.outcomes if one.fault.item not in harmful))


def _tell(rig: Rig, group: Sequence[FaultOutcome], faults: Faults) -> ToldFault:
    first = group[0]
    ways = dict.fromkeys(_KINDS[outcome.fault.kind] for outcome in group)
    return ToldFault(
        place=first.fault.place,
        what=f"{first.fault.place} {' or '.join(ways)}",
        goes="; ".join(_list_losses(first)),
        stays="; ".join(_list_left(rig, first, faults)),
        after="; ".join(_list_after(first)),
    )


def _list_losses(outcome: FaultOutcome) -> list[str]:
    told = ["the supply gives way"] if outcome.collapsed else []
    if outcome.down:
        told.append(f"without power: {say_list(outcome.down, most=_MOST)}")
    told += [f"{one.ref.place} too low, {say_volts(one.volts)} of {say_volts(one.least)}" for one in outcome.low]
    told += _list_lost_axes(outcome)
    flows: dict[str, list[str]] = {}
    for loss in outcome.flows:
        flows.setdefault(loss.flow, []).append(loss.item)
    told += [f"{flow} at {say_list(items, most=_MOST)}" for flow, items in flows.items()]
    for found in (one for one in outcome.shields if one.amps >= _TELLING_AMPS):
        over = f" over {found.lead}" if found.lead is not None else ""
        told.append(f"{found.item} returns {say_amps(found.amps)}{over}: pull it")
    return told


def _list_lost_axes(outcome: FaultOutcome) -> list[str]:
    """Axes that the same persons lose, together; those that others still have apart from those that nobody has."""
    groups: dict[tuple[tuple[str, ...], bool], list[str]] = {}
    for axis in outcome.axes:
        if axis.losers:
            groups.setdefault((axis.losers, bool(axis.left)), []).append(axis.name)
    return [
        f"{say_list(names, most=_MOST)} for {say_list(losers)}{'' if is_shared else ': nobody has that then'}"
        for (losers, is_shared), names in groups.items()
    ]


def _list_left(rig: Rig, outcome: FaultOutcome, faults: Faults) -> list[str]:
    """What an operator asks first: whether the camera, the head and the picture stay, and who has what is left."""
    gone = {*outcome.down, *([outcome.fault.item] if outcome.fault.kind in _TAKES_ITEM else [])}
    told = [name for name in faults.powered if name not in gone and rig.items[name].part.kind in _ASKED_FOR]
    pictures = [loss for loss in faults.before.ends if loss.flow == "picture" and loss not in outcome.flows]
    seen = sorted({loss.item for loss in pictures} - gone)
    left = [say_list(told, most=_MOST)] if told else []
    left += [f"picture at {say_list(seen, most=_MOST)}"] if seen else []
    groups: dict[tuple[str, ...], list[str]] = {}
    for axis in outcome.axes:
        holders = tuple(dict.fromkeys(_name(holder.person, holder.control) for holder in axis.left))
        if holders:
            groups.setdefault(holders, []).append(axis.name)
    return left + [f"{say_list(names, most=_MOST)} by {say_list(holders)}" for holders, names in groups.items()]


def _name(person: str, control: str) -> str:
    return person or f"hand at {control.partition('.')[0]}"


def _list_after(outcome: FaultOutcome) -> list[str]:
    told = [f"set {one.item}.{one.setting} to {one.value} again" for one in outcome.forgets]
    moving = [item for item in outcome.moves if item not in outcome.recalibrates]
    if moving:
        told.append(f"{say_list(moving, most=_MOST)} {_agree('move', moving)} when power returns")
    if outcome.recalibrates:
        seeking = outcome.recalibrates
        ends = "the ends of its ring" if len(seeking) == 1 else "the ends of their rings"
        told.append(f"{say_list(seeking, most=_MOST)} {_agree('seek', seeking)} {ends} when power returns")
    for head in outcome.heads:
        does = f"{head.does}s" if head.does is not None else "does what its part does not say"
        told.append(f"{head.item} {does} without its control")
    return told


def _agree(verb: str, items: Sequence[str]) -> str:
    return f"{verb}s" if len(items) == 1 else verb
