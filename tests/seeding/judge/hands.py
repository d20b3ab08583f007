"""Who has each axis, by enumeration of every way from every control, and what `who` wanted instead."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from math import prod

import networkx

from tests.power.files import Tree
from tests.seeding.judge.harm import Harm
from tests.seeding.judge.scene import Scene, as_list
from tests.seeding.judge.signals import SignalGraph

AXES = ("focus", "iris", "zoom", "pan", "tilt", "roll", "record")
KINDS = ("absolute", "rate", "trigger")
MOST_COMBINATIONS = 32
_HIGH = frozenset({"crane", "overhead", "cable", "vehicle"})


class TooMany(Exception):
    """More combinations of unknown settings than are tried."""


@dataclass(frozen=True, slots=True)
class Hold:
    """One control on one place."""

    control: str
    person: str
    axis: str
    place: str
    kind: str
    shares: bool
    """It takes over, or steps back: an agreement, not a second hand."""
    remote: bool


def judge_hands(scene: Scene) -> list[Harm]:
    """What is wrong with the hands whatever unknown settings are. Raises TooMany."""
    verdicts = [set(_judge(scene, values)) for values in list_combinations(scene)]
    return sorted(set.intersection(*verdicts), key=lambda harm: (harm.what, harm.at)) if verdicts else []


def list_combinations(scene: Scene) -> list[dict[str, str]]:
    """Stated values with every combination of those unknown settings that gate anything. Raises TooMany."""
    unknown: dict[str, list[str]] = {}
    for item, part in scene.parts.items():
        for name in find_gating(part):
            key, body = f"{item}.{name}", part.get("settings", {}).get(name)
            if key not in scene.settings and isinstance(body, dict):
                unknown[key] = body["values"]
    if prod(len(values) for values in unknown.values()) > MOST_COMBINATIONS:
        raise TooMany
    return [{**scene.settings, **dict(zip(unknown, words, strict=True))} for words in product(*unknown.values())]


def find_gating(part: Tree) -> set[str]:
    """Settings on which controls, movers, passes and follow modes depend."""
    found: set[str] = set()

    def look(value: object) -> None:
        if isinstance(value, dict):
            if isinstance(value.get("setting"), str):
                found.add(value["setting"])
            found.update(value.get("when", {}) if isinstance(value.get("when"), dict) else ())
            for inner in value.values():
                look(inner)
        elif isinstance(value, list):
            for inner in value:
                look(inner)

    for key in ("controls", "moves", "passes", "follow"):
        look(part.get(key))
    return found


def list_holds(scene: Scene, graph: SignalGraph, axis: str) -> Iterator[Hold]:
    """Every control that comes to a mover of an axis."""
    ways = build_axis(graph, axis)
    for item, part in scene.parts.items():
        if item in scene.off:
            continue
        for name, body in part.get("controls", {}).items():
            if axis in graph.words(item, body["axis"]) and graph.holds(item, body.get("when", {})):
                for mover_item, kind in _list_movers(scene, graph, ways, axis, (item, name, body["sends"])):
                    place = _name_place(scene, axis, mover_item)
                    if place is not None:
                        yield Hold(
                            control=f"{item}.{name}",
                            person=_find_person(scene, item, body),
                            axis=axis,
                            place=place,
                            kind=kind,
                            shares=body.get("takes_over") in ("touch", "button", "never"),
                            remote=item != mover_item,
                        )


def build_axis(graph: SignalGraph, axis: str) -> networkx.DiGraph[tuple[str, str, str]]:
    """The ways of one axis; a node is item, place and kind of signal."""
    ways: networkx.DiGraph[tuple[str, str, str]] = networkx.DiGraph()
    for near, far, body in graph.list_passes(axis):
        for kind in KINDS:
            ways.add_edge((*near, kind), (*far, body.get("as", kind)))
    for near, far, _ in graph.list_hops(axis):
        for kind in KINDS:
            ways.add_edge((*near, kind), (*far, kind))
    return ways


def _list_movers(
    scene: Scene,
    graph: SignalGraph,
    ways: networkx.DiGraph[tuple[str, str, str]],
    axis: str,
    start: tuple[str, str, str],
) -> Iterator[tuple[str, str]]:
    """Item and kind of signal of every mover that a control comes to."""
    reached = {start} | (networkx.descendants(ways, start) if start in ways else set())
    for item, place, kind in sorted(reached):
        mover = scene.parts[item].get("moves", {}).get(place)
        if mover is None or item in scene.off or kind not in as_list(mover.get("takes", list(KINDS))):
            continue
        if axis in graph.words(item, mover["axis"]) and graph.holds(item, mover.get("when", {})):
            yield item, kind


def _name_place(scene: Scene, axis: str, item: str) -> str | None:
    """The ring that a motor sits on; else the axis of the mover's own item."""
    fitted = scene.rig.get("fitted", {}).get(item)
    if fitted is not None:
        return str(fitted["ring"] if isinstance(fitted, dict) else fitted)
    return None if axis in ("focus", "iris", "zoom") and scene.parts[item]["kind"] == "lens_motor" else f"{item}.{axis}"


def _find_person(scene: Scene, item: str, control: Tree) -> str:
    if control.get("automatic") == "true":
        return "automatic"
    for person, items in scene.rig.get("crew", {}).items():
        if item in as_list(items):
            return str(person)
    return f"at {item}"


def find_meant(scene: Scene) -> dict[str, list[str]]:
    """Place of an axis to who is meant to have it; `nobody` is an empty list."""
    found = {}
    for key, persons in (scene.setup.get("who") or scene.rig.get("who") or {}).items():
        for place in [key] if "." in key else _list_places(scene, key):
            found[place] = [person for person in as_list(persons) if person != "nobody"]
    return found


def _list_places(scene: Scene, axis: str) -> list[str]:
    if axis in ("pan", "tilt", "roll"):
        return [f"{item}.{axis}" for item, part in scene.parts.items() if part["kind"] == "head"]
    if axis == "record":
        return [f"{item}.{axis}" for item, part in scene.parts.items() if part["kind"] == "camera"]
    return [f"{item}.{axis}" for item, part in scene.parts.items() if axis in part.get("rings", {})]


def list_follows(scene: Scene, values: dict[str, str]) -> Iterator[tuple[str, str, str]]:
    """Head, axis and person of each follow mode that is on."""
    for item, part in scene.parts.items():
        follow = part.get("follow")
        if follow is None or item in scene.off:
            continue
        mode = follow["mode"]
        chosen = values.get(f"{item}.{mode['setting']}") if isinstance(mode, dict) else mode
        for axis, state in (follow["modes"].get(chosen) or {}).items():
            state = values.get(f"{item}.{state['setting']}") if isinstance(state, dict) else state
            if state == "on":
                crew = scene.rig.get("crew", {})
                holder = next((person for person, items in crew.items() if item in as_list(items)), None)
                yield item, axis, str(holder or ("carrier" if "carrier" in crew else f"at {item}"))


def _judge(scene: Scene, values: dict[str, str]) -> Iterator[Harm]:
    graph = SignalGraph(scene, values)
    holds: dict[str, list[Hold]] = defaultdict(list)
    for axis in AXES:
        for hold in set(list_holds(scene, graph, axis)):
            holds[hold.place].append(hold)
    meant = find_meant(scene)
    for head, axis, person in list_follows(scene, values):
        place = f"{head}.{axis}"
        if any(hold.remote and not hold.shares for hold in holds[place]):
            yield Harm("follow", place)
        holds[place].append(Hold(f"{head} follow", person, axis, place, "follow", False, False))
    for place in sorted({*holds, *meant}):
        what = _judge_place(place, holds, meant)
        if what is not None:
            yield Harm(what, place)
    yield from _judge_stop(scene, graph, holds)


def _is_astray(hold: Hold, holds_of: dict[str, list[Hold]], meant: dict[str, list[str]]) -> bool:
    """A control of one axis on the ring of another: not given to who turns it, or turning its own ring too, or its own
    ring meant for that person and not turned by them."""
    if hold.person not in meant.get(hold.place, []):
        return True
    own = f"{hold.place.partition('.')[0]}.{hold.axis}"
    others = [one for place, found in holds_of.items() if place != hold.place for one in found]
    if any(one.control == hold.control and one.axis == hold.axis for one in others):
        return True
    return hold.person in meant.get(own, []) and not any(one.axis == hold.axis for one in holds_of.get(own, []))


def _judge_place(place: str, holds_of: dict[str, list[Hold]], meant: dict[str, list[str]]) -> str | None:
    holds = holds_of.get(place, [])
    axis = place.rpartition(".")[2]
    persons = meant.get(place)
    theirs = [hold for hold in holds if persons is not None and hold.person in persons]
    if axis != "record":
        # A head's own stick is built to work on top of its follow mode; of remote ones `follow` tells.
        plain = {hold.control: hold for hold in holds if not hold.shares and hold.kind != "follow"}
        if len(plain) > 1:
            return "mixed" if {"absolute", "rate"} <= {hold.kind for hold in plain.values()} else "two"
        if any(hold.axis != axis and _is_astray(hold, holds_of, meant) for hold in holds):
            return "wrong-ring"
        # What takes over, or steps back, shares with the hand that is meant.
        strangers = [hold for hold in holds if persons is not None and hold.person not in persons]
        if any(not (hold.shares and theirs) for hold in strangers):
            return "unintended"
    if persons and not theirs:
        return "nobody"
    return None


def _judge_stop(scene: Scene, graph: SignalGraph, holds: dict[str, list[Hold]]) -> Iterator[Harm]:
    """A head that is driven remotely where it can hit people, with no stop in anybody's hands."""
    if (scene.setup.get("on") or scene.rig.get("on")) not in _HIGH:
        return
    for item, part in scene.parts.items():
        if part["kind"] != "head" or item in scene.off:
            continue
        driven = [hold for axis in ("pan", "tilt", "roll") for hold in holds[f"{item}.{axis}"] if hold.remote]
        stops = [
            hold
            for hold in list_holds(scene, graph, "stop")
            if hold.place == f"{item}.stop" and hold.remote and not hold.person.startswith("at ")
        ]
        if driven and not stops:
            yield Harm("no-stop", item)
