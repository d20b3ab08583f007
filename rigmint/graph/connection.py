"""The connection graph as a `networkx.MultiDiGraph`, for any rule that wants a graph library at hand.

Nodes are places. Attributes of a node: `kind` is item, port, radio, control, mover, maker or screen; `item` its item.
Attributes of an edge: `kind` is has (item to its places), pass (inside an item), lead, dock or link; `label` the lead's
label or the link's name; `protocols` those that pass, `index` of a pass in its part. Leads, docks and links go both
ways, as two edges; passes one way.
"""

from __future__ import annotations

from typing import Any

import networkx

from rigmint.graph.presence import Presence
from rigmint.graph.signals import connect_ports
from rigmint.rig.rig import Rig, Setup


def build_connection_graph(rig: Rig, setup: Setup) -> networkx.MultiDiGraph[str]:
    """The graph of what is there in a setup."""
    graph: networkx.MultiDiGraph[str] = networkx.MultiDiGraph(rig=rig.title, setup=setup.name)
    for name in sorted(setup.items):
        _add_item(graph, rig, name)
    for connection in connect_ports(rig, Presence.of(setup)):
        kind = "dock" if connection.lead is None else "lead"
        _join(
            graph,
            connection.first.place,
            connection.second.place,
            kind=kind,
            label=connection.lead,
            protocols=connection.protocols,
        )
    for name in sorted(setup.links):
        hub, *others = rig.links[name].radios
        for other in others:
            if other.item in setup.items:
                spoken = [set(rig.radio(ref).speaks) for ref in (hub, other)]
                shared = frozenset(spoken[0] & spoken[1])
                _join(graph, hub.place, other.place, kind="link", label=name, protocols=shared)
    return graph


def _add_item(graph: networkx.MultiDiGraph[str], rig: Rig, name: str) -> None:
    part = rig.items[name].part
    graph.add_node(name, kind="item", item=name)
    sections = {
        "port": part.ports,
        "radio": part.radios,
        "control": part.controls,
        "mover": part.moves,
        "maker": part.makes,
        "screen": part.shows,
    }
    for kind, section in sections.items():
        for place in section:
            graph.add_node(f"{name}.{place}", kind=kind, item=name)
            graph.add_edge(name, f"{name}.{place}", kind="has")
    for one_pass in part.passes:
        for source in one_pass.sources:
            for target in one_pass.targets:
                graph.add_edge(f"{name}.{source}", f"{name}.{target}", kind="pass", index=one_pass.index)


def _join(graph: networkx.MultiDiGraph[str], first: str, second: str, **attributes: Any) -> None:
    graph.add_edge(first, second, **attributes)
    graph.add_edge(second, first, **attributes)
