"""What volts can be where: from each source at its fullest, by relaxing potentials over nets until nothing changes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import networkx

from tests.power.amounts import read_amount, read_range
from tests.power.elements import Wiring
from tests.power.files import Tree
from tests.power.parts import PortReading, plus_rail
from tests.seeding.judge.harm import Harm
from tests.seeding.judge.scene import Scene

BODY_DROP = 0.7
_BARE = frozenset({"plate", "breakout", "cage", "rods", "carrier", "counterweight", "matte_box"})
_SHORT, _REVERSED, _MARGIN, _PRESENT, _SHOCK = 0.1, -0.3, 0.3, 0.5, 60.0


@dataclass(frozen=True, slots=True)
class Field:
    """Potentials that one source brings to nets: highest by its plus, lowest from which its minus is come to."""

    source: int
    plus: dict[int, float]
    minus: dict[int, float]
    shorted: bool


class Nets:
    """The wiring's metal as nets, and each source's field over them."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.net = number_nets(scene.wiring)

    def field(self, source: int, volts: float) -> Field:
        """The field of one source at these volts."""
        wiring, net = self.scene.wiring, self.net
        one = wiring.sources[source]
        minus = {net[one.minus]: 0.0}
        for _ in range(len(wiring.diodes) + 1):
            for diode in wiring.diodes:
                if net[diode.cathode] in minus:
                    rise = minus[net[diode.cathode]] + diode.drop
                    minus[net[diode.anode]] = min(rise, minus.get(net[diode.anode], rise))
        plus = {net[one.plus]: volts}
        changed = True
        while changed:
            before = dict(plus)
            self._relax(plus, minus)
            changed = plus != before
        return Field(source, plus, minus, self._is_shorted(source, plus, minus))

    def _relax(self, plus: dict[int, float], minus: dict[int, float]) -> None:
        wiring, net = self.scene.wiring, self.net

        def raise_to(node: int, volts: float) -> None:
            plus[node] = max(volts, plus.get(node, volts))

        for diode in wiring.diodes:
            if net[diode.anode] in plus:
                raise_to(net[diode.cathode], plus[net[diode.anode]] - diode.drop)
        for index, one in enumerate(wiring.regulators):
            source, target, ground = net[one.input], net[one.output], net[one.ground]
            base = minus.get(ground)
            if source in plus and base is not None and plus[source] >= base + one.takes[0]:
                raise_to(target, base + one.out)
            if self.scene.blocks[index] == "false" and target in plus:
                raise_to(source, plus[target] - BODY_DROP)

    def _is_shorted(self, source: int, plus: dict[int, float], minus: dict[int, float]) -> bool:
        one, net = self.scene.wiring.sources[source], self.net
        if net[one.plus] == net[one.minus]:
            return True
        if any(node in minus and volts > minus[node] + _SHORT for node, volts in plus.items()):
            return True
        regulators = self.scene.wiring.regulators
        return any(net[each.output] == net[each.ground] and net[each.input] in plus for each in regulators)


def number_nets(wiring: Wiring) -> dict[str, int]:
    """Node to net."""
    metal: networkx.Graph[str] = networkx.Graph()
    metal.add_edges_from(wiring.joined)
    metal.add_edges_from((wire.a, wire.b) for wire in wiring.wires)
    metal.add_edges_from((mate.other, mate.device) for mate in wiring.mates)
    metal.add_nodes_from(node for pair in wiring.tied for node in pair)
    for source in wiring.sources:
        metal.add_nodes_from((source.plus, source.minus))
    for diode in wiring.diodes:
        metal.add_nodes_from((diode.anode, diode.cathode))
    for one in wiring.regulators:
        metal.add_nodes_from((one.input, one.output, one.ground))
    return {node: n for n, nodes in enumerate(networkx.connected_components(metal)) for node in nodes}


def judge_volts(scene: Scene) -> Iterator[Harm]:
    """Shorts, and ports and contacts that volts destroy, reverse or lift out of their window. `scene`: all closed."""
    nets = Nets(scene)
    sources = range(len(scene.wiring.sources))
    worst = [nets.field(n, scene.most[n]) for n in sources]
    nominal = [nets.field(n, scene.wiring.sources[n].volts["typical"]) for n in sources]
    for field in worst:
        item = scene.wiring.sources[field.source].place.partition(".")[0]
        if field.shorted:
            yield Harm("shorted", item)
        elif max(field.plus.values()) > _SHOCK:
            yield Harm("shock", item)
    for place in sorted(scene.ports):
        item, _, name = place.partition(".")
        if item in scene.parts:
            yield from _judge_port(nets, place, scene.parts[item], scene.parts[item]["ports"][name], worst, nominal)


def _judge_port(
    nets: Nets, place: str, part: Tree, body: Tree, worst: list[Field], nominal: list[Field]
) -> Iterator[Harm]:
    port = nets.scene.ports[place]
    electronic = has_electronics(part)
    if port.has_power:
        low, high = _measure(nets, place, port, worst)
        limits = find_survival(body, port)
        if limits is not None and high > limits[1] and (electronic or "survives" in body):
            yield Harm("over", place)
        bottom = limits[0] if limits is not None else _REVERSED
        destroyed = low < bottom - _MARGIN
        if low < _REVERSED - _MARGIN and (electronic or ("survives" in body and destroyed)):
            yield Harm("reversed", place)
        lasting = _measure(nets, place, port, nominal)[1]
        survived = limits is None or high <= limits[1]
        if port.works and port.is_input and electronic and survived and lasting > port.works[1]:
            yield Harm("above", place)
    yield from _judge_signals(nets, place, port, body, worst)


def _measure(nets: Nets, place: str, port: PortReading, fields: list[Field]) -> tuple[float, float]:
    """The lowest and the highest volts of any feed contact against minus; 0 where nothing comes."""
    found = [0.0]
    minus = nets.net.get(f"{place}.{port.minus[0]}")
    for field in fields:
        for contact in port.feeds:
            feed = nets.net.get(f"{place}.{contact}")
            if field.shorted or feed is None or minus is None:
                continue
            if feed in field.plus and minus in field.minus:
                found.append(field.plus[feed] - field.minus[minus])
            elif feed in field.minus and minus in field.plus:
                found.append(field.minus[feed] - field.plus[minus])
    return min(found), max(found)


def _judge_signals(nets: Nets, place: str, port: PortReading, body: Tree, worst: list[Field]) -> Iterator[Harm]:
    ground = f"{place}.{port.minus[0]}" if port.minus else f"{place.partition('.')[0]}|ground"
    for contact, role in port.pins.items():
        node = nets.net.get(f"{place}.{contact}")
        if contact in port.feeds or contact in port.minus or role == "plus" or node is None:
            continue
        level = body.get("levels", {}).get(role, {})
        limit = read_range(level["survives"])[1] if "survives" in level else 3.6
        for field in worst:
            reference = nets.net.get(ground)
            if field.shorted or node not in field.plus or reference not in field.minus:
                continue
            if reference is not None and field.plus[node] - field.minus[reference] > limit:
                yield Harm("signal", place)
                break


def has_electronics(part: Tree) -> bool:
    """Whether anything behind the ports of a part can be hurt: not in a bare plate or breakout."""
    if part["kind"] not in _BARE:
        return True
    active = any(bridge["by"] in ("regulator", "diode") for bridge in part.get("bridges", ()))
    loads = any(isinstance(rail, dict) and "load" in rail for rail in (part.get("rails") or {}).values())
    return active or bool(part.get("cells")) or loads


def find_survival(body: Tree, port: PortReading) -> tuple[float, float] | None:
    """What a port survives: as stated, else up to 10 % above its window, else 5.5 V on a bare USB-C socket."""
    if "survives" in body:
        return read_range(body["survives"])
    if port.works is not None:
        return -0.3, port.works[1] * 1.1
    return (-0.3, 5.5) if port.connector == "usb-c" else None


def judge_feeding_outputs(scene: Scene) -> Iterator[Harm]:
    """Outputs that a source of another device reaches from outside, and sources that meet. `scene`: all closed."""
    nets = Nets(scene)
    fields = [nets.field(n, scene.most[n]) for n in range(len(scene.wiring.sources))]
    for place, port in scene.ports.items():
        item = place.partition(".")[0]
        if item not in scene.parts or port.is_input or not port.has_power:
            continue
        for field in fields:
            source = scene.wiring.sources[field.source]
            if field.shorted or source.place.partition(".")[0] == item:
                continue
            volts = _measure(nets, place, port, [field])[1]
            takes = volts > _PRESENT and _takes_current(scene.parts[item], port, volts)
            if takes and _comes_from_outside(nets, field, item, place, port):
                yield Harm("backfeed", place)
                break
    yield from _judge_tied(nets, fields)


def _takes_current(part: Tree, port: PortReading, volts: float) -> bool:
    """Whether current into an output goes on inside: into a cell, a load over 1 W or an unblocking regulator."""
    pending, seen = list(port.feeds.values()), set()
    while pending:
        rail = pending.pop()
        if rail in seen:
            continue
        seen.add(rail)
        load = ((part.get("rails") or {}).get(rail) or {}).get("load")
        if load is not None and (read_amount(load) * (1.0 if load.endswith("W") else 12.0)) > 1.0:
            return True
        for cell in part.get("cells", {}).values():
            if plus_rail(part, cell.get("rail")) == rail and volts > read_range(cell["volts"])[0]:
                return True
        for bridge in part.get("bridges", ()):
            if bridge["by"] in ("wire", "switch") and rail in (bridge["from"], bridge["to"]):
                pending += [bridge["from"], bridge["to"]]
            elif bridge["from"] == rail:
                pending.append(bridge["to"])
            elif bridge["by"] == "regulator" and bridge["to"] == rail and bridge.get("blocks") == "false":
                return True
    return False


def _comes_from_outside(nets: Nets, field: Field, item: str, place: str, port: PortReading) -> bool:
    """Whether a way from the source comes in through the port's own mate, not through its part."""
    wiring = nets.scene.wiring
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    both = list(wiring.joined) + [(wire.a, wire.b) for wire in wiring.wires]
    both += [(mate.other, mate.device) for mate in wiring.mates]
    graph.add_edges_from(both)
    graph.add_edges_from((b, a) for a, b in both)
    graph.add_edges_from((diode.anode, diode.cathode) for diode in wiring.diodes)
    for index, one in enumerate(wiring.regulators):
        graph.add_edge(one.input, one.output)
        if nets.scene.blocks[index] == "false":
            graph.add_edge(one.output, one.input)
    goals = {f"{place}.{contact}" for contact in port.feeds}

    def is_open(node: str) -> bool:
        own = node.startswith((f"{item}.", f"{item}|"))
        return (node in goals or not own) and nets.net[node] in field.plus

    start = wiring.sources[field.source].plus
    seen = networkx.subgraph_view(graph, filter_node=is_open)
    return start in seen and any(goal in seen and networkx.has_path(seen, start, goal) for goal in goals)


def _judge_tied(nets: Nets, fields: list[Field]) -> Iterator[Harm]:
    sources = nets.scene.wiring.sources
    for giving in fields:
        for number, taker in enumerate(sources):
            giver = sources[giving.source]
            if giving.shorted or giver.place.partition(".")[0] == taker.place.partition(".")[0]:
                continue
            plus, minus = nets.net[taker.plus], nets.net[taker.minus]
            if plus not in giving.plus or minus not in giving.minus:
                continue
            spare = nets.scene.most[giving.source] - giver.volts["full"]
            volts = giving.plus[plus] - giving.minus[minus] - max(0.0, spare) - nets.scene.lowest[number]
            if volts > 0 and nets.scene.charge[number] == 0.0:
                yield Harm("tied", taker.place.partition(".")[0])
