"""Runtime: how long each battery lasts at typical load, and what the largest load shows when it is changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.physics.battery import Battery, Draw, Stop, discharge
from rigmint.physics.circuit import Collapse, Solution
from rigmint.rig.electric import Role
from rigmint.rig.house import House
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.power import Point as OperatingPoint
from rigmint.study.power import Power, curve_of, list_cell_ohms, list_cell_volts, measure_ports
from rigmint.study.rig_circuit import RigCircuit

_COLD_BELOW = 268.15
"""K (-5 degC): below it a battery gives what the library's `cold` leaves."""
_CARRIES_AMPS = 1e-6


@dataclass(frozen=True, slots=True)
class Course:
    """The way down: (s, open-circuit V of each battery) at the start and after each step, with the indices of these
    batteries among the circuit's sources; s are stretched as the runtimes are, by age and cold."""

    sources: tuple[int, ...]
    points: tuple[tuple[float, tuple[float, ...]], ...]


@dataclass(frozen=True, slots=True)
class Runtime:
    """Item of a battery to s (None: it gives no current); the port of the largest load that a battery feeds to the V
    that it shows at the change. `failed`: the run ended because a loaded port left its window, at this place. `left`:
    item to the fraction that its battery, the emptiest of several, has left at the end."""

    seconds: Mapping[str, float | None]
    change_volts: Mapping[PortRef, float]
    failed: PortRef | None
    left: Mapping[str, float]
    course: Course


def study_runtime(rig: Rig, setup: Setup, power: Power, house: House) -> Runtime:
    """From full to the first battery's change, or until a loaded port leaves its window; aged, and cold where the job
    is below -5 degC."""
    built = power.circuit
    indices = [
        index
        for index, source in enumerate(built.sources)
        if source.cell.is_battery and source.fixed is None and source.item not in setup.off
    ]
    if not indices:
        return Runtime({}, {}, None, {}, Course((), ()))
    batteries = [_make_battery(built, index) for index in indices]
    run = _Run(rig, power, house, indices)
    result = discharge(batteries, run.draw, house.power.change_at)
    factor = house.power.age * (house.power.cold if is_cold(setup) else 1.0)
    seconds: dict[str, float | None] = {}
    left: dict[str, float] = {}
    for index, lasted, fraction in zip(indices, result.seconds, result.left, strict=True):
        item = built.sources[index].item
        best = seconds.get(item)
        seconds[item] = lasted * factor if lasted is not None else best
        left[item] = min(fraction, left.get(item, 1.0))
    failed = run.failed if result.stop is Stop.FAILED else None
    course = Course(tuple(indices), tuple((time * factor, volts) for time, volts in result.trace))
    return Runtime(seconds, run.find_change_volts(result.volts), failed, left, course)


def is_cold(setup: Setup) -> bool:
    """Whether the job is below -5 degC."""
    return setup.needs.temperature is not None and setup.needs.temperature < _COLD_BELOW


def _make_battery(built: RigCircuit, index: int) -> Battery:
    cell = built.sources[index].cell
    curve = curve_of(cell)
    return Battery(curve, curve.compute_charge(cell.energy or 0.0))


@dataclass(frozen=True, slots=True)
class _Watched:
    """A loaded input, its nodes, and the lower end of its window in V."""

    ref: PortRef
    plus: int
    minus: int
    low: float


class _Run:
    """One discharge: solves the circuit at the volts of the moment, each time from the last solution."""

    def __init__(self, rig: Rig, power: Power, house: House, indices: list[int]) -> None:
        self._rig = rig
        self._power = power
        self._indices = indices
        built = power.circuit
        self._volts = list_cell_volts(built.sources, OperatingPoint.TYPICAL, house.power)
        self._ohms = list_cell_ohms(built)
        self._amounts = built.list_amounts({})
        self._start: Solution | None = None
        self._watched = self._list_watched()
        self.failed: PortRef | None = None

    def draw(self, volts: tuple[float, ...]) -> Draw:
        """Amps out of each battery at these open-circuit volts, and whether all loaded ports are in their windows."""
        try:
            solution = self._solve(volts)
        except Collapse:
            return Draw(tuple(0.0 for _ in volts), works=False)
        failed = next((one.ref for one in self._watched if solution.measure_volts(one.plus, one.minus) < one.low), None)
        if failed is not None:
            self.failed = failed  # kept over the trials that work while the stop is located
        amps = tuple(float(solution.cell_amps[index]) for index in self._indices)
        return Draw(amps, works=failed is None)

    def find_change_volts(self, volts: tuple[float, ...]) -> dict[PortRef, float]:
        """What the largest load shows at its own port, for each battery's largest load."""
        try:
            solution = self._solve(volts)
        except Collapse:
            return {}
        built = self._power.circuit
        ports = measure_ports(built, solution)
        watts = [float(v * a) for v, a in zip(solution.load_volts, solution.load_amps, strict=True)]
        if not watts or max(watts) <= 0:
            return {}
        item = built.loads[max(range(len(watts)), key=lambda index: (watts[index], -index))].item
        fed = [ref for ref, port in ports.items() if ref.item == item and port.amps > _CARRIES_AMPS]
        best = max(fed, key=lambda ref: ports[ref].watts, default=None)
        return {best: ports[best].volts} if best is not None else {}

    def _solve(self, volts: tuple[float, ...]) -> Solution:
        everywhere = list(self._volts)
        for index, value in zip(self._indices, volts, strict=True):
            everywhere[index] = value
        self._start = self._power.network.solve(
            cell_volts=everywhere, cell_ohms=self._ohms, load_amounts=self._amounts, start=self._start
        )
        return self._start

    def _list_watched(self) -> list[_Watched]:
        """Loaded inputs that are in their window with full batteries."""
        full = self._power.points[OperatingPoint.FULL].ports
        watched = []
        for terminals in self._power.circuit.ports if full else ():
            port, power = self._rig.port(terminals.ref), full[terminals.ref]
            if port.role is Role.OUT or port.works is None or power.amps <= _CARRIES_AMPS:
                continue
            is_inside = power.volts >= port.works.low
            if terminals.plus is not None and terminals.minus is not None and is_inside:
                watched.append(_Watched(terminals.ref, terminals.plus, terminals.minus, port.works.low))
        return watched
