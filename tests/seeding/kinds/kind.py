"""What a kind of mistake is."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, TypeAlias

from tests.power.files import Tree
from tests.power.leads import LeadReading, do_mate
from tests.power.parts import PortReading
from tests.seeding.base import Base, Change, as_mapping

Site: TypeAlias = tuple[str, Change]
"""What is done, in words, and what does it."""


@dataclass(frozen=True, slots=True)
class Kind:
    """A mistake that can be made in several places of a rig. `concern`: what it is about, for the table."""

    name: str
    concern: str
    sites: Callable[[Base], Iterator[Site]]


def set_lead(label: str, entry: Tree) -> Change:
    """Replaces a lead's entry."""

    def change(tree: Tree) -> None:
        tree["leads"][label] = entry

    return change


def set_item(item: str, **keys: Any) -> Change:
    """Sets keys of an item's entry; None takes a key away."""

    def change(tree: Tree) -> None:
        entry = as_mapping(tree["kit"][item])
        for key, value in keys.items():
            if value is None:
                entry.pop(key, None)
            else:
                entry[key] = value
        tree["kit"][item] = entry

    return change


def set_setting(place: str, value: str) -> Change:
    """Sets a setting wherever the rig states it, in every setup; in `settings:` where it states it nowhere."""

    def change(tree: Tree) -> None:
        item, _, name = place.partition(".")
        entry = as_mapping(tree["kit"][item])
        entry.get("set", {}).pop(name, None)
        if "set" in entry and not entry["set"]:
            del entry["set"]
        tree["kit"][item] = entry if len(entry) > 1 else entry["part"]
        for setup in (tree.get("setups") or {}).values():
            if setup and name and place in setup.get("set", {}):
                setup["set"][place] = value
        tree.setdefault("settings", {})[place] = value

    return change


def find_setting(base: Base, place: str) -> str | None:
    """The value of a setting outside of setups; None where nobody states it."""
    item, _, name = place.partition(".")
    body = base.parts[item].get("settings", {}).get(name, {})
    stated = base.entry(item).get("set", {}).get(name)
    found = base.tree.get("settings", {}).get(place, stated or body.get("default"))
    return None if found is None else str(found)


def list_plugged(entry: Tree) -> dict[str, str]:
    """End to place, of a lead's entry."""
    if "ends" in entry:
        return dict(entry["ends"])
    return {"a": entry["from"], "b": entry["to"]}


def replug(entry: Tree, plugged: dict[str, str]) -> Tree:
    """A lead's entry with its ends elsewhere."""
    kept = {key: value for key, value in entry.items() if key not in ("from", "to", "ends")}
    return (
        {**kept, "ends": plugged} if set(plugged) != {"a", "b"} else {**kept, "from": plugged["a"], "to": plugged["b"]}
    )


def find_body(base: Base, label: str) -> Tree:
    """What a lead is, written out on the spot with every conductor."""
    entry, reading = base.leads[label]
    stated = base.shelf.part(entry["part"]) if "part" in entry else entry.get("lead", {})
    ends = stated.get("ends") or {
        end: {"connector": connector, **({"sex": sex} if sex else {})} for end, (connector, sex) in reading.ends.items()
    }
    body: Tree = {"ends": ends, "conductors": [dict(one) for one in _list_written(stated, reading)]}
    for key in ("carries", "length", "loss"):
        if key in stated:
            body[key] = stated[key]
    return body


def _list_written(stated: Tree, reading: LeadReading) -> list[Tree]:
    listed = stated.get("conductors")
    if isinstance(listed, list):
        return listed
    return [{"from": ".".join(one.source), "to": ".".join(one.target), **one.body} for one in reading.conductors]


def rewire(base: Base, label: str, conductors: list[Tree], **keys: str) -> Change:
    """Replaces a lead by one of other conductors."""
    entry = {key: value for key, value in base.leads[label][0].items() if key not in ("part", "lead")}
    return set_lead(label, {**entry, "lead": {**find_body(base, label), "conductors": conductors, **keys}})


def do_fit(base: Base, end: tuple[str, str], port: PortReading) -> bool:
    """Whether an end (connector, sex) goes into a port."""
    return do_mate((port.connector, port.sex), end, base.shelf)
