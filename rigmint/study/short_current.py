"""Prospective short current: what a source drives through a short at the far end of a lead."""

from __future__ import annotations

import heapq
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rigmint.graph.pins import JoinKind, OneWay, Regulator, Source
from rigmint.physics.conductors import compute_awg_diameter
from rigmint.rig.lead import Conductor
from rigmint.study.rig_circuit import RigCircuit

_PREECE_AMPS = 80.0
"""A a mm^1.5: the current that melts a copper wire in free air is 80 d^1.5 with d in mm (W. H. Preece, 1884; from
memory)."""


@dataclass(frozen=True, slots=True)
class ShortCurrent:
    """A short at the far end of a lead. `melts` is the current that melts its thinnest conductor on the way; `fused`
    whether a fuse is on the way."""

    label: str
    source: Source
    amps: float
    melts: float
    fused: bool


def find_short_currents(built: RigCircuit) -> tuple[ShortCurrent, ...]:
    """For each lead that a source reaches directly (no regulator between), the short at its far end that is worst."""
    worst: dict[str, ShortCurrent] = {}
    neighbours, wiring = _list_neighbours(built), _gather_wiring(built)
    for index, source in enumerate(built.sources):
        cell = built.circuit.cells[index]
        plus, minus = _spread(neighbours, cell.plus), _spread(neighbours, cell.minus)
        for label, found in _judge_leads(wiring, source, cell.ohms, plus, minus).items():
            if label not in worst or found.amps > worst[label].amps:
                worst[label] = found
    return tuple(worst[label] for label in sorted(worst))


@dataclass(frozen=True, slots=True)
class _Edge:
    node: int
    ohms: float
    fused: bool


@dataclass(frozen=True, slots=True)
class _Along:
    ohms: float
    fused: bool


def _list_neighbours(built: RigCircuit) -> dict[int, list[_Edge]]:
    neighbours: dict[int, list[_Edge]] = {}
    for resistor, join in zip(built.circuit.resistors, built.joins, strict=True):
        fuse = join.conductor.fuse if join.conductor is not None else None
        if fuse is None and join.bridge is not None:
            fuse = join.bridge.fuse
        for near, far in ((resistor.a, resistor.b), (resistor.b, resistor.a)):
            neighbours.setdefault(near, []).append(_Edge(far, resistor.ohms, fuse is not None))
    for diode in built.circuit.diodes:
        neighbours.setdefault(diode.anode, []).append(_Edge(diode.cathode, 0.0, False))
    return neighbours


def _spread(neighbours: dict[int, list[_Edge]], start: int) -> dict[int, _Along]:
    found: dict[int, _Along] = {}
    heap = [(0.0, start, False)]
    while heap:
        ohms, node, fused = heapq.heappop(heap)
        if node in found:
            continue
        found[node] = _Along(ohms, fused)
        for edge in neighbours.get(node, ()):
            if edge.node not in found:
                heapq.heappush(heap, (ohms + edge.ohms, edge.node, fused or edge.fused))
    return found


@dataclass(frozen=True, slots=True)
class _Wiring:
    """What every source is asked against: the nodes of each end of each lead, and each wire by one of its nodes with
    its lead and the A that melt it."""

    nodes_of_end: Mapping[tuple[str, str], list[int]]
    wires: Sequence[tuple[int, str, float]]


def _gather_wiring(built: RigCircuit) -> _Wiring:
    nodes_of_end: dict[tuple[str, str], list[int]] = {}
    for pin, node in zip(built.network.pins, built.node_of, strict=True):
        if pin.is_lead and node is not None:
            nodes_of_end.setdefault((pin.owner, pin.group), []).append(node)
    wires = [
        (resistor.a, join.owner, find_melting_amps(join.conductor))
        for resistor, join in zip(built.circuit.resistors, built.joins, strict=True)
        if not isinstance(join, (OneWay, Regulator)) and join.kind is JoinKind.WIRE and join.conductor is not None
    ]
    return _Wiring(nodes_of_end, wires)


def _judge_leads(
    wiring: _Wiring, source: Source, inner: float, plus: dict[int, _Along], minus: dict[int, _Along]
) -> dict[str, ShortCurrent]:
    ends: dict[str, list[tuple[_Along, _Along]]] = {}
    melts: dict[str, float] = {}
    for (label, _), nodes in wiring.nodes_of_end.items():
        fed = [plus[node] for node in nodes if node in plus]
        returned = [minus[node] for node in nodes if node in minus and node not in plus] if fed else []
        ends.setdefault(label, []).extend((near, back) for near in fed for back in returned)
    for node, label, amps in wiring.wires:
        if node in plus or node in minus:  # a signal wire in the same jacket carries none of it
            melts[label] = min(melts.get(label, math.inf), amps)
    found = {}
    for label, pairs in ends.items():
        if not pairs:
            continue
        far_plus, far_minus = max(pairs, key=lambda pair: pair[0].ohms + pair[1].ohms)
        amps = source.cell.volts.high / max(inner + far_plus.ohms + far_minus.ohms, 1e-9)
        fused = far_plus.fused or far_minus.fused
        found[label] = ShortCurrent(label, source, amps, melts.get(label, math.inf), fused)
    return found


def find_melting_amps(conductor: Conductor) -> float:
    """A that melt a conductor in free air, by Preece."""
    if conductor.area is not None:
        millimetres = 1e3 * math.sqrt(4 * conductor.area / math.pi)
    else:
        millimetres = 1e3 * compute_awg_diameter(conductor.gauge or 0.0)
    return _PREECE_AMPS * millimetres * math.sqrt(millimetres)
