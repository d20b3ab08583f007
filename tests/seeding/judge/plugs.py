"""What does not mate, sits in a port that is taken, carries what its port does not speak, or gives another record."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import networkx

from tests.power.amounts import read_amount, read_range
from tests.power.files import Tree
from tests.power.leads import LeadReading, do_mate
from tests.seeding.judge.harm import Harm
from tests.seeding.judge.scene import Scene, as_list
from tests.seeding.judge.signals import are_wired, is_made_for, split

_SEVERAL = ("rods-", "ring-terminal", "clamp")


def judge_plugs(scene: Scene) -> Iterator[Harm]:
    """Mates, taken ports, tags, languages and wires."""
    for label, lead in sorted(scene.leads.items()):
        wrong = [
            end
            for end, place in lead.plugged.items()
            if not do_mate((scene.ports[place].connector, scene.ports[place].sex), lead.ends[end], scene.shelf)
        ]
        if wrong:
            yield Harm("no-mate", label)
        elif _is_misplaced(scene, label, lead):
            yield Harm("wrong-port", label)
        elif _lacks_wire(scene, lead):
            yield Harm("no-wire", label)
    for first, second in scene.docks:
        near, far = scene.ports[first], scene.ports[second]
        if not do_mate((near.connector, near.sex), (far.connector, far.sex), scene.shelf):
            yield Harm("no-mate", first)
    yield from _judge_taken(scene)


def _judge_taken(scene: Scene) -> Iterator[Harm]:
    used = Counter(place for lead in scene.leads.values() for place in lead.plugged.values())
    used += Counter(place for dock in scene.docks for place in dock)
    for place, count in sorted(used.items()):
        if count > 1 and not scene.ports[place].connector.startswith(_SEVERAL):
            yield Harm("taken", place)


def _is_misplaced(scene: Scene, label: str, lead: LeadReading) -> bool:
    """A tag that differs from its port's; a port that speaks nothing of what is carried there; no common language."""
    body = _find_body(scene, label)
    for end, place in lead.plugged.items():
        item, port = split(place)
        tags = body["ends"][end].get("tag") if body else None, scene.parts[item]["ports"][port].get("tag")
        if None not in tags and tags[0] != tags[1]:
            return True
        made_for = _list_made_for(lead, end)
        if made_for and not set(made_for) & set(scene.ports[place].speaks) and not _only_feeds(scene, lead):
            return True
    return False


def _only_feeds(scene: Scene, lead: LeadReading) -> bool:
    """Whether a data lead joins the feed of an output to that of an input: then it may only power something."""
    for one in lead.conductors:
        if one.source[0] in lead.plugged and one.target[0] in lead.plugged:
            ports = scene.ports[lead.plugged[one.source[0]]], scene.ports[lead.plugged[one.target[0]]]
            feeds = one.source[1] in ports[0].feeds and one.target[1] in ports[1].feeds
            if feeds and any(port.is_input for port in ports):
                return True
    return False


def _list_made_for(lead: LeadReading, end: str) -> list[str]:
    if isinstance(lead.carries, dict):
        return [name for name, ends in lead.carries.items() if end in ends]
    return as_list(lead.carries)


def _find_body(scene: Scene, label: str) -> Tree | None:
    entry = scene.lead_entry(label)
    return scene.shelf.part(entry["part"]) if "part" in entry else entry.get("lead")


def _lacks_wire(scene: Scene, lead: LeadReading) -> bool:
    """Ends of one language, made for it, of which no language at all is wired through."""
    ends = list(lead.plugged)
    for n, one in enumerate(ends):
        for other in ends[n + 1 :]:
            ports = scene.ports[lead.plugged[one]], scene.ports[lead.plugged[other]]
            shared = [name for name in ports[0].speaks if name in ports[1].speaks and name != "usb-pd"]
            made = [name for name in shared if is_made_for(lead, name, one, other)]
            wires = [scene.shelf.protocols[name].get("wires", []) for name in made]
            if any(are_wired(lead, ports, one, other, needed) for needed in wires):
                continue
            # A lead that nobody described is a data lead where some of the wires are there.
            begun = [signal for needed in wires for signal in needed if signal != "minus"]
            if made and (lead.carries is not None or any(are_wired(lead, ports, one, other, [one_]) for one_ in begun)):
                return True
    return False


def judge_levels(scene: Scene) -> Iterator[Harm]:
    """Record and other contacts joined to one of another kind, or to more volts than they survive."""
    for label, lead in sorted(scene.leads.items()):
        copper: networkx.Graph[tuple[str, str]] = networkx.Graph()
        copper.add_edges_from((one.source, one.target) for one in lead.conductors)
        for near, far in _list_joined(scene, lead, copper):
            gives, takes = _find_level(scene, near), _find_level(scene, far)
            limit = read_range(takes["survives"])[1] if "survives" in takes else 3.6
            if gives.get("gives", "closure") != "closure" and read_amount(gives["gives"]) > limit:
                yield Harm("level", label)
            if "gives" in gives and "takes" in takes and _differ(gives, takes):
                yield Harm("record-kind", label)


def _differ(gives: Tree, takes: Tree) -> bool:
    kinds = [("closure" if level == "closure" else "volts") for level in (gives["gives"], takes["takes"])]
    return kinds[0] != kinds[1] or gives.get("as") != takes.get("as")


def _list_joined(
    scene: Scene, lead: LeadReading, copper: networkx.Graph[tuple[str, str]]
) -> Iterator[tuple[tuple[str, str], tuple[str, str]]]:
    """(place, contact) of two signal contacts that a lead joins."""
    contacts = [
        (end, contact, place)
        for end, place in lead.plugged.items()
        if do_mate((scene.ports[place].connector, scene.ports[place].sex), lead.ends[end], scene.shelf)
        for contact in scene.ports[place].pins
        if contact not in scene.ports[place].feeds and contact not in scene.ports[place].minus
    ]
    for one in contacts:
        for other in contacts:
            a, b = one[:2], other[:2]
            if a[0] != b[0] and a in copper and b in copper and networkx.has_path(copper, a, b):
                yield (one[2], one[1]), (other[2], other[1])


def _find_level(scene: Scene, at: tuple[str, str]) -> Tree:
    place, contact = at
    item, port = split(place)
    levels = scene.parts[item]["ports"][port].get("levels", {})
    found: Tree = levels.get(scene.ports[place].pins[contact], {})
    return found
