"""Edits of the rig file: what changes by verb come down to."""

from __future__ import annotations

from collections.abc import Sequence

from rigmint.library.build_rig import ReadRig
from rigmint.library.build_setups import AS_WIRED
from rigmint.library.document import Value
from rigmint.library.tree_edits import Edit, EditRefused, Key
from rigmint.lint.changes import (
    AddLead,
    Change,
    ChangePart,
    FitRing,
    JoinLink,
    LeaveLink,
    Mark,
    MeetDistance,
    MoveEnd,
    NameWho,
    PackSpares,
    SetChannel,
    SetFitting,
    SetSetting,
    SwapEnds,
    SwitchOn,
    TakeOutLead,
    Unsign,
)
from rigmint.lint.finding import Fix, MergedFinding
from rigmint.lint.forget import as_mapping, forget_lead
from rigmint.rig.rig import Lead, Rig

_LEVELS = ("item", "rig", "default", "nowhere")
"""Where a setting can stand outside a setup; `setup` is the other."""


def find_fix_edits(fix: Fix, merged: MergedFinding, read: ReadRig) -> tuple[Edit, ...]:
    """The edits of a fix; none for one in words alone, and for one that does not fit the rig."""
    if read.rig is None or read.document is None:
        return ()
    try:
        return list_edits(fix.changes, read.rig, read.document.tree, merged.setups)
    except EditRefused:
        return ()


def list_edits(changes: Sequence[Change], rig: Rig, tree: Value, setups: Sequence[str]) -> tuple[Edit, ...]:
    """The edits that make changes in the file of a rig. `tree`: of the file, with what it starts from; `setups`: those
    in which the finding holds. Raises EditRefused where a change does not fit the rig."""
    edits = _move_ends([change for change in changes if isinstance(change, MoveEnd)], rig)
    for change in changes:
        edits += [] if isinstance(change, MoveEnd) else _list_edits(change, rig, tree, setups)
    return tuple(edit for index, edit in enumerate(edits) if edit not in edits[:index])


def _move_ends(moves: Sequence[MoveEnd], rig: Rig) -> list[Edit]:
    """Lead by lead, since a lead that is written in one line is written anew as a whole."""
    places: dict[str, dict[str, str]] = {}
    for move in moves:
        places.setdefault(move.label, {})[move.end] = move.to
    return [edit for label, moved in places.items() for edit in _plug(_find_lead(label, rig), moved)]


def _list_edits(change: Change, rig: Rig, tree: Value, setups: Sequence[str]) -> tuple[Edit, ...]:
    match change:
        case SetSetting():
            return _set_setting(change, rig, setups)
        case TakeOutLead(label, setup):
            return _take_out_lead(label, rig, tree, setups if setup is None else (setup,))
        case AddLead():
            return _add_lead(change, rig)
        case MoveEnd():
            return tuple(_move_ends([change], rig))
        case SwapEnds(label):
            return _swap(_find_lead(label, rig))
        case ChangePart(name, part):
            return (_change_part(name, part, rig),)
        case Mark(place, text):
            return (Edit("set", ("marked", place), text),)
        case MeetDistance(link, metres, setup):
            return (Edit("set", _distance_path(link, setup), f"{metres:g} m"),)
        case SetChannel(link, channel):
            return (Edit("set", ("links", link, "channel"), channel),)
        case NameWho():
            return _name_who(change, rig, setups)
        case PackSpares(part, count, why, None):
            return (Edit("add", ("also",), {"part": part, "count": count, "why": why}),)
        case PackSpares(_, count, _, index):
            return (Edit("set", ("also", int(index or 0), "count"), count),)
        case SetFitting(motor, fitting_key, value):
            return _set_fitting(rig, motor, fitting_key, value)
        case JoinLink(link, radio):
            return (Edit("add", ("links", link, "between"), radio),)
        case LeaveLink(link, radio):
            return _leave_link(link, radio, rig, setups)
        case SwitchOn(item):
            return _switch_on(item, tree, setups)
        case FitRing(motor, ring):
            fitted = as_mapping(as_mapping(tree).get("fitted")).get(motor)
            is_whole = isinstance(fitted, dict)
            return (Edit("set", ("fitted", motor, "ring") if is_whole else ("fitted", motor), ring),)
        case Unsign(index):
            return (Edit("remove", ("accepted",) if len(rig.accepted) == 1 else ("accepted", index)),)


def _set_setting(change: SetSetting, rig: Rig, setups: Sequence[str]) -> tuple[Edit, ...]:
    """At the level at which the value stands, where that reaches only setups in which it is to be set; else in the
    setups themselves."""
    wanted = tuple(rig.setups) if change.setup is None else setups if change.setup in setups else (change.setup,)
    key = f"{change.item}.{change.setting}"
    if change.item not in rig.items or change.setting not in rig.items[change.item].part.settings:
        msg = f"there is no setting {key}"
        raise EditRefused(msg)
    there = {name: setup for name, setup in rig.setups.items() if change.item in setup.items}
    stated = {name: setup.settings[change.item, change.setting].stated for name, setup in there.items()}
    paths: list[tuple[Key, ...]] = []
    for level in _LEVELS:
        reached = [name for name in stated if stated[name] == level]
        if reached and set(reached) <= set(wanted):
            paths.append(("kit", change.item, "set", change.setting) if level == "item" else ("settings", key))
        else:
            paths += [_in_setup(name, key) for name in reached if name in wanted]
    paths += [_in_setup(name, key) for name in wanted if stated.get(name) == "setup"]
    return tuple(Edit("set", path, change.value) for path in paths)


def _name_who(change: NameWho, rig: Rig, setups: Sequence[str]) -> tuple[Edit, ...]:
    """In every setup in which the finding holds, beside those who are named there."""
    wanted = setups if change.setup in setups else (change.setup,)
    edits = []
    for name in wanted:
        named = rig.setups[name].who.get(change.place, (change.beside,))
        edits.append(Edit("set", ("setups", name, "who", change.axis), list(dict.fromkeys((*named, change.person)))))
    return tuple(edits)


def _set_fitting(rig: Rig, motor: str, key: str, value: str) -> tuple[Edit, ...]:
    """The whole entry: it may be written in one word, the ring."""
    fitting = rig.fitted[motor]
    stated = {"ring": f"{fitting.lens}.{fitting.ring}", "direction": fitting.direction, "marked": fitting.marked}
    entry = {name: word for name, word in {**stated, key: value}.items() if word is not None}
    return (Edit("set", ("fitted", motor), entry),)


def _in_setup(setup: str, key: str) -> tuple[Key, ...]:
    return ("settings", key) if setup == AS_WIRED else ("setups", setup, "set", key)


def _take_out_lead(label: str, rig: Rig, tree: Value, setups: Sequence[str]) -> tuple[Edit, ...]:
    _find_lead(label, rig)
    there = [name for name, setup in rig.setups.items() if label in setup.leads]
    if set(there) <= set(setups):
        return (Edit("remove", ("leads", label)), *forget_lead(label, tree))
    return tuple(Edit("add", ("setups", name, "unplugged"), label) for name in there if name in setups)


def _add_lead(change: AddLead, rig: Rig) -> tuple[Edit, ...]:
    if change.label in rig.leads or change.label in rig.items:
        msg = f"the label {change.label} is taken"
        raise EditRefused(msg)
    is_whole = change.setup in (None, AS_WIRED)
    if change.part is None and is_whole:
        return (Edit("set", ("leads", change.label), f"{change.start} > {change.to}"),)
    body: dict[str, Value] = {} if change.part is None else {"part": change.part}
    body |= {"from": change.start, "to": change.to}
    if not is_whole:
        body["in"] = [change.setup]
    return (Edit("set", ("leads", change.label), body),)


def _leave_link(name: str, radio: str, rig: Rig, setups: Sequence[str]) -> tuple[Edit, ...]:
    link = rig.links.get(name)
    places = [ref.place for ref in link.radios] if link is not None else []
    if radio not in places:
        msg = f"{radio} is not in the link {name}"
        raise EditRefused(msg)
    there = [key for key, setup in rig.setups.items() if name in setup.links]
    is_all = set(there) <= set(setups)
    if len(places) > 2 and is_all:
        return (Edit("remove", ("links", name, "between", places.index(radio))),)
    if len(places) > 2:
        msg = f"{radio} cannot be left out of the link {name} in one setup alone"
        raise EditRefused(msg)
    if is_all:
        return (Edit("remove", ("links", name)),)
    return tuple(Edit("add", ("setups", key, "out"), name) for key in there if key in setups)


def _switch_on(item: str, tree: Value, setups: Sequence[str]) -> tuple[Edit, ...]:
    edits = []
    for name in setups:
        off = as_mapping(as_mapping(as_mapping(tree).get("setups")).get(name)).get("off")
        listed = off if isinstance(off, list) else [off]
        if item in listed:
            path: tuple[Key, ...] = ("setups", name, "off")
            edits.append(Edit("remove", path if len(listed) == 1 else (*path, listed.index(item))))
    return tuple(edits)


def _distance_path(link: str, setup: str | None) -> tuple[Key, ...]:
    if setup is None or setup == AS_WIRED:
        return ("links", link, "distance")
    return ("setups", setup, "distance", link)


def _find_lead(label: str, rig: Rig) -> Lead:
    lead = rig.leads.get(label)
    if lead is None:
        msg = f"there is no lead {label}"
        raise EditRefused(msg)
    return lead


def _plugged_places(lead: Lead) -> dict[str, str]:
    return {**dict.fromkeys(lead.loose, "loose"), **{end: ref.place for end, ref in lead.plugged.items()}}


def _swap(lead: Lead) -> tuple[Edit, ...]:
    places = _plugged_places(lead)
    if len(places) != 2:
        msg = f"{lead.label} has {len(places)} ends: which of them change places?"
        raise EditRefused(msg)
    first, second = sorted(places)
    return _plug(lead, {first: places[second], second: places[first]})


def _plug(lead: Lead, moved: dict[str, str]) -> tuple[Edit, ...]:
    if lead.is_short:
        places = {**_plugged_places(lead), **moved}
        return (Edit("set", ("leads", lead.label), f"{places['a']} > {places['b']}"),)
    return tuple(Edit("set", ("leads", lead.label, *_end_keys(lead, end)), to) for end, to in moved.items())


def _change_part(name: str, part: str, rig: Rig) -> Edit:
    if name in rig.items:
        return Edit("set", ("kit", name) if rig.items[name].is_short else ("kit", name, "part"), part)
    lead = _find_lead(name, rig)
    if not lead.is_short:
        return Edit("set", ("leads", name, "part"), part)
    places = _plugged_places(lead)
    return Edit("set", ("leads", name), {"part": part, "from": places["a"], "to": places["b"]})


def _end_keys(lead: Lead, end: str) -> tuple[Key, ...]:
    if lead.names_ends:
        return ("ends", end)
    return ({"a": "from", "b": "to"}[end],)
