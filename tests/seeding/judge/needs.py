"""What a part asks of its neighbours: who must be next to it, and which firmware they must have."""

from __future__ import annotations

from collections.abc import Iterator

import networkx

from tests.seeding.judge.harm import Harm
from tests.seeding.judge.scene import Scene, as_list
from tests.seeding.judge.signals import SignalGraph, split


def judge_needs(scene: Scene) -> Iterator[Harm]:
    """Needs whose conditions hold, and that are not met."""
    graph = SignalGraph(scene, scene.settings)
    joined: networkx.Graph[str] = networkx.Graph()
    for lead in scene.leads.values():
        items = [split(place)[0] for place in lead.plugged.values()]
        joined.add_edges_from((one, other) for one in items for other in items if one != other)
    joined.add_edges_from((split(a)[0], split(b)[0]) for a, b in scene.docks)
    beside = joined.copy()
    for body in scene.links.values():
        joined.add_edges_from((split(body["hub"])[0], split(radio)[0]) for radio in body["between"])
    for item, part in scene.parts.items():
        if item in scene.off:
            continue
        for need in part.get("needs", ()):
            if not graph.holds(item, need.get("when", {})):
                continue
            neighbours = set(beside[item]) if item in beside else set()
            if "next_to" in need and not any(
                scene.parts[one]["kind"] in as_list(need["next_to"]) for one in neighbours
            ):
                yield Harm("next-to", item)
            reached = networkx.node_connected_component(joined, item) if item in joined else set()
            for kind, wanted in need.get("firmware", {}).items():
                others = [one for one in reached if one in scene.parts and scene.parts[one]["kind"] == kind]
                if any(_is_older(scene.entry(one).get("firmware"), wanted) for one in others):
                    yield Harm("firmware", item)


def _is_older(firmware: str | None, wanted: str) -> bool:
    """Whether a stated firmware is less than `>=N` asks; nothing is said of other comparisons."""
    if firmware is None or not wanted.startswith(">="):
        return False
    have, want = ([int(word) for word in text.strip().split(".")] for text in (str(firmware), wanted[2:]))
    width = max(len(have), len(want))
    return have + [0] * (width - len(have)) < want + [0] * (width - len(want))
