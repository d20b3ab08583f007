"""The volts that may stand on each rail of a part, from its cells and bridges, and from what its inputs allow."""

from __future__ import annotations

from collections.abc import Mapping

from rigmint.rig.electric import Bridge, BridgeKind, Role, Window
from rigmint.rig.part import Part

_BOTH_WAYS = frozenset({BridgeKind.SWITCH, BridgeKind.WIRE})


def find_own_volts(part: Part) -> Mapping[str, Window]:
    """Rail to the V that the part itself puts there: by its cells, and by regulators whatever feeds them."""
    start = {bridge.target: _by_regulator(bridge) for bridge in part.bridges if bridge.regulator is not None}
    return _spread(part, _join_cells(part, {rail: window for rail, window in start.items() if window is not None}))


def find_rail_volts(part: Part) -> Mapping[str, Window]:
    """Rail to the V that may stand there, with what its inputs are made for."""
    volts = _join_cells(part, {})
    for port in part.ports.values():
        if port.role is not Role.OUT and port.works is not None and port.rail is not None:
            volts[port.rail] = _join(volts.get(port.rail), port.works)
    return _spread(part, volts)


def find_fed_rails(part: Part) -> frozenset[str]:
    """The rails that a cell, or a port that takes power, reaches over bridges."""
    fed = {cell.rail for cell in part.cells.values()}
    fed |= {rail for port in part.ports.values() if port.role is not Role.OUT for rail in port.feeds.values()}
    while True:
        reached = {bridge.target for bridge in part.bridges if bridge.source in fed}
        reached |= {one.source for one in part.bridges if one.kind in _BOTH_WAYS and one.target in fed}
        if reached <= fed:
            return frozenset(fed)
        fed |= reached


def find_copper(part: Part, rail: str) -> frozenset[str]:
    """The rails that are one piece of copper with a rail, over wires and switches."""
    joined = {rail}
    while True:
        more = {
            other
            for bridge in part.bridges
            if bridge.kind in _BOTH_WAYS and {bridge.source, bridge.target} & joined
            for other in (bridge.source, bridge.target)
        }
        if more <= joined:
            return frozenset(joined)
        joined |= more


def _join_cells(part: Part, volts: dict[str, Window]) -> dict[str, Window]:
    for cell in part.cells.values():
        volts[cell.rail] = _join(volts.get(cell.rail), cell.volts)
    return volts


def _spread(part: Part, volts: dict[str, Window]) -> Mapping[str, Window]:
    """Over the bridges, until nothing changes; each step widens a window to one of finitely many ends, but for diodes
    in a ring, which the number of bridges bounds."""
    for _ in range(len(part.bridges) + 1):
        before = dict(volts)
        for bridge in part.bridges:
            source = volts.get(bridge.source)
            if source is not None:
                given = _by_regulator(bridge) or _by_diode(bridge, source)
                volts[bridge.target] = _join(volts.get(bridge.target), given)
            target = volts.get(bridge.target)
            if target is not None and bridge.kind in _BOTH_WAYS:
                volts[bridge.source] = _join(volts.get(bridge.source), target)
        if volts == before:
            break
    return volts


def _by_regulator(bridge: Bridge) -> Window | None:
    return Window(bridge.regulator.out, bridge.regulator.out) if bridge.regulator is not None else None


def _by_diode(bridge: Bridge, source: Window) -> Window:
    drop = bridge.drop if bridge.kind is BridgeKind.DIODE else 0.0
    return Window(source.low - drop, source.high)


def _join(held: Window | None, other: Window) -> Window:
    return other if held is None else Window(min(held.low, other.low), max(held.high, other.high))
