"""The elements of a direct-current circuit, on integer nodes. SI units."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from rigmint.physics.circuit.errors import BadCircuit

ZERO_OHMS = 1e-9
"""A resistor of less than this is a joint: its two nodes are one."""

LEAST_INPUT_VOLTS = 0.1
"""No regulator runs from less than this, whatever it states: P / V has no meaning at zero."""


class LoadKind(Enum):
    """What a load holds constant inside its window."""

    POWER = "power"
    CURRENT = "current"
    RESISTANCE = "resistance"


@dataclass(frozen=True, slots=True)
class Resistor:
    """A conductor, contact, fuse or closed switch: `ohms` between `a` and `b`; its current counts from a to b."""

    a: int
    b: int
    ohms: float


@dataclass(frozen=True, slots=True)
class Cell:
    """A source: `volts` of electromotive force behind `ohms`. Its current counts out of `plus`.

    Infinite `ohms` is a cell that is switched off or taken out.
    """

    plus: int
    minus: int
    volts: float
    ohms: float


@dataclass(frozen=True, slots=True)
class Diode:
    """Drops `drop` volts when it conducts from `anode` to `cathode`, open otherwise."""

    anode: int
    cathode: int
    drop: float = 0.4


@dataclass(frozen=True, slots=True)
class Load:
    """What a device draws: `amount` in watts, amps or ohms by `kind`; its current counts into `plus`.

    From `window_low` volts up it holds its amount; under that (also reversed) it is the resistance that draws the
    same at `window_low`. Zero watts or amps and infinite ohms are a load that is switched off.
    """

    plus: int
    minus: int
    kind: LoadKind
    amount: float
    window_low: float = 0.5


@dataclass(frozen=True, slots=True)
class Regulator:
    """Holds `volts` between `output` and `ground`, from what it draws between `input` and `ground`.

    On while its input is from `takes_low` to `takes_high`: output `volts` up to `max_amps` (None: no limit), then
    a constant current of `max_amps`; input power is output power over `efficiency`. It takes no current back at
    its output: a foreign source that holds the output higher leaves it on, at zero current. Off: open both ways.
    """

    input: int
    output: int
    ground: int
    volts: float
    takes_low: float
    takes_high: float = math.inf
    max_amps: float | None = None
    efficiency: float = 0.9


@dataclass(frozen=True, slots=True)
class Circuit:
    """A circuit on the nodes 0 to `nodes` - 1. Raises BadCircuit if an element cannot be."""

    nodes: int
    resistors: tuple[Resistor, ...] = ()
    cells: tuple[Cell, ...] = ()
    diodes: tuple[Diode, ...] = ()
    loads: tuple[Load, ...] = ()
    regulators: tuple[Regulator, ...] = ()

    def __post_init__(self) -> None:
        for resistor in self.resistors:
            self._check_nodes(resistor, resistor.a, resistor.b)
            _check(resistor, resistor.ohms >= 0.0, "resistance must be a number from zero up")
        for cell in self.cells:
            self._check_nodes(cell, cell.plus, cell.minus)
        check_cells([cell.volts for cell in self.cells], [cell.ohms for cell in self.cells])
        for diode in self.diodes:
            self._check_nodes(diode, diode.anode, diode.cathode)
            _check(diode, 0.0 <= diode.drop < math.inf, "drop must be a number from zero up")
        for load in self.loads:
            self._check_nodes(load, load.plus, load.minus)
            _check(load, 0.0 < load.window_low < math.inf, "window must begin above zero")
        check_amounts(self.loads, [load.amount for load in self.loads])
        for regulator in self.regulators:
            self._check_nodes(regulator, regulator.input, regulator.output, regulator.ground)
            _check_regulator(regulator)

    def _check_nodes(self, element: object, *nodes: int) -> None:
        for node in nodes:
            _check(element, 0 <= node < self.nodes, f"node {node} is not in this circuit")


def check_cells(volts: Iterable[float], ohms: Iterable[float]) -> None:
    """Raise BadCircuit unless every cell has finite volts and ohms from zero up."""
    for index, (electromotive, internal) in enumerate(zip(volts, ohms, strict=True)):
        _check(f"cell {index}", math.isfinite(electromotive), "volts must be a finite number")
        _check(f"cell {index}", internal >= 0.0, "resistance must be a number from zero up")


def check_amounts(loads: tuple[Load, ...], amounts: Iterable[float]) -> None:
    """Raise BadCircuit unless every load has an amount that its kind can have."""
    for load, amount in zip(loads, amounts, strict=True):
        if load.kind is LoadKind.RESISTANCE:
            _check(load, amount > 0.0, "resistance of a load must be above zero")
        else:
            _check(load, 0.0 <= amount < math.inf, "amount must be a number from zero up")


def _check_regulator(regulator: Regulator) -> None:
    _check(regulator, 0.0 < regulator.volts < math.inf, "output must be above zero volts")
    _check(regulator, 0.0 < regulator.efficiency <= 1.0, "efficiency must be above 0 and at most 1")
    _check(
        regulator,
        0.0 <= regulator.takes_low <= regulator.takes_high,
        "input window must be a range from zero up",
    )
    limit = regulator.max_amps
    _check(regulator, limit is None or limit >= 0.0, "current limit must be a number from zero up")


def _check(element: object, holds: bool, says: str) -> None:
    if not holds:
        msg = f"{says}: {element}"
        raise BadCircuit(msg)
