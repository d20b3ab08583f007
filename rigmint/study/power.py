"""Power: what the wiring does in a setup, at full, typical and change, with the margin to collapse at each."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from rigmint.graph.pins import JoinKind, Load, OneWay, PinNetwork, Regulator, Source
from rigmint.physics.battery import LITHIUM_ION_CURVE, DischargeCurve, stretch_curve
from rigmint.physics.circuit import MOST, Collapse, Margin, Network, Solution
from rigmint.rig.electric import Cell
from rigmint.rig.house import House, PowerFigures
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.rig_circuit import RigCircuit, build_rig_circuit

CHANGE_OHMS = 1.5
"""Internal resistance of a cell at its change against a fresh one."""


class Point(StrEnum):
    """An operating point."""

    FULL = "full"
    TYPICAL = "typical"
    CHANGE = "change"


@dataclass(frozen=True, slots=True)
class PortPower:
    """A port: V of its feed against its minus, A into the part, W."""

    volts: float
    amps: float

    @property
    def watts(self) -> float:
        """W into the part."""
        return self.volts * self.amps


@dataclass(frozen=True, slots=True)
class LeadPower:
    """A lead: the largest A in any of its conductors, the largest difference in V between ports at its ends."""

    amps: float
    drop: float
    conductors: Mapping[int, float]
    """Conductor index to A, from its source to its target."""


@dataclass(frozen=True, slots=True)
class SourcePower:
    """A source: V at its terminals, A out of it, W."""

    volts: float
    amps: float

    @property
    def watts(self) -> float:
        """W out of it."""
        return self.volts * self.amps


@dataclass(frozen=True, slots=True)
class PointPower:
    """One operating point. Without a solution its tables are empty. `weak` is the item at which it collapses."""

    solved: bool
    collapsed: bool
    find_margin: Callable[[], float] = field(repr=False, compare=False)
    """Works out `margin`, which few ask for."""
    weak: str | None
    ports: Mapping[PortRef, PortPower]
    leads: Mapping[str, LeadPower]
    sources: Mapping[str, SourcePower]
    """By place, `item.cell`."""
    solution: Solution | None

    @property
    def margin(self) -> float:
        """By how much every constant power can be multiplied before nothing holds any more, at most 10."""
        return self.find_margin()


@dataclass(frozen=True, slots=True)
class Power:
    """The study of one setup."""

    circuit: RigCircuit
    network: Network
    points: Mapping[Point, PointPower]
    peaking: Mapping[int, float]
    """Index of a load to its peak amount, for those that peak at change."""


def study_power(
    rig: Rig, setup: Setup, network: PinNetwork, house: House, idle: Collection[tuple[str, str]] = ()
) -> Power:
    """The study; `idle`: (item, rail) of loads to leave out, such as those that are fed reversed.

    Raises SolveFailed where the iteration fails though a solution may exist: an internal error.
    """
    figures = house.power
    built = build_rig_circuit(rig, setup, network, figures.wire_temperature, idle)
    solver = Network(built.circuit)
    peaking = find_peaking(built, figures)
    points = {}
    start: Solution | None = None
    for point in Point:
        points[point] = _solve_point(rig, built, solver, point, figures, peaking, start)
        start = points[point].solution
    return Power(built, solver, points, peaking)


def curve_of(cell: Cell) -> DischargeCurve:
    """The discharge curve of a cell: its own, else that of lithium-ion stretched to its volts."""
    return stretch_curve(cell.volts.low, cell.volts.high, cell.curve or LITHIUM_ION_CURVE)


def list_cell_volts(sources: tuple[Source, ...], point: Point, figures: PowerFigures) -> list[float]:
    """The electromotive force of each source at a point, V."""
    return [_cell_volts(source, point, figures) for source in sources]


def _cell_volts(source: Source, point: Point, figures: PowerFigures) -> float:
    if source.fixed is not None:
        return source.fixed
    cell = source.cell
    if point is Point.FULL:
        return cell.volts.high
    return cell.nominal if point is Point.TYPICAL else curve_of(cell).find_volts(figures.change_at)


def list_cell_ohms(built: RigCircuit, factor: float = 1.0) -> list[float]:
    """The internal resistance of each cell; infinite where its item is off."""
    return [cell.ohms * factor for cell in built.circuit.cells]


def find_peaking(built: RigCircuit, figures: PowerFigures) -> dict[int, float]:
    """The loads that peak at change: of those that share a source, the few with the largest extra."""
    peaking: dict[int, float] = {}
    for index, (source, loads) in enumerate(zip(built.sources, list_fed_loads(built), strict=True)):
        if math.isinf(built.circuit.cells[index].ohms):
            continue
        fed = [load for load in loads if load not in built.idle]
        extras = sorted(((-_extra_watts(built.loads[load], source), load) for load in fed), key=lambda pair: pair)
        for extra, load in extras[: figures.peaks]:
            peak = built.loads[load].rail.peak
            if extra < 0 and peak is not None:
                peaking[load] = peak.amount
    return peaking


def _extra_watts(load: Load, source: Source) -> float:
    peak = load.rail.peak
    return peak.watts_at(source.nominal) - load.draw.watts_at(source.nominal) if peak is not None else 0.0


def list_fed_loads(built: RigCircuit) -> list[list[int]]:
    """For each source the indices of the loads that it feeds: through resistors either way, diodes and regulators
    forward."""
    onward = _list_onward(built)
    fed = []
    for cell in built.circuit.cells:
        reached = _walk(onward, cell.plus)
        fed.append([index for index, load in enumerate(built.circuit.loads) if load.plus in reached])
    return fed


def walk_onward(built: RigCircuit, start: int) -> set[int]:
    """The nodes that current from a node can reach: through resistors either way, diodes and regulators forward."""
    return _walk(_list_onward(built), start)


def _list_onward(built: RigCircuit) -> dict[int, list[int]]:
    circuit = built.circuit
    onward: dict[int, list[int]] = {}
    for resistor in circuit.resistors:
        onward.setdefault(resistor.a, []).append(resistor.b)
        onward.setdefault(resistor.b, []).append(resistor.a)
    for diode in circuit.diodes:
        onward.setdefault(diode.anode, []).append(diode.cathode)
    for regulator in circuit.regulators:
        onward.setdefault(regulator.input, []).append(regulator.output)
    return onward


def _walk(onward: Mapping[int, list[int]], start: int) -> set[int]:
    reached, frontier = {start}, [start]
    while frontier:
        for node in onward.get(frontier.pop(), ()):
            if node not in reached:
                reached.add(node)
                frontier.append(node)
    return reached


def _solve_point(
    rig: Rig,
    built: RigCircuit,
    solver: Network,
    point: Point,
    figures: PowerFigures,
    peaking: Mapping[int, float],
    start: Solution | None,
) -> PointPower:
    is_change = point is Point.CHANGE
    volts = list_cell_volts(built.sources, point, figures)
    ohms = list_cell_ohms(built, CHANGE_OHMS if is_change else 1.0)
    amounts = built.list_amounts(peaking if is_change else {})

    def find_margin(most: float = MOST) -> Margin:
        return solver.find_margin(cell_volts=volts, cell_ohms=ohms, load_amounts=amounts, most=most)

    try:
        solution = solver.solve(cell_volts=volts, cell_ohms=ohms, load_amounts=amounts, start=start)
        margin = None if solution.is_unhindered else find_margin(1.0)
        margin = find_margin() if margin is not None and margin.collapses else None
    except Collapse as collapse:
        weak = built.regulators[collapse.regulators[0]].owner if collapse.regulators else None
        return PointPower(False, True, lambda: 0.0, weak, {}, {}, {}, None)
    weak = None
    if margin is not None:
        weak = built.loads[margin.load].item if margin.load is not None else None
        if margin.load is None and margin.regulator is not None:
            weak = built.regulators[margin.regulator].owner
    ports = measure_ports(built, solution)
    return PointPower(
        solved=True,
        collapsed=margin is not None,
        find_margin=(lambda: margin.s) if margin is not None else (lambda: find_margin().s),
        weak=weak,
        ports=ports,
        leads=_measure_leads(rig, built, solution, ports),
        sources={
            source.place: SourcePower(float(solution.cell_volts[index]), float(solution.cell_amps[index]))
            for index, source in enumerate(built.sources)
        },
        solution=solution,
    )


def measure_ports(built: RigCircuit, solution: Solution) -> dict[PortRef, PortPower]:
    """Every port with a feed and a minus: volts at the device's side, amps into the part over its mates."""
    amps: dict[int, float] = {}
    for join, current in zip(built.joins, solution.resistor_amps.tolist(), strict=True):
        if not isinstance(join, (OneWay, Regulator)) and join.kind is JoinKind.MATE:
            amps[join.first] = amps.get(join.first, 0.0) - current
            amps[join.second] = amps.get(join.second, 0.0) + current
    return {
        port.ref: PortPower(
            solution.measure_volts(port.plus, port.minus) if port.plus is not None and port.minus is not None else 0.0,
            sum(amps.get(pin, 0.0) for pin in port.feeds),
        )
        for port in built.ports
    }


def _measure_leads(
    rig: Rig, built: RigCircuit, solution: Solution, ports: Mapping[PortRef, PortPower]
) -> dict[str, LeadPower]:
    conductors: dict[str, dict[int, float]] = {}
    for index, join in enumerate(built.joins):
        if join.conductor is not None:
            currents = conductors.setdefault(join.owner, {})
            currents[join.conductor.index] = float(solution.resistor_amps[index])
    found = {}
    for label in sorted({pin.owner for pin in built.network.pins if pin.is_lead}):
        volts = [ports[ref].volts for ref in rig.leads[label].plugged.values() if ref in ports]
        currents = conductors.get(label, {})
        found[label] = LeadPower(
            amps=max((abs(current) for current in currents.values()), default=0.0),
            drop=max(volts) - min(volts) if volts else 0.0,
            conductors=currents,
        )
    return found
