"""Which screens get a picture that every hop can carry, and which flows that the job needs arrive."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TypeAlias

import networkx

from tests.seeding.judge.harm import Harm
from tests.seeding.judge.scene import Scene, as_list
from tests.seeding.judge.signals import SignalGraph, rate_of

Node: TypeAlias = tuple[str, str, str]
_FORMAT = re.compile(r"(\d+)(p|i|psf)([\d.]+)")
_BITS_SDI, _BITS_TMDS = 20, 30


def needed_rate(text: str, names: list[str]) -> float:
    """bit/s: pixel clock times bits. Clocks: SMPTE ST 274, ST 2036 and CTA-861: 74.25 MHz for 720p and for 1080 lines to 30
    frames, twice that to 60; 2160 lines take four times as much."""
    found = _FORMAT.fullmatch(text)
    assert found is not None, text
    lines, scan, rate = int(found[1]), found[2], float(found[3])
    frames = rate / 2 if scan == "i" and rate > 30 else rate
    clock = 74.25e6 if lines == 720 else 74.25e6 * (2 if frames > 30 else 1) * (4 if lines == 2160 else 1)
    drop = 1.001 if "." in found[3] else 1.0
    return clock / drop * (_BITS_TMDS if any(name.startswith("hdmi") for name in names) else _BITS_SDI)


def judge_pictures(scene: Scene) -> Iterator[Harm]:
    """Screens without a picture, or with one that a hop refuses or cannot carry."""
    graph = SignalGraph(scene, scene.settings)
    wanted = _list_ends(scene, "picture")
    if not wanted:
        return
    loose, strict = _build(graph, with_limits=False), _build(graph, with_limits=True)
    starts = list(_list_starts(graph, "picture"))
    any_way = _reach(loose, starts)
    good = {node[:2] for node in _reach(strict, starts)}
    for item, name in sorted(wanted):
        if (item, name) not in {node[:2] for node in any_way}:
            yield Harm("picture", f"{item}.{name}")
        elif (item, name) not in good:
            yield Harm("format", f"{item}.{name}")


def judge_flows(scene: Scene) -> Iterator[Harm]:
    """Flows that the job needs and that do not arrive."""
    graph = SignalGraph(scene, scene.settings)
    for flow, items in scene.rig.get("needs", {}).items():
        if not isinstance(items, list) or flow == "stays_up":
            continue
        ways: networkx.DiGraph[tuple[str, str]] = networkx.DiGraph()
        ways.add_edges_from((near, far) for near, far, _ in graph.list_passes(flow))
        ways.add_edges_from((near, far) for near, far, _ in graph.list_hops(flow))
        reached = {
            node
            for item, name, _ in _list_starts(graph, flow)
            if (item, name) in ways
            for node in networkx.descendants(ways, (item, name))
        }
        for item in items:
            shows = scene.parts.get(item, {}).get("shows", {})
            is_on = item in scene.parts and item not in scene.off
            if is_on and not any((item, name) in reached for name in shows):
                yield Harm("flow", item)


def _list_ends(scene: Scene, flow: str) -> set[tuple[str, str]]:
    """Screens and recordings where passes of a flow end, of items that are on."""
    return {
        (item, name)
        for item, part in scene.parts.items()
        if item not in scene.off
        for name in part.get("shows", {})
        if any(name in as_list(one["to"]) and flow in as_list(one.get("carries")) for one in part.get("passes", ()))
    }


def _list_starts(graph: SignalGraph, flow: str) -> Iterator[Node]:
    for item, part in graph.scene.parts.items():
        if item in graph.scene.off:
            continue
        for name, body in part.get("makes", {}).items():
            if flow in body and graph.holds(item, body.get("when", {})):
                what = body[flow]
                value = graph.scene.settings.get(f"{item}.{what['setting']}") if isinstance(what, dict) else what
                yield item, name, str(value)


def _build(graph: SignalGraph, *, with_limits: bool) -> networkx.DiGraph[Node]:
    """Ways of picture by format; with limits, without what a pass does not accept and a protocol cannot carry."""
    formats = _list_formats(graph)
    ways: networkx.DiGraph[Node] = networkx.DiGraph()
    for near, far, body in graph.list_passes("picture"):
        for text in formats:
            if with_limits and "accepts" in body and text not in body["accepts"]:
                continue
            out = body.get("format", text)
            if isinstance(out, dict):
                out = graph.scene.settings.get(f"{near[0]}.{out['setting']}", text)
            ways.add_edge((*near, text), (*far, str(out)))
    for near, far, names in graph.list_hops("picture"):
        for text in formats:
            able = not with_limits or _FORMAT.fullmatch(text) is None or _is_carried(graph, names, text)
            if able:
                ways.add_edge((*near, text), (*far, text))
    return ways


def _is_carried(graph: SignalGraph, names: list[str], text: str) -> bool:
    return any(rate_of(graph.protocols, [name]) >= needed_rate(text, [name]) * (1 - 1e-9) for name in names)


def _list_formats(graph: SignalGraph) -> set[str]:
    found = {text for _, _, text in _list_starts(graph, "picture")}
    for item, part in graph.scene.parts.items():
        for body in part.get("passes", ()):
            text = body.get("format")
            if isinstance(text, dict):
                text = graph.scene.settings.get(f"{item}.{text['setting']}")
            if text is not None:
                found.add(str(text))
    return found


def _reach(ways: networkx.DiGraph[Node], starts: list[Node]) -> set[Node]:
    reached = set(starts)
    for start in starts:
        if start in ways:
            reached |= networkx.descendants(ways, start)
    return reached
