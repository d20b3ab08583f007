"""Claims on random rigs against an enumeration by networkx, for every combination of the unknown settings."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from itertools import product
from typing import Any, TypeAlias

import networkx
import pytest

from rigmint.rig.rig import Rig, Setup
from rigmint.study.claims import Arrival, find_arrivals
from tests.builders import make_studies

Node: TypeAlias = tuple[str, str, str]  # item, name, kind of signal
Values: TypeAlias = Mapping[tuple[str, str], str | None]
Hold: TypeAlias = tuple[str, str, str, str, str]  # control, axis, mover, sent as, arriving as

POOL = 40
PROTOCOLS = ("lens-bus", "head-bus", "run-closure")
AIR = ("lens-air", "head-air")
AXES = ("focus", "iris", "pan", "record")
KINDS = ("absolute", "rate", "trigger")
PORTS = ("p0", "p1", "p2")
WIRES = {"d_plus": "1", "d_minus": "2", "trigger": "3", "minus": "4"}


def write_part(rng: random.Random) -> str:
    """A device with two controls, two movers, three ports, a radio, and passes at random between them."""

    def some(words: tuple[str, ...], most: int) -> str:
        return f"[{', '.join(rng.sample(words, rng.randint(1, most)))}]"

    def axis() -> str:
        return rng.choice([some(AXES, 3), some(AXES, 2), "{setting: which}"])

    def when() -> str:
        return rng.choice(["", "", ", when: {switch: on}", ", when: {which: [focus, iris]}"])

    defaults = rng.choice(["", ", default: on"]), rng.choice(["", ", default: focus", ", default: none"])
    controls = [f"c{n}: {{sends: {rng.choice(KINDS)}, axis: {axis()}{when()}}}" for n in range(2)]
    movers = [f"m{n}: {{axis: {axis()}{rng.choice(['', f', takes: {some(KINDS, 2)}'])}{when()}}}" for n in range(2)]
    ports = [
        f"{port}: {{connector: 0b-4, pins: {{1: d_plus, 2: d_minus, 3: trigger, 4: minus}}, speaks: {some(PROTOCOLS, 3)}}}"
        for port in PORTS
    ]
    passes = []
    for _ in range(rng.randint(3, 6)):
        sources, targets = some(("c0", "c1", *PORTS, "air"), 3), some((*PORTS, "air", "m0", "m1"), 3)
        what = rng.choice(["", "", f", axes: {axis()}"])
        turned = rng.choice(["", "", "", f", as: {rng.choice(KINDS)}"])
        passive = rng.choice(["", "", "", ", passive: true"])
        passes.append(f"{{from: {sources}, to: {targets}{what}{turned}{when()}{passive}}}")
    return (
        f"{{kind: accessory, settings: {{switch: {{values: [on, off]{defaults[0]}}},"
        f" which: {{values: [focus, iris, none]{defaults[1]}}}}}, controls: {{{', '.join(controls)}}},"
        f" moves: {{{', '.join(movers)}}}, ports: {{{', '.join(ports)}}},"
        f" radios: {{air: {{speaks: {some(AIR, 2)}, peers: {rng.randint(1, 2)}}}}}, passes: [{', '.join(passes)}]}}"
    )


def write_parts() -> str:
    """A pool of devices and of leads that lack a wire or a protocol."""
    rng = random.Random(2)
    devices = [f"house/device-{n}: {write_part(rng)}" for n in range(POOL)]
    ends = "{a: {connector: 0b-4}, b: {connector: 0b-4}, c: {connector: 0b-4}}"
    leads = []
    for n in range(8):
        wires = rng.sample(list(WIRES.values()), rng.choice([2, 3, 4, 4, 4]))
        far = rng.choice(["b", "c"])
        conductors = [f"{{from: a.{wire}, to: {end}.{wire}}}" for wire in wires for end in ("b", far)]
        carries = rng.choice(
            ["", ", carries: [lens-bus, head-bus]", ", carries: {lens-bus: [a, b], run-closure: [a, c]}"]
        )
        leads.append(f"house/lead-{n}: {{kind: lead, ends: {ends}, conductors: [{', '.join(conductors)}]{carries}}}")
    return "\n".join([*devices, *leads])


PARTS = write_parts()


def write_rig(seed: int) -> str:
    """Three to five devices, leads, docks and links between them, some settings stated, one device off."""
    rng = random.Random(seed)
    count = rng.randint(3, 5)
    kit = [f"d{n}: house/device-{rng.randrange(POOL)}" for n in range(count)]
    ports = [f"d{n}.{port}" for n in range(count) for port in PORTS]
    rng.shuffle(ports)
    leads = []
    for n in range(rng.randint(2, 4)):
        if rng.random() < 0.4:
            leads.append(f"L{n}: {ports.pop()} > {ports.pop()}")
        else:
            ends = ", ".join(f"{end}: {ports.pop()}" for end in "abc"[: rng.randint(2, 3)] if ports)
            leads.append(f"L{n}: {{part: house/lead-{rng.randrange(8)}, ends: {{{ends}}}}}")
        if len(ports) < 3:
            break
    docks = [f"{ports.pop()} > {ports.pop()}"] if len(ports) > 1 else []
    links = [f"l{n}: {{between: [{', '.join(f'd{m}.air' for m in rng.sample(range(count), rng.randint(2, 3)))}]}}"
             for n in range(rng.randint(0, 2))]  # fmt: skip
    stated = [f"d{n}.switch: {rng.choice(['on', 'off'])}" for n in range(count) if rng.random() < 0.5]
    stated += [f"d{n}.which: {rng.choice(['focus', 'iris', 'none'])}" for n in range(count) if rng.random() < 0.6]
    off = rng.choice(["", "", "off: [d0]"])
    return (
        f"kit: {{{', '.join(kit)}}}\nleads: {{{', '.join(leads)}}}\ndocks: [{', '.join(docks)}]\n"
        f"links: {{{', '.join(links)}}}\nsettings: {{{', '.join(stated)}}}\nsetups: {{s: {{{off}}}}}"
    )


class Enumeration:
    """What each control reaches, on a graph of its own for each axis and each combination of settings."""

    def __init__(self, rig: Rig, setup: Setup, values: Values) -> None:
        self.rig, self.setup, self.values = rig, setup, values

    def holds(self, item: str, when: Mapping[str, tuple[str, ...]]) -> bool:
        return all(self.values[item, name] in words for name, words in when.items())

    def words(self, item: str, choice: Any) -> tuple[str, ...]:
        if choice.setting is None:
            return tuple(choice.words)
        value = self.values[item, choice.setting]
        return () if value in (None, "none") else (value,)

    def carriers(self, axis: str) -> set[str]:
        return {name for name, protocol in self.rig.protocols.items() if axis in protocol.carries}

    def build(self, axis: str) -> networkx.DiGraph[Node]:
        """The graph of one axis; an edge leads from a place in a kind to the next."""
        graph: networkx.DiGraph[Node] = networkx.DiGraph()
        for one, other in [*self.list_passes(axis), *self.list_mates(axis), *self.list_links(axis)]:
            graph.add_edge(one, other)
        return graph

    def list_passes(self, axis: str) -> Iterator[tuple[Node, Node]]:
        for name in self.setup.items:
            part = self.rig.items[name].part
            ends = {name: one.speaks for name, one in part.ports.items()}
            ends |= {name: one.speaks for name, one in part.radios.items()}
            speaks = {end: set(words) & self.carriers(axis) for end, words in ends.items()}
            for one in part.passes:
                if (name in self.setup.off and not one.passive) or not self.holds(name, one.when):
                    continue
                if one.axes is not None and axis not in self.words(name, one.axes):
                    continue
                for source, target, kind in product(one.sources, one.targets, KINDS):
                    free = one.axes is not None or all(speaks.get(end, True) for end in (source, target))
                    if source != target and free:
                        yield (name, source, kind), (name, target, one.becomes or kind)

    def list_mates(self, axis: str) -> Iterator[tuple[Node, Node]]:
        for label in self.setup.leads:
            lead = self.rig.leads[label]
            for one, other in product(lead.plugged, repeat=2):
                if one != other and self.passes_over(lead, one, other, axis):
                    ends = lead.plugged[one], lead.plugged[other]
                    for kind in KINDS:
                        yield (ends[0].item, ends[0].port, kind), (ends[1].item, ends[1].port, kind)
        for dock in self.rig.docks:
            ports = [self.rig.items[ref.item].part.ports[ref.port] for ref in (dock.first, dock.second)]
            if set(ports[0].speaks) & set(ports[1].speaks) & self.carriers(axis):
                for (near, far), kind in product(((dock.first, dock.second), (dock.second, dock.first)), KINDS):
                    yield (near.item, near.port, kind), (far.item, far.port, kind)

    def passes_over(self, lead: Any, one: str, other: str, axis: str) -> bool:
        ports = [self.rig.items[lead.plugged[end].item].part.ports[lead.plugged[end].port] for end in (one, other)]
        wires: networkx.Graph[tuple[str, str]] = networkx.Graph()
        for end, contact in product(lead.body.ends, WIRES.values()):
            wires.add_node((end, contact))
        for wire in lead.body.conductors:
            wires.add_edge((wire.source.end, wire.source.contact), (wire.target.end, wire.target.contact))
        for name in set(ports[0].speaks) & set(ports[1].speaks) & self.carriers(axis):
            carries = lead.body.carries
            made_for = carries is None or any(
                carry.protocol == name and (carry.ends is None or {one, other} <= carry.ends) for carry in carries
            )
            needed = [WIRES[wire] for wire in self.rig.protocols[name].wires]
            if made_for and all(networkx.has_path(wires, (one, contact), (other, contact)) for contact in needed):
                return True
        return False

    def list_links(self, axis: str) -> Iterator[tuple[Node, Node]]:
        held: dict[str, int] = {}
        for name in sorted(self.setup.links):
            hub, *others = self.rig.links[name].radios
            radio = self.rig.items[hub.item].part.radios[hub.port]
            for other in others:
                if not {hub.item, other.item} & self.setup.off:
                    held[hub.item] = held.get(hub.item, 0) + 1
                far = self.rig.items[other.item].part.radios[other.port]
                if radio.peers is not None and held.get(hub.item, 0) > radio.peers:
                    continue
                if set(radio.speaks) & set(far.speaks) & self.carriers(axis):
                    for (one, two), kind in product(((hub, other), (other, hub)), KINDS):
                        yield (one.item, one.port, kind), (two.item, two.port, kind)

    def enumerate(self) -> dict[Hold, int]:
        """Every hold with the fewest hops by which it comes."""
        found: dict[Hold, int] = {}
        graphs = {axis: self.build(axis) for axis in AXES}
        live = self.setup.items - self.setup.off
        for name in live:
            for control in self.rig.items[name].part.controls.values():
                if not self.holds(name, control.when):
                    continue
                for axis in self.words(name, control.axis):
                    start = (name, control.name, control.sends.value)
                    for (item, place, kind), hops in self.list_reached(graphs[axis], start):
                        mover = self.rig.items[item].part.moves.get(place)
                        if mover is None or item not in live or (mover.takes and kind not in mover.takes):
                            continue
                        if self.holds(item, mover.when) and axis in self.words(item, mover.axis):
                            found[f"{name}.{control.name}", axis, f"{item}.{place}", control.sends.value, kind] = hops
        return found

    @staticmethod
    def list_reached(graph: networkx.DiGraph[Node], start: Node) -> list[tuple[Node, int]]:
        if start not in graph:
            return []
        return list(networkx.single_source_shortest_path_length(graph, start).items())


def name_hold(arrival: Arrival) -> Hold:
    claim = arrival.claim
    return claim.control, arrival.axis, claim.mover, claim.sends.value, claim.arrives.value


def count_hops(arrival: Arrival) -> int:
    """Hops between places; a lead or a link on the way is none of its own."""
    return sum("." in place for place in arrival.claim.path) - 1


def list_combinations(rig: Rig, setup: Setup) -> Iterator[dict[tuple[str, str], str | None]]:
    """Every combination of the settings that nobody states, on top of those that are stated."""
    unknown = [key for key, state in setup.settings.items() if state.value is None]
    domains = [rig.items[item].part.settings[name].values for item, name in unknown]
    for words in product(*domains):
        yield {key: state.value for key, state in setup.settings.items()} | dict(zip(unknown, words, strict=True))


@pytest.mark.parametrize("first", range(0, 300, 25))
def test_300_random_rigs(first: int) -> None:
    differing: list[object] = []
    total = assumed = 0
    for seed in range(first, first + 25):
        studies, setup = make_studies(write_rig(seed), PARTS)
        arrivals = find_arrivals(studies.signals(setup))
        total += len(arrivals)
        assumed += sum(not arrival.claim.is_certain for arrival in arrivals)
        for values in sample_combinations(studies.rig, setup, seed):
            standing = [one for one in arrivals if one.claim.assumes.items() <= values.items()]
            expected = Enumeration(studies.rig, setup, values).enumerate()
            if {name_hold(one) for one in standing} != set(expected):
                differing.append((seed, {name_hold(one) for one in standing} ^ set(expected)))
            too_short = [one for one in standing if count_hops(one) < expected.get(name_hold(one), 0)]
            if too_short or not all_certain_are_shortest(standing, expected, is_only=not has_unknown(setup)):
                differing.append((seed, "hops"))

    assert differing == []
    assert 0 < assumed < total


def sample_combinations(rig: Rig, setup: Setup, seed: int) -> list[dict[tuple[str, str], str | None]]:
    """All combinations, or eight of them where there are more."""
    every = list(list_combinations(rig, setup))
    return every if len(every) <= 8 else random.Random(seed).sample(every, 8)


def has_unknown(setup: Setup) -> bool:
    return any(state.value is None for state in setup.settings.values())


def all_certain_are_shortest(standing: list[Arrival], expected: dict[Hold, int], *, is_only: bool) -> bool:
    """Where nothing is unknown, each claim comes by the fewest hops."""
    return not is_only or all(count_hops(one) == expected[name_hold(one)] for one in standing)
