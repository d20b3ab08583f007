"""Where a signal can go: for one axis or flow, a graph over places of the rig, written from its YAML."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import product
from typing import TypeAlias

import networkx

from tests.power.amounts import read_amount
from tests.power.files import Tree
from tests.power.leads import LeadReading, do_mate
from tests.power.parts import PortReading
from tests.seeding.judge.scene import Scene, as_list

Values: TypeAlias = Mapping[str, str]
"""`item.setting` to value."""
Place: TypeAlias = tuple[str, str]


class SignalGraph:
    """What passes what in one setup, for stated values of its settings."""

    def __init__(self, scene: Scene, values: Values) -> None:
        self.scene, self.values = scene, values
        self.protocols = scene.shelf.protocols

    def holds(self, item: str, when: Tree) -> bool:
        """Whether each setting named has the value, or one of the values."""
        return all(self.values.get(f"{item}.{name}") in as_list(wanted) for name, wanted in when.items())

    def words(self, item: str, choice: object) -> list[str]:
        """The axes that a choice comes to: words, or what a setting says."""
        if isinstance(choice, dict):
            value = self.values.get(f"{item}.{choice['setting']}")
            return [] if value in (None, "none") else [str(value)]
        return [str(word) for word in as_list(choice)]

    def list_passes(self, token: str) -> Iterator[tuple[Place, Place, Tree]]:
        """From, to and body of every pass that hands a token on."""
        for item, part in self.scene.parts.items():
            speaks = {name: as_list(body.get("speaks")) for name, body in part.get("ports", {}).items()}
            speaks |= {name: as_list(body.get("speaks")) for name, body in part.get("radios", {}).items()}
            for body in part.get("passes", ()):
                if item in self.scene.off and body.get("passive") != "true":
                    continue
                if not self.holds(item, body.get("when", {})):
                    continue
                stated = [*self.words(item, body.get("axes")), *as_list(body.get("carries"))]
                is_stated = "axes" in body or "carries" in body
                if is_stated and token not in stated:
                    continue
                for near, far in product(as_list(body["from"]), as_list(body["to"])):
                    free = is_stated or all(self._carries(speaks[end], token) for end in (near, far) if end in speaks)
                    if near != far and free:
                        yield (item, near), (item, far), body

    def _carries(self, names: list[str], token: str) -> bool:
        return any(token in self.protocols[name]["carries"] for name in names)

    def list_hops(self, token: str) -> Iterator[tuple[Place, Place, list[str]]]:
        """From, to and protocols of every lead, dock and link that hands a token on, both ways."""
        for one, other, names in [*self._list_lead_hops(), *self._list_dock_hops(), *self._list_link_hops()]:
            carrying = [name for name in names if token in self.protocols[name]["carries"]]
            if carrying:
                yield one, other, carrying
                yield other, one, carrying

    def _list_lead_hops(self) -> Iterator[tuple[Place, Place, list[str]]]:
        scene = self.scene
        for lead in scene.leads.values():
            ends = [
                end
                for end, place in lead.plugged.items()
                if do_mate((scene.ports[place].connector, scene.ports[place].sex), lead.ends[end], scene.shelf)
            ]
            for n, one in enumerate(ends):
                for other in ends[n + 1 :]:
                    yield (
                        split(lead.plugged[one]),
                        split(lead.plugged[other]),
                        list_protocols(scene, lead, one, other),
                    )

    def _list_dock_hops(self) -> Iterator[tuple[Place, Place, list[str]]]:
        for first, second in self.scene.docks:
            near, far = self.scene.ports[first], self.scene.ports[second]
            if do_mate((near.connector, near.sex), (far.connector, far.sex), self.scene.shelf):
                yield split(first), split(second), sorted(set(near.speaks) & set(far.speaks))

    def _list_link_hops(self) -> Iterator[tuple[Place, Place, list[str]]]:
        held: dict[str, int] = {}
        for _, body in sorted(self.scene.links.items()):
            hub, radios = body["hub"], body["between"]
            if hub not in radios:
                continue
            for other in radios:
                if other == hub:
                    continue
                near, far = find_radio(self.scene, hub), find_radio(self.scene, other)
                if not {split(hub)[0], split(other)[0]} & self.scene.off:
                    held[hub] = held.get(hub, 0) + 1
                if "peers" in near and held.get(hub, 0) > int(near["peers"]):
                    continue
                shared = set(as_list(near.get("speaks"))) & set(as_list(far.get("speaks")))
                yield split(hub), split(other), sorted(shared)


def list_protocols(scene: Scene, lead: LeadReading, one: str, other: str) -> list[str]:
    """The protocols that a lead passes between two of its ends: spoken at both, made for it, and wired."""
    ports = scene.ports[lead.plugged[one]], scene.ports[lead.plugged[other]]
    return [
        name
        for name in sorted(set(ports[0].speaks) & set(ports[1].speaks))
        if is_made_for(lead, name, one, other)
        and are_wired(lead, ports, one, other, scene.shelf.protocols[name].get("wires", []))
    ]


def is_made_for(lead: LeadReading, name: str, one: str, other: str) -> bool:
    """Whether a lead is made to carry a protocol between two ends."""
    carries = lead.carries
    if carries is None:
        return True
    if isinstance(carries, dict):
        return name in carries and {one, other} <= set(carries[name])
    return name in as_list(carries)


def are_wired(
    lead: LeadReading, ports: tuple[PortReading, PortReading], one: str, other: str, wires: list[str]
) -> bool:
    """Whether each signal's contact at one end is joined to the same signal's at the other."""
    copper: networkx.Graph[tuple[str, str]] = networkx.Graph()
    copper.add_edges_from((wire.source, wire.target) for wire in lead.conductors)
    for signal in wires:
        near = [(one, contact) for contact, role in ports[0].pins.items() if role == signal]
        far = [(other, contact) for contact, role in ports[1].pins.items() if role == signal]
        joined = any(a in copper and b in copper and networkx.has_path(copper, a, b) for a, b in product(near, far))
        if not joined:
            return False
    return True


def split(place: str) -> Place:
    """Item and name."""
    item, _, name = place.partition(".")
    return item, name


def find_radio(scene: Scene, place: str) -> Tree:
    """The body of a radio."""
    item, name = split(place)
    body: Tree = scene.parts[item]["radios"][name]
    return body


def rate_of(protocols: Mapping[str, Tree], names: list[str]) -> float:
    """The highest rate among protocols, bit/s; endless where one states none."""
    rates = [_read_rate(protocols[name]["rate"]) if "rate" in protocols[name] else float("inf") for name in names]
    return max(rates, default=float("inf"))


def _read_rate(text: str) -> float:
    number, unit = text.split()
    return float(number) * {"Gbit/s": 1e9, "Mbit/s": 1e6}[unit]


def read_metres(text: str | None) -> float | None:
    """A length in m; None where there is none."""
    return None if text is None else read_amount(text)
