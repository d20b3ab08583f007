"""Gears, masses and bonds."""

from __future__ import annotations

from collections.abc import Iterator

import networkx

from tests.power.amounts import read_amount
from tests.power.files import Tree
from tests.seeding.judge.harm import Harm
from tests.seeding.judge.scene import Scene, as_list
from tests.seeding.judge.signals import SignalGraph, split

_HIGH = frozenset({"crane", "overhead", "cable", "vehicle"})
_BASE = frozenset({"head", "carrier"})
_AWAY = frozenset({"hand_unit", "desk", "monitor", "receiver", "supply", "recorder"})
_OVER_BY_HAND, _BOND_FROM = 1.1, 0.1


def judge_gears(scene: Scene) -> Iterator[Harm]:
    """Motors that do not mesh, cannot turn their ring, or force its stops."""
    for motor, fitted in scene.rig.get("fitted", {}).items():
        place = str(fitted["ring"] if isinstance(fitted, dict) else fitted)
        lens, name = split(place)
        if motor not in scene.parts or lens not in scene.parts or name not in scene.parts[lens].get("rings", {}):
            continue
        ring, drive = scene.parts[lens]["rings"][name], scene.parts[motor].get("drive", {})
        if {"module", "teeth"} <= set(ring) & set(drive):
            yield from _judge_gear(scene, motor, ring, drive)


def _judge_gear(scene: Scene, motor: str, ring: Tree, drive: Tree) -> Iterator[Harm]:
    if abs(read_amount(ring["module"]) - read_amount(drive["module"])) > 1e-9:
        yield Harm("mesh", motor)
        return
    ratio = float(ring["teeth"]) / float(drive["teeth"])
    if "torque" in ring and "torque" in drive and read_amount(drive["torque"]) * ratio < read_amount(ring["torque"]):
        yield Harm("weak", motor)
    if not _calibrates(scene, motor, drive):
        return
    if ring.get("stops") in ("false", "no"):
        yield Harm("stops", motor)
    elif "calibration" in drive and "stands" in ring:
        stands = read_amount(ring["stands"])
        yield from [Harm("strong", motor)] if read_amount(drive["calibration"]) * ratio > stands else []


def _calibrates(scene: Scene, motor: str, drive: Tree) -> bool:
    """Whether the motor seeks stops on its own: as it says, else as the driver that it hangs on says."""
    graph = SignalGraph(scene, scene.settings)
    if "calibrates" in drive:
        return _holds(graph, motor, drive["calibrates"])
    for lead in scene.leads.values():
        items = {split(place)[0] for place in lead.plugged.values()}
        if motor in items:
            for other in items - {motor}:
                stated = scene.parts[other].get("drive", {}).get("calibrates")
                if stated is not None and _holds(graph, other, stated):
                    return True
    return False


def _holds(graph: SignalGraph, item: str, stated: object) -> bool:
    return graph.holds(item, stated["when"]) if isinstance(stated, dict) else stated in ("true", "yes")


def find_stage(scene: Scene, item: str) -> str:
    """Where on a head an item sits: as the rig says, as its part says, else by its kind."""
    part = scene.parts[item]
    default = "base" if part["kind"] in _BASE else "away" if part["kind"] in _AWAY else "tilt"
    return str(scene.entry(item).get("rides") or part.get("rides") or default)


def judge_masses(scene: Scene) -> Iterator[Harm]:
    """More than a head or a carrier may bear. An item sits on the head that docks, then leads, bring nearest."""
    share = 1.0 if _is_high(scene) else _OVER_BY_HAND
    nearest = _find_heads(scene)
    for head in (item for item, part in scene.parts.items() if part["kind"] == "head"):
        riding = [item for item in scene.parts if find_stage(scene, item) != "away" and nearest.get(item) == head]
        moving = [item for item in riding if find_stage(scene, item) != "base"]
        part = scene.parts[head]
        if "payload" in part and _weigh(scene, moving) > share * read_amount(part["payload"]["max"]) + 1e-9:
            yield Harm("payload", head)
        yield from _judge_carriers(scene, head, riding, share)


def _find_heads(scene: Scene) -> dict[str, str]:
    """Item to the head that it sits on."""
    ways: networkx.Graph[str] = networkx.Graph()
    ways.add_nodes_from(item for item in scene.parts if find_stage(scene, item) != "away")
    for lead in scene.leads.values():
        items = [split(place)[0] for place in lead.plugged.values()]
        ways.add_edges_from(((one, other) for one in items for other in items if one != other), weight=10)
    ways.add_edges_from(((split(a)[0], split(b)[0]) for a, b in scene.docks), weight=1)
    ways.remove_nodes_from([item for item in scene.parts if find_stage(scene, item) == "away"])
    heads = [item for item in ways if scene.parts[item]["kind"] == "head"]
    if len(heads) == 1:
        return dict.fromkeys(ways, heads[0])
    found: dict[str, tuple[float, str]] = {}
    for head in heads:
        for item, steps in networkx.single_source_dijkstra_path_length(ways, head).items():
            found[item] = min((steps, head), found.get(item, (steps, head)))
    return {item: head for item, (_, head) in found.items()}


def _judge_carriers(scene: Scene, head: str, riding: list[str], share: float) -> Iterator[Harm]:
    for carrier in (item for item, part in scene.parts.items() if part["kind"] == "carrier" and "payload" in part):
        if not _stands_on(scene, head, carrier):
            continue
        over = [item for item in riding if not _is_under(scene, item, carrier)]
        if _weigh(scene, over) > share * read_amount(scene.parts[carrier]["payload"]["max"]) + 1e-9:
            yield Harm("payload", carrier)


def _stands_on(scene: Scene, head: str, carrier: str) -> bool:
    """Whether docks lead from a head down to a carrier, through carriers alone."""
    reached, pending = {head}, [head]
    while pending:
        here = pending.pop()
        for pair in scene.docks:
            items = [split(place)[0] for place in pair]
            if here in items:
                other = items[1 - items.index(here)]
                if other not in reached and scene.parts[other]["kind"] == "carrier":
                    reached.add(other)
                    pending.append(other)
    return carrier in reached


def _is_under(scene: Scene, item: str, carrier: str) -> bool:
    """Whether an item is the carrier, or a carrier that this one stands on."""
    if scene.parts[item]["kind"] != "carrier":
        return False
    below, standing = {carrier}, True
    while standing:
        more = {split(b)[0] for a, b in scene.docks if split(a)[0] in below} - below
        more = {one for one in more if scene.parts[one]["kind"] == "carrier"}
        standing = bool(more)
        below |= more
    return item in below


def _weigh(scene: Scene, items: list[str]) -> float:
    """kg of items, and of leads whose every end is on one of them."""
    masses = [scene.parts[item].get("mass") for item in items]
    for label, lead in scene.leads.items():
        entry = scene.lead_entry(label)
        if all(split(place)[0] in items for place in lead.plugged.values()) and "part" in entry:
            masses.append(scene.shelf.part(entry["part"]).get("mass"))
    return sum(read_amount(mass) for mass in masses if mass is not None)


def judge_bonds(scene: Scene) -> Iterator[Harm]:
    """Things over people without a safety bond of their own."""
    if not _is_high(scene) or not any(part["kind"] == "head" for part in scene.parts.values()):
        return
    for item, part in scene.parts.items():
        is_heavy = "mass" in part and read_amount(part["mass"]) > _BOND_FROM
        rides = part["kind"] == "head" or find_stage(scene, item) not in ("away",)
        if part["kind"] == "carrier" or not rides or not (is_heavy or part["kind"] == "head"):
            continue
        if scene.entry(item).get("bond") not in ("true", "yes", "on"):
            yield Harm("bond", item)


def _is_high(scene: Scene) -> bool:
    return (scene.setup.get("on") or scene.rig.get("on")) in _HIGH


def judge_requirements(scene: Scene, library: Tree) -> Iterator[Harm]:
    """Settings that the rig, a part or the library requires."""
    for grade, when, wanted, home in _list_requirements(scene, library):
        if grade not in ("hurt", "burn", "dead", "fight"):
            continue
        if all(_meets(scene, home, key, value) for key, value in when.items()):
            for key, value in wanted.items():
                place = key if "." in key or home is None else f"{home}.{key}"
                if scene.settings.get(place) not in as_list(value) and place.partition(".")[0] in scene.parts:
                    yield Harm("required", place)


def _list_requirements(scene: Scene, library: Tree) -> Iterator[tuple[str, Tree, Tree, str | None]]:
    stated: list[tuple[Tree, str | None]] = [(one, None) for one in scene.rig.get("requires", ())]
    stated += [(one, None) for one in library.get("requires", ())]
    stated += [(one, item) for item, part in scene.parts.items() for one in part.get("requires", ())]
    for body, home in stated:
        if "set" in body:
            yield body.get("grade", "dead"), body.get("when", {}), body["set"], home


def _meets(scene: Scene, home: str | None, key: str, value: object) -> bool:
    if key in ("on", "stance"):
        return (scene.setup.get(key) or scene.rig.get(key)) in as_list(value)
    if key == "kind":
        return any(part["kind"] in as_list(value) for part in scene.parts.values())
    place = key if "." in key or home is None else f"{home}.{key}"
    return scene.settings.get(place) in as_list(value)
