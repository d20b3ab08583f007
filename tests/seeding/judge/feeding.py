"""Which loads a source reaches with plus and with a return of its own, with the switches as they are set."""

from __future__ import annotations

from collections.abc import Iterator

import networkx

from tests.power.elements import Load
from tests.seeding.judge.harm import Harm
from tests.seeding.judge.scene import Scene


def judge_feeding(scene: Scene) -> Iterator[Harm]:
    """Devices without plus, without a return, or with one through a shield."""
    plus, metal = _build_plus(scene), _build_metal(scene, with_signals=True)
    plain = _build_metal(scene, with_signals=False)
    told = set()
    for load in scene.wiring.loads:
        if load.item in told:
            continue
        harm = _judge_load(scene, load, plus, metal, plain)
        if harm is not None:
            told.add(load.item)
            yield Harm(harm, load.item)


def _judge_load(
    scene: Scene,
    load: Load,
    plus: networkx.DiGraph[str],
    metal: networkx.DiGraph[str],
    plain: networkx.DiGraph[str],
) -> str | None:
    feeding = [one for one in scene.wiring.sources if _reaches(plus, one.plus, load.plus)]
    if not feeding:
        return "unpowered"
    if any(_reaches(plain, load.minus, one.minus) for one in feeding):
        return None
    return "no-return"


def _reaches(graph: networkx.DiGraph[str], start: str, goal: str) -> bool:
    return start == goal or (start in graph and goal in graph and networkx.has_path(graph, start, goal))


def _build_plus(scene: Scene) -> networkx.DiGraph[str]:
    wiring = scene.wiring
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    both = list(wiring.joined) + [(wire.a, wire.b) for wire in wiring.wires]
    both += [(mate.other, mate.device) for mate in wiring.mates]
    graph.add_edges_from(both)
    graph.add_edges_from((b, a) for a, b in both)
    graph.add_edges_from((diode.anode, diode.cathode) for diode in wiring.diodes)
    graph.add_edges_from((one.input, one.output) for one in wiring.regulators)
    return graph


def _build_metal(scene: Scene, *, with_signals: bool) -> networkx.DiGraph[str]:
    """Ways back: metal both ways, diodes from anode to cathode. A port or a lead without any feed contact carries a
    return only by signal."""
    wiring = scene.wiring
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    signal_leads = set() if with_signals else _list_signal_leads(scene)
    both = list(wiring.joined)
    both += [(wire.a, wire.b) for wire in wiring.wires if wire.lead not in signal_leads]
    for mate in wiring.mates:
        place = ".".join(mate.device.split(".")[:2])
        if with_signals or scene.ports[place].feeds:
            both.append((mate.other, mate.device))
    graph.add_edges_from(both)
    graph.add_edges_from((b, a) for a, b in both)
    graph.add_edges_from((diode.anode, diode.cathode) for diode in wiring.diodes)
    return graph


def _list_signal_leads(scene: Scene) -> set[str]:
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
