"""Edits of the rig file: what changes by verb come down to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal, TypeAlias

from rigmint.library.build_setups import AS_WIRED
from rigmint.lint.changes import (
    Change,
    ChangePart,
    Mark,
    MeetDistance,
    MoveEnd,
    NameWho,
    PackSpares,
    SetChannel,
    SetSetting,
    SwapEnds,
    TakeOutLead,
)
from rigmint.rig.rig import Lead, Rig

Key: TypeAlias = str | int


@dataclass(frozen=True, slots=True)
class Edit:
    """`set` writes a value at a path, making what is missing on the way; `remove` takes it out; `add` appends."""

    do: Literal["set", "remove", "add"]
    path: tuple[Key, ...]
    value: Any = None


def list_edits(change: Change, rig: Rig) -> tuple[Edit, ...]:
    """The edits that make a change in the file of a rig."""
    match change:
        case SetSetting(item, setting, value, setup):
            return (Edit("set", (*_settings_path(setup), f"{item}.{setting}"), value),)
        case TakeOutLead(label, None):
            return (Edit("remove", ("leads", label)),)
        case TakeOutLead(label, setup):
            return (Edit("add", ("setups", str(setup), "unplugged"), label),)
        case MoveEnd(label, end, to):
            return _plug(rig.leads[label], {**_plugged_places(rig.leads[label]), end: to}, (end,))
        case SwapEnds(label):
            return _swap(rig.leads[label])
        case ChangePart(name, part):
            is_short = name in rig.items and rig.items[name].is_short
            key: tuple[Key, ...] = () if is_short else ("part",)
            return (Edit("set", (_section_of(name, rig), name, *key), part),)
        case Mark(place, text):
            return (Edit("set", ("marked", place), text),)
        case MeetDistance(link, metres, setup):
            return (Edit("set", _distance_path(link, setup), f"{metres:g} m"),)
        case NameWho(place, axis, person, beside, setup):
            named = rig.setups[setup].who.get(place, (beside,))
            return (Edit("set", ("setups", setup, "who", axis), list(dict.fromkeys((*named, person)))),)
        case PackSpares(part, count, why, None):
            return (Edit("add", ("also",), {"part": part, "count": count, "why": why}),)
        case PackSpares(_, count, _, index):
            return (Edit("set", ("also", int(index or 0), "count"), count),)
        case SetChannel(link, channel):
            return (Edit("set", ("links", link, "channel"), channel),)


def spread_over_setups(change: Change, setups: Sequence[str]) -> tuple[Change, ...]:
    """A change of a setting in one setup as the same in each setup in which the finding holds."""
    if isinstance(change, (SetSetting, NameWho)) and change.setup in setups:
        return tuple(replace(change, setup=setup) for setup in setups)
    return (change,)


def _settings_path(setup: str | None) -> tuple[Key, ...]:
    if setup is None or setup == AS_WIRED:
        return ("settings",)
    return ("setups", setup, "set")


def _distance_path(link: str, setup: str | None) -> tuple[Key, ...]:
    if setup is None or setup == AS_WIRED:
        return ("links", link, "distance")
    return ("setups", setup, "distance", link)


def _section_of(name: str, rig: Rig) -> str:
    return "leads" if name in rig.leads else "kit"


def _plugged_places(lead: Lead) -> dict[str, str]:
    return {end: ref.place for end, ref in lead.plugged.items()}


def _swap(lead: Lead) -> tuple[Edit, ...]:
    first, second = sorted(lead.plugged)
    places = _plugged_places(lead)
    return _plug(lead, {first: places[second], second: places[first]}, (first, second))


def _plug(lead: Lead, places: dict[str, str], changed: tuple[str, ...]) -> tuple[Edit, ...]:
    if lead.is_short:
        return (Edit("set", ("leads", lead.label), f"{places['a']} > {places['b']}"),)
    return tuple(Edit("set", ("leads", lead.label, *_end_keys(lead, end)), places[end]) for end in changed)


def _end_keys(lead: Lead, end: str) -> tuple[Key, ...]:
    if lead.names_ends:
        return ("ends", end)
    return ({"a": "from", "b": "to"}[end],)
