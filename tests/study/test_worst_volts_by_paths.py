"""Worst volts on random rigs against a brute force: every simple path from each source, by networkx, from the rig."""

from __future__ import annotations

import random
from collections.abc import Hashable, Iterator
from typing import Any, TypeAlias

import networkx
import pytest

from rigmint.graph.presence import Presence
from rigmint.rig.electric import BridgeKind
from rigmint.rig.rig import PortRef, Rig
from tests.builders import make_rig, make_studies

Node: TypeAlias = tuple[str, ...]
Volts: TypeAlias = dict[Hashable, float]

BOXES, PACKS = 40, 5
PINS = ("{1: plus, 2: minus}", "{1: minus, 2: plus}")
LEADS = {
    "straight": "[{from: a.1, to: b.1}, {from: a.2, to: b.2}]",
    "crossed": "[{from: a.1, to: b.2}, {from: a.2, to: b.1}]",
    "plus": "[{from: a.1, to: b.1}]",
    "minus": "[{from: a.2, to: b.2}]",
    "diode": "[{from: a.1, to: b.1, diode: 0.5 V}, {from: a.2, to: b.2}]",
    "minus-diode": "[{from: a.1, to: b.1}, {from: b.2, to: a.2, diode: 0.6 V}]",
    "regulator": "[{from: a.1, to: b.1, regulator: {out: 8 V, ground: b.2}}, {from: a.2, to: b.2}]",
    "lifting": "[{from: a.1, to: b.1, regulator: {out: 19 V, lifts: true, blocks: true, ground: a.2}}, {from: a.2, to: b.2}]",
}
BODY_DROP = 0.7  # meaning of `blocks` where it is not true


def write_box(rng: random.Random) -> str:
    """A box with two to four rails, bridges between them, and ports on them."""
    rails = [f"r{n}" for n in range(rng.randint(2, 4))]
    bridges = []
    for _ in range(rng.randint(1, 3)):
        source, target = rng.sample(rails, 2)
        kind = rng.choice(["wire", "switch", "diode", "regulator", "regulator"])
        body = f"from: {source}, to: {target}, by: {kind}"
        if kind == "diode":
            body += f", drop: {rng.choice(['0.3', '0.7'])} V"
        if kind == "regulator":
            body += f", out: {rng.choice(['5', '8', '12', '24'])} V" + rng.choice(
                ["", ", lifts: true", ", takes: 9 to 30 V"]
            )
            body += rng.choice(["", ", blocks: true", ", blocks: false"])
        bridges.append(f"{{{body}}}")
    ports = [
        f"p{n}: {{connector: 0b-2, rail: {rng.choice(rails)}, pins: {rng.choices(PINS, [6, 1])[0]}"
        f"{rng.choice(['', '', '', ', isolated: true'])}}}"
        for n in range(3)
    ]
    return (
        f"{{kind: accessory, rails: {{{', '.join(f'{rail}: {{}}' for rail in rails)}}}, "
        f"bridges: [{', '.join(bridges)}], ports: {{{', '.join(ports)}}}}}"
    )


def write_parts() -> str:
    """A pool of boxes, packs and leads."""
    rng = random.Random(1)
    boxes = [f"house/box-{n}: {write_box(rng)}" for n in range(BOXES)]
    packs = [
        f"house/pack-{n}: {{kind: battery, cells: {{c: {{volts: 6 to {7 + 4 * n} V}}}}, ports: {{p0: {{connector: 0b-2, pins: {PINS[0]}}}}}}}"
        for n in range(PACKS)
    ]
    ends = "{a: {connector: 0b-2}, b: {connector: 0b-2}}"
    leads = [f"house/lead-{name}: {{kind: lead, ends: {ends}, conductors: {wires}}}" for name, wires in LEADS.items()]
    return "\n".join([*boxes, *packs, *leads])


PARTS = write_parts()


def write_rig(seed: int) -> str:
    """One or two packs, two to four boxes, three to six leads between random ports; one item may be off."""
    rng = random.Random(seed)
    packs = [f"pack{n}: house/pack-{rng.randrange(PACKS)}" for n in range(rng.randint(1, 2))]
    boxes = [f"box{n}: house/box-{rng.randrange(BOXES)}" for n in range(rng.randint(2, 4))]
    ports = [f"box{n}.p{port}" for n in range(len(boxes)) for port in range(3)]
    leads = [f"pack{n}.p0 > {rng.choice(ports)}" for n in range(len(packs))]
    leads = [f"{{part: house/lead-straight, from: {lead.replace(' > ', ', to: ')}}}" for lead in leads]
    for _ in range(rng.randint(2, 4)):
        near, far = rng.sample(ports, 2)
        kind = rng.choices(list(LEADS), [8, 1, 1, 2, 2, 1, 2, 2])[0]
        leads.append(f"{{part: house/lead-{kind}, from: {near}, to: {far}}}")
    labelled = ", ".join(f"L{n}: {lead}" for n, lead in enumerate(leads))
    off = rng.choice(["", "off: [box0]", f"off: [pack{len(packs) - 1}]"])
    return f"kit: {{{', '.join([*packs, *boxes])}}}\nleads: {{{labelled}}}\nsetups: {{s: {{{off}}}}}"


class Steps:
    """The rig as metal (nodes that are one net) and as steps between nets, read from the rig alone."""

    def __init__(self, rig: Rig) -> None:
        self.metal: networkx.Graph[Node] = networkx.Graph()
        self.diodes: list[tuple[Node, Node, float]] = []
        self.regulators: list[tuple[Node, Node, Node, float, float, bool]] = []
        for name, item in rig.items.items():
            self._add_item(name, item.part)
        for label, lead in rig.leads.items():
            self._add_lead(label, lead)
        self.net: dict[Node, int] = {
            node: number for number, nodes in enumerate(networkx.connected_components(self.metal)) for node in nodes
        }

    def _add_item(self, name: str, part: Any) -> None:
        ground = (name, "ground")
        self.metal.add_node(ground)
        self.metal.add_nodes_from((name, "rail", rail) for rail in part.rails)
        for port in part.ports.values():
            minus = (name, port.name, "own minus") if port.isolated else ground
            for contact, role in port.pins.items():
                self.metal.add_edge((name, port.name, contact), minus if role == "minus" else (name, "rail", port.rail))
        for bridge in part.bridges:
            ends = (name, "rail", bridge.source), (name, "rail", bridge.target)
            if bridge.kind is BridgeKind.DIODE:
                self.diodes.append((*ends, bridge.drop))
            elif bridge.kind is BridgeKind.REGULATOR:
                spec = bridge.regulator
                self.regulators.append((*ends, ground, spec.out, spec.takes.low, spec.blocks is True))
            else:
                self.metal.add_edge(*ends)

    def _add_lead(self, label: str, lead: Any) -> None:
        for end, ref in lead.plugged.items():
            for contact in ("1", "2"):
                self.metal.add_edge((label, end, contact), (ref.item, ref.port, contact))
        for wire in lead.body.conductors:
            ends = (label, wire.source.end, wire.source.contact), (label, wire.target.end, wire.target.contact)
            if wire.diode is not None:
                self.diodes.append((*ends, wire.diode))
            elif wire.regulator is not None:
                ground, spec = (label, wire.ground.end, wire.ground.contact), wire.regulator
                self.regulators.append((*ends, ground, spec.out, spec.takes.low, spec.blocks is True))
            else:
                self.metal.add_edge(*ends)

    def find_minus(self, start: Node) -> Volts:
        """Net to the lowest potential from which current returns to a source's minus."""
        graph: networkx.MultiDiGraph[int] = networkx.MultiDiGraph()
        graph.add_nodes_from(self.net.values())
        for anode, cathode, drop in self.diodes:
            graph.add_edge(self.net[cathode], self.net[anode], rises=drop)
        reached: Volts = {self.net[start]: 0.0}
        for path in list_edge_paths(graph, self.net[start]):
            volts = sum(graph.edges[edge]["rises"] for edge in path)
            reached[path[-1][1]] = min(volts, reached.get(path[-1][1], volts))
        return reached

    def find_plus(self, start: Node, volts: float, minus: Volts) -> Volts:
        """Net to the highest potential that a source's plus brings, over every path that comes to no net twice."""
        graph: networkx.MultiDiGraph[int] = networkx.MultiDiGraph()
        graph.add_nodes_from(self.net.values())
        for anode, cathode, drop in self.diodes:
            graph.add_edge(self.net[anode], self.net[cathode], drop=drop)
        for source, output, ground, out, least, blocks in self.regulators:
            if not blocks:
                graph.add_edge(self.net[output], self.net[source], drop=BODY_DROP)
            if self.net[ground] in minus:
                base = minus[self.net[ground]]
                graph.add_edge(self.net[source], self.net[output], gives=base + out, needs=base + least)
        reached: Volts = {self.net[start]: volts}
        for path in list_edge_paths(graph, self.net[start]):
            here = walk(graph, path, volts)
            if here is not None:
                reached[path[-1][1]] = max(here, reached.get(path[-1][1], here))
        return reached

    def is_shorted(self, plus_pin: Node, minus_pin: Node, plus: Volts, minus: Volts) -> bool:
        """Whether a source's plus meets its minus, on one net or behind a regulator."""
        meets = any(net in minus and volts > minus[net] + 0.1 for net, volts in plus.items())
        behind = any(self.net[o] == self.net[g] and self.net[s] in plus for s, o, g, *_ in self.regulators)
        return self.net[plus_pin] == self.net[minus_pin] or meets or behind


def list_edge_paths(graph: Any, start: int) -> Iterator[list[tuple[int, int, int]]]:
    """Every simple path from a net, as edges."""
    for goal in networkx.descendants(graph, start):
        yield from networkx.all_simple_edge_paths(graph, start, goal)


def walk(graph: Any, path: list[tuple[int, int, int]], volts: float) -> float | None:
    """The potential at the end of a path; None where a regulator on it gets too little."""
    for edge in path:
        step = graph.edges[edge]
        if "gives" not in step:
            volts -= step["drop"]
        elif volts < step["needs"]:
            return None
        else:
            volts = step["gives"]
    return volts


def judge_by_paths(rig: Rig, off: frozenset[str]) -> tuple[set[str], dict[str, tuple[float, float]]]:
    """The sources that are shorted, and of each port that gets volts the lowest and the highest."""
    steps = Steps(rig)
    shorted: set[str] = set()
    found: dict[str, list[float]] = {}
    for name, item in rig.items.items():
        for cell in item.part.cells.values():
            if name in off:
                continue
            plus_pin, minus_pin = (name, "rail", cell.rail), (name, "ground")
            minus = steps.find_minus(minus_pin)
            plus = steps.find_plus(plus_pin, cell.volts.high, minus)
            if steps.is_shorted(plus_pin, minus_pin, plus, minus):
                shorted.add(name)
                continue
            for place, feed, ret in list_ports(rig, steps):
                if feed in plus and ret in minus:
                    found.setdefault(place, []).append(plus[feed] - minus[ret])
                elif feed in minus and ret in plus:
                    found.setdefault(place, []).append(minus[feed] - plus[ret])
    return shorted, {place: (min(volts), max(volts)) for place, volts in found.items()}


def list_ports(rig: Rig, steps: Steps) -> Iterator[tuple[str, int, int]]:
    """Place, net of the feed and net of the minus of every port."""
    for name, item in rig.items.items():
        for port in item.part.ports.values():
            by_role = {role: steps.net[name, port.name, contact] for contact, role in port.pins.items()}
            yield f"{name}.{port.name}", by_role["plus"], by_role["minus"]


@pytest.mark.parametrize("first", range(0, 200, 50))
def test_200_random_rigs(first: int) -> None:
    differing = []
    outcomes = set()
    for seed in range(first, first + 50):
        rig = make_rig(write_rig(seed), PARTS)
        setup = rig.setups["s"]
        studies, _ = make_studies(write_rig(seed), PARTS)
        worst = studies.worst_volts(setup)
        shorted = {reach.source.item for reach in worst.shorts}
        volts = {
            ref.place: (found.low.volts, found.high.volts)
            for ref, found in worst.ports.items()
            if found.low is not None and found.high is not None
        }
        expected_shorts, expected_volts = judge_by_paths(rig, Presence.of(setup).off)
        outcomes.add((bool(shorted), bool(volts)))
        if shorted != expected_shorts or volts != {k: pytest.approx(v) for k, v in expected_volts.items()}:
            differing.append((seed, shorted, expected_shorts, volts, expected_volts))

    assert differing == []
    assert {(True, False), (False, True)} <= outcomes


@pytest.mark.parametrize("first", range(0, 200, 50))
def test_ways_lead_over_metal_from_the_source_to_the_port(first: int) -> None:
    for seed in range(first, first + 50):
        studies, setup = make_studies(write_rig(seed), PARTS)
        worst = studies.worst_volts(setup)
        for ref, found in worst.ports.items():
            if found.high is None:
                continue
            way = worst.way_to(ref, found.high)

            assert (way.places[0], PortRef(*way.places[-1].split("."))) == (found.high.source.item, ref)
            assert set(way.leads) <= setup.leads
