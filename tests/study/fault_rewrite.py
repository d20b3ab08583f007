"""A rig rewritten with one fault, and studied from scratch through the public studies alone: nothing here is shared with
the study of faults but its list of faults."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.presence import Presence
from rigmint.physics.circuit import Collapse, Network
from rigmint.rig.electric import Role
from rigmint.rig.house import House
from rigmint.rig.rig import Rig, Setup
from rigmint.study.fault_outcome import FaultOutcome
from rigmint.study.flows import list_ends
from rigmint.study.power import Point, list_cell_volts, measure_ports
from rigmint.study.powering import Feed, close_switches
from rigmint.study.returns import measure_returns
from rigmint.study.rig_circuit import build_rig_circuit, find_window_low
from rigmint.study.studies import Studies
from rigmint.study.worst_volts import study_worst_volts

PASSIVE = {"plate", "breakout", "cage", "rods", "carrier", "counterweight", "matte_box"}
LEAST_AMPS, LEAST_SHARE, NOTICED, IN_USE = 0.5, 0.3, 0.1, 1e-4
Result = Mapping[str, Any]


def rewrite(rig: Rig, setup: Setup, outcome: FaultOutcome) -> tuple[Rig, Setup]:
    """The rig as its file would say it with the fault."""
    kind, at, conductor = outcome.fault.kind.value, outcome.fault.at, outcome.fault.conductor
    if kind == "lead-out":
        return rig, replace(setup, leads=setup.leads - {at})
    if kind == "link-lost":
        return rig, replace(setup, links=setup.links - {at})
    if kind == "item-off":
        return rig, replace(setup, off=setup.off | {at})
    if kind in ("plus-open", "minus-open"):
        lead = rig.leads[at]
        wires = tuple(wire for wire in lead.body.conductors if wire.index != conductor)
        assert len(wires) == len(lead.body.conductors) - 1
        broken = replace(lead, body=replace(lead.body, conductors=wires))
        return replace(rig, leads=MappingProxyType({**rig.leads, at: broken})), setup
    if kind == "source-flat":
        name, _, cell = at.partition(".")
        part = rig.items[name].part
        cells = {key: one for key, one in part.cells.items() if key != cell}
        twin = replace(rig.items[name], part=replace(part, cells=MappingProxyType(cells)))
        return replace(rig, items=MappingProxyType({**rig.items, name: twin})), setup
    assert kind == "source-out"
    items = setup.items - {at}
    left = replace(
        setup,
        items=items,
        off=setup.off & items,
        leads=frozenset(
            label for label in setup.leads if {ref.item for ref in rig.leads[label].plugged.values()} <= items
        ),
        docks=frozenset(dock.index for dock in rig.docks if dock.index in setup.docks and {dock.first.item, dock.second.item} <= items),
        links=frozenset(
            name for name in setup.links if rig.links[name].radios[0].item in items and sum(ref.item in items for ref in rig.links[name].radios) > 1
        ),
    )  # fmt: skip
    return rig, left


@dataclass(frozen=True)
class State:
    """What the public studies say of a rig. Amounts are V and A."""

    fed: frozenset[tuple[str, str]]
    starved: frozenset[tuple[str, str]]
    low: Mapping[str, float]
    shields: Mapping[str, tuple[str | None, float]]
    gave_way: frozenset[str]


def study_power(rig: Rig, setup: Setup, house: House, gave_way: frozenset[str] = frozenset()) -> State:
    """Power from scratch."""
    studies = Studies(rig, house)
    powering = studies.powering(setup)
    fed = {rail.load.key for rail in powering.rails if rail.feed in (Feed.POWERED, Feed.BY_SHIELD)}
    whole = {rail.load.item for rail in powering.rails if rail.feed is Feed.BY_SHIELD}
    network = build_pin_network(rig, Presence.of(setup))
    standing = study_worst_volts(rig, close_switches(rig, setup, network), setup.off)
    for ref, volts in standing.ports.items():
        is_reached = volts.high is not None or any(
            standing.nets[pin] in reach.plus
            for reach in standing.shorts
            for pin in standing.network.port_pins(ref, tuple(volts.port.feeds))
        )
        if is_reached and volts.port.role is not Role.OUT and is_unrated(rig, ref.item) and ref.item not in setup.off:
            fed.add((ref.item, ""))
    idle = [*studies.worst_volts(setup).list_reversed_loads(), *powering.list_without_return()]
    built = build_rig_circuit(rig, setup, network, house.power.wire_temperature, idle)
    volts, amounts = list_cell_volts(built.sources, Point.TYPICAL, house.power), built.list_amounts({})
    try:
        solution = Network(built.circuit).solve(cell_volts=volts, load_amounts=amounts)
    except Collapse as collapse:
        weak = built.regulators[collapse.regulators[0]].owner if collapse.regulators else None
        if weak is not None and weak not in gave_way:
            return study_power(drop_regulators(rig, weak), setup, house, gave_way | {weak})
        return State(frozenset(fed), frozenset(), {}, {}, gave_way)
    starved = {
        load.key
        for index, load in enumerate(built.loads)
        if index not in built.idle and load.key in fed
        and solution.load_volts[index] < find_window_low(rig.items[load.item].part, load.rail.name) - 1e-6
    }  # fmt: skip
    ports = {
        ref: (rig.port(ref), power)
        for ref, power in measure_ports(built, solution).items()
        if rig.port(ref).role is not Role.OUT
    }  # fmt: skip
    for item in {item for item, rail in fed if not rail}:
        own = [(port, power.volts) for ref, (port, power) in ports.items() if ref.item == item]
        if own and all(port.works is not None and volts < port.works.low - 1e-6 for port, volts in own):
            starved.add((item, ""))
    low = {
        ref.place: power.volts
        for ref, (port, power) in ports.items()
        if port.works is not None and power.amps >= IN_USE and power.volts < port.works.low - 1e-6
    }
    devices = measure_returns(rig, built, solution)
    shields = find_shields(devices, whole, NOTICED) or find_shields(devices, whole, IN_USE)
    return State(frozenset(fed), frozenset(starved), low, shields, gave_way)


def drop_regulators(rig: Rig, owner: str) -> Rig:
    """The rig whose item or lead `owner` has no regulators: they could not have what they draw."""
    if owner in rig.items:
        item = rig.items[owner]
        bridges = tuple(bridge for bridge in item.part.bridges if bridge.regulator is None)
        twin = replace(item, part=replace(item.part, bridges=bridges))
        return replace(rig, items=MappingProxyType({**rig.items, owner: twin}))
    lead = rig.leads[owner]
    wires = tuple(wire for wire in lead.body.conductors if wire.regulator is None)
    bare = replace(lead, body=replace(lead.body, conductors=wires))
    return replace(rig, leads=MappingProxyType({**rig.leads, owner: bare}))


def find_shields(devices: Any, whole: set[str], least: float) -> dict[str, tuple[str | None, float]]:
    """Item to the signal lead that carries most of its return, and its A."""
    found = {}
    for device in devices:
        if device.signals:
            worst = max(device.signals, key=lambda one: one.amps)
            too_much = worst.amps > LEAST_AMPS or (device.by_signal > NOTICED and device.share > LEAST_SHARE)
            if too_much or (device.item in whole and worst.amps > least):
                found[device.item] = (worst.lead, worst.amps)
    return found


def is_unrated(rig: Rig, item: str) -> bool:
    """Whether a device states no load."""
    return has_electronics(rig, item) and not any(rail.load for rail in rig.items[item].part.rails.values())


def has_electronics(rig: Rig, item: str) -> bool:
    """Whether something is in an item."""
    part = rig.items[item].part
    active = any(bridge.kind.value in ("regulator", "diode") for bridge in part.bridges)
    return part.kind not in PASSIVE or active or bool(part.cells) or any(rail.load for rail in part.rails.values())


def list_hands(rig: Rig, setup: Setup, house: House) -> dict[str, frozenset[str]]:
    """Axis place to its controls."""
    axes = Studies(rig, house).hands(setup).axes
    return {place: frozenset(claim.control for claim in axis.claims) for place, axis in axes.items()}


def list_flows(rig: Rig, setup: Setup, house: House) -> tuple[set[tuple[str, str]], set[tuple[str, str]]]:
    """(flow, item) where a flow arrives sound, and those of them where it is seen, needed or goes no further."""
    studies = Studies(rig, house)
    arrivals, ends = set(), set()
    for flow in {flow for item in setup.items for maker in rig.items[item].part.makes.values() for flow in maker.flows}:
        found = []
        for arrival in studies.flows(setup, flow):
            item, _, name = arrival.place.partition(".")
            screens = list_ends(studies.signals(setup), item, flow)
            is_other = item != arrival.maker.partition(".")[0] and item not in setup.off
            if is_other and not arrival.problems and (not screens or name in screens):
                found.append((item, arrival))
        for item, _ in found:
            arrivals.add((flow, item))
            passed = any(
                item in {place.partition(".")[0] for place in other.path if "." in place}
                for far, other in found
                if far != item and other.maker.partition(".")[0] != item
            )
            is_needed = item in setup.needs.flows.get(flow, ())
            if not passed or is_needed or list_ends(studies.signals(setup), item, flow):
                ends.add((flow, item))
    return arrivals, ends


class Whole:
    """A setup before any fault."""

    def __init__(self, rig: Rig, setup: Setup, house: House) -> None:
        self.rig, self.setup, self.house = rig, setup, house
        self.power = study_power(rig, setup, house)
        self.hands = list_hands(rig, setup, house)
        self.flows = list_flows(rig, setup, house)

    def judge(self, outcome: FaultOutcome) -> Result:
        """What a fault does, by the rewritten rig."""
        rig, setup = rewrite(self.rig, self.setup, outcome)
        before, after = self.power, study_power(rig, setup, self.house)
        own = {outcome.fault.at} if outcome.fault.kind.value == "item-off" else set()
        low = {place: volts for place, volts in after.low.items() if place not in before.low}
        down = {item for item, _ in before.fed - after.fed} | {item for item, _ in after.starved - before.starved}
        down |= {item for place in low if has_electronics(rig, item := place.partition(".")[0])}
        gives_way = after.gave_way - before.gave_way
        down = ((down | gives_way) & setup.items) - setup.off - own
        gone = replace(setup, off=setup.off | down)
        hands, (arrivals, _) = list_hands(rig, gone, self.house), list_flows(rig, gone, self.house)
        restarted = down | own
        parts = {item: rig.items[item].part for item in restarted}
        return {
            "down": down,
            "axes": {
                place: (had - hands.get(place, frozenset()), hands.get(place, frozenset()))
                for place, had in self.hands.items()
                if had - hands.get(place, frozenset())
            },
            "flows": self.flows[1] - arrivals,
            "forgets": {
                f"{item}.{setting.name}"
                for item, part in parts.items()
                for setting in part.settings.values()
                if setting.forgets and setup.setting(item, setting.name) not in (None, setting.default)
            },
            "moves": {item for item, part in parts.items() if part.wakes and part.wakes.moves},
            "recalibrates": {item for item, part in parts.items() if part.drive and part.drive.calibration},
            "gives_way": set(gives_way),
            "low": low,
            "shields": {item: one for item, one in after.shields.items() if item not in before.shields},
        }


def show(outcome: FaultOutcome) -> Result:
    """An outcome in the same form."""
    return {
        "down": set(outcome.down),
        "axes": {
            axis.place: (frozenset(one.control for one in axis.lost), frozenset(one.control for one in axis.left))
            for axis in outcome.axes
        },
        "flows": {(loss.flow, loss.item) for loss in outcome.flows},
        "forgets": {f"{one.item}.{one.setting}" for one in outcome.forgets},
        "moves": set(outcome.moves),
        "recalibrates": set(outcome.recalibrates),
        "gives_way": set(outcome.gives_way),
        "low": {one.ref.place: one.volts for one in outcome.low},
        "shields": {one.item: (one.lead, one.amps) for one in outcome.shields},
    }


def differ(found: Result, expected: Result) -> list[str]:
    """The keys in which two differ; V and A within 1e-6."""
    wrong = [key for key in expected if key not in ("low", "shields") and found[key] != expected[key]]
    volts = (found["low"], expected["low"])
    if volts[0].keys() != volts[1].keys() or any(abs(volts[0][one] - volts[1][one]) > 1e-6 for one in volts[0]):
        wrong.append("low")
    amps = (found["shields"], expected["shields"])
    if amps[0].keys() != amps[1].keys() or any(abs(amps[0][one][1] - amps[1][one][1]) > 1e-6 for one in amps[0]):
        wrong.append("shields")
    return wrong
