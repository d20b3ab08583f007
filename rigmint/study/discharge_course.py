"""What a port shows while the batteries go down, for the plot by which the crew knows when to change."""

from __future__ import annotations

from rigmint.physics.circuit import Collapse
from rigmint.rig.house import House
from rigmint.rig.rig import PortRef
from rigmint.study.power import Point, Power, list_cell_ohms, list_cell_volts
from rigmint.study.runtime import Runtime

_MOST_POINTS = 24
"""Enough for a curve on paper."""


def find_course(power: Power, runtime: Runtime, house: House, ref: PortRef) -> tuple[tuple[float, float], ...]:
    """(s, V at the port) from full to the end of the runtime, at typical load; it ends early in a collapse."""
    terminals = next((one for one in power.circuit.ports if one.ref == ref), None)
    if terminals is None or terminals.plus is None or terminals.minus is None:
        return ()
    volts = list_cell_volts(power.circuit.sources, Point.TYPICAL, house.power)
    ohms, amounts = list_cell_ohms(power.circuit), power.circuit.list_amounts({})
    shown = []
    for seconds, batteries in _thin_out(runtime.course.points):
        for index, value in zip(runtime.course.sources, batteries, strict=True):
            volts[index] = value
        try:
            solution = power.network.solve(cell_volts=volts, cell_ohms=ohms, load_amounts=amounts)
        except Collapse:
            break
        shown.append((seconds, solution.measure_volts(terminals.plus, terminals.minus)))
    return tuple(shown)


def _thin_out(points: tuple[tuple[float, tuple[float, ...]], ...]) -> tuple[tuple[float, tuple[float, ...]], ...]:
    """Every so many of them, the last among them."""
    step = max(1, len(points) // _MOST_POINTS)
    kept = points[::step]
    return kept if not points or kept[-1] == points[-1] else (*kept, points[-1])
