"""The connection graph and the nets on a small rig."""

from __future__ import annotations

import networkx
import pytest

from rigmint.graph.connection import build_connection_graph
from rigmint.graph.nets import find_nets
from rigmint.graph.pins import GROUND, Pin, take_out_lead
from tests.builders import make_rig, make_studies
from tests.library import whole_rig


def test_nodes_and_edges_of_a_rig() -> None:
    rig = make_rig(whole_rig.RIG, whole_rig.PARTS)
    graph = build_connection_graph(rig, rig.setups["two_up"])
    edges = {(a, b, data["kind"], data.get("label")) for a, b, data in graph.edges(data=True)}

    assert graph.nodes["hand.knob"] == {"kind": "control", "item": "hand"}
    assert {kind for _, kind in graph.nodes(data="kind")} == {
        *("item", "port", "radio", "control", "mover", "maker", "screen"),
    }
    assert {
        ("hand", "hand.knob", "has", None),
        ("hand.knob", "hand.radio", "pass", None),
        ("driver.radio", "hand.radio", "link", "lens_control"),
        ("hand.radio", "driver.radio", "link", "lens_control"),
        ("driver.bus", "motor_f.bus_1", "lead", "B1"),
        ("motor_f.bus_1", "driver.bus", "lead", "B1"),
        ("motor_f.bus_1", "motor_f.shaft", "pass", None),
        ("lens.mount", "camera.mount", "dock", None),
    } <= edges
    assert networkx.has_path(graph, "hand.knob", "motor_i.shaft")
    assert not networkx.has_path(graph, "motor_i.shaft", "hand.knob")


def test_what_passes_over_an_edge() -> None:
    rig = make_rig(whole_rig.RIG, whole_rig.PARTS)
    graph = build_connection_graph(rig, rig.setups["two_up"])
    protocols = {data["label"]: set(data["protocols"]) for _, _, data in graph.edges(data=True) if data.get("label")}

    assert protocols == {
        "P1": set(),
        "P2": set(),
        "D1": {"head-bus"},
        "B1": {"lens-bus"},
        "B2": {"lens-bus"},
        "R1": {"run-closure"},
        "V1": {"sdi-3g"},
        "lens_control": {"lens-air"},
        "head_control": {"head-air"},
    }


def test_what_is_out_is_not_in_the_graph() -> None:
    rig = make_rig(whole_rig.RIG, whole_rig.PARTS)
    graph = build_connection_graph(rig, rig.setups["solo"])
    labels = {label for _, _, label in graph.edges(data="label") if label}

    assert ("desk" in graph, "mon" in graph) == (False, True)
    assert labels == {"P1", "P2", "D1", "B1", "B2", "R1", "lens_control"}


PORT = "connector: 0b-2, pins: {1: plus, 2: minus}"
PARTS = f"""
house/pack: {{kind: battery, cells: {{pack: {{volts: 12 to 16.8 V}}}}, ports: {{out: {{{PORT}}}}}}}
house/box: {{kind: accessory, rails: {{main: {{}}, aux: {{}}}}, ports: {{a: {{{PORT}}}, b: {{{PORT}, rail: aux}}}}, bridges: [{{from: main, to: aux, by: switch}}]}}
"""


@pytest.mark.parametrize(
    ("one", "other", "is_one_net"),
    [
        (Pin("pack", "out", "1"), Pin("box", "a", "1"), True),
        (Pin("pack", "out", "1"), Pin("box", "b", "1"), True),  # a switch counts as closable
        (Pin("pack", "out", "2"), Pin("box", "", GROUND), True),
        (Pin("pack", "out", "1"), Pin("P1", "b", "1", True), True),
        (Pin("pack", "out", "1"), Pin("pack", "out", "2"), False),
        (Pin("box", "a", "1"), Pin("box", "a", "2"), False),
    ],
)
def test_nets(one: Pin, other: Pin, is_one_net: bool) -> None:
    studies, setup = make_studies("kit: {pack: house/pack, box: house/box}\nleads: {P1: pack.out > box.a}", PARTS)
    network = studies.network(setup)
    nets = find_nets(network)

    assert (nets[network.index[one]] == nets[network.index[other]]) is is_one_net


def test_nets_are_the_connected_components_of_what_is_metal() -> None:
    studies, setup = make_studies(whole_rig.RIG, whole_rig.PARTS)
    network = studies.network(setup)
    metal: networkx.Graph[int] = networkx.Graph()
    metal.add_nodes_from(range(len(network.pins)))
    metal.add_edges_from((join.first, join.second) for join in network.joins)
    nets = find_nets(network)
    by_net: dict[int, set[int]] = {}
    for pin, net in enumerate(nets):
        by_net.setdefault(net, set()).add(pin)

    assert sorted(map(sorted, by_net.values())) == sorted(map(sorted, networkx.connected_components(metal)))


def test_a_lead_taken_out_leaves_its_pins_alone() -> None:
    studies, setup = make_studies("kit: {pack: house/pack, box: house/box}\nleads: {P1: pack.out > box.a}", PARTS)
    network = studies.network(setup)
    without = take_out_lead(network, "P1")

    assert len(without.joins) < len(network.joins)
    assert not any(without.pins[pin].is_lead for join in without.joins for pin in (join.first, join.second))
    assert (without.pins, without.mates) == (network.pins, ())
