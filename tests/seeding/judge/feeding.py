"""Which loads a source reaches with plus and with a return of its own, with the switches as they are set."""

from __future__ import annotations

from collections.abc import Iterator

import networkx

from tests.power.elements import Load
from tests.seeding.judge.harm import Harm
from tests.seeding.judge.scene import Scene
from tests.seeding.judge.volts import Field, Nets


def judge_feeding(scene: Scene) -> Iterator[Harm]:
    """Devices without plus, without a return, or with one through a shield."""
    nets = Nets(scene)
    fields = [nets.field(n, scene.most[n]) for n in range(len(scene.wiring.sources))]
    plain = _build_returns(scene)
    told = set()
    for load in scene.wiring.loads:
        if load.item in told:
            continue
        harm = _judge_load(nets, fields, load, plain)
        if harm is not None:
            told.add(load.item)
            yield Harm(harm, load.item)


def _judge_load(nets: Nets, fields: list[Field], load: Load, plain: networkx.DiGraph[str]) -> str | None:
    sources = nets.scene.wiring.sources
    feeding = [sources[field.source] for field in fields if nets.net[load.plus] in field.plus]
    if not feeding:
        return "unpowered"
    if any(_reaches(plain, load.minus, one.minus) for one in feeding):
        return None
    return "no-return"


def _reaches(graph: networkx.DiGraph[str], start: str, goal: str) -> bool:
    return start == goal or (start in graph and goal in graph and networkx.has_path(graph, start, goal))


def _build_returns(scene: Scene) -> networkx.DiGraph[str]:
    """Ways back: metal both ways, diodes from anode to cathode. A port or a lead without any feed contact carries a
    return only by signal, and is left out."""
    wiring = scene.wiring
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    signal_leads = list_signal_leads(scene)
    both = list(wiring.joined)
    both += [(wire.a, wire.b) for wire in wiring.wires if wire.lead not in signal_leads]
    for mate in wiring.mates:
        place = ".".join(mate.device.split(".")[:2])
        if scene.ports[place].feeds:
            both.append((mate.other, mate.device))
    graph.add_edges_from(both)
    graph.add_edges_from((b, a) for a, b in both)
    graph.add_edges_from((diode.anode, diode.cathode) for diode in wiring.diodes)
    return graph


def list_signal_leads(scene: Scene) -> set[str]:
    """Leads without a conductor on any feed contact."""
    found = set()
    for label, lead in scene.leads.items():
        feeds = any(
            contact in scene.ports[lead.plugged[end]].feeds
            for one in lead.conductors
            for end, contact in (one.source, one.target)
            if end in lead.plugged
        )
        if not feeds:
            found.add(label)
    return found
