"""How long circuits take to solve, and how that grows. Run from the top of the checkout:

    python tests/bench/bench_circuit.py            all sizes, one line each
    python tests/bench/bench_circuit.py 40 400     these sizes

Builds circuits like rigs: batteries with an internal resistance, plates and breakouts with taps in branches and in
chains, a lead of two conductors with contacts to each device, constant-power loads, a regulator in every fourth
device with loads behind it, two batteries through diodes in every tenth. CPU time, best of several runs:

    prepare   reducing the wiring, once a circuit
    point     one operating point, from nothing
    margin    one collapse margin
    runtime   a discharge in steps of 1/64, each from the solution before it
    rig       two setups: prepare, three points with a margin each, and a runtime, which is all that a rig is asked
    growth    of `rig`, against the size before: the exponent
"""

import math
import sys
import time
from collections.abc import Callable
from random import Random

from rigmint.physics.battery import Battery, Draw, discharge, stretch_curve
from rigmint.physics.circuit import (
    Cell,
    Circuit,
    Diode,
    Load,
    LoadKind,
    Network,
    Regulator,
    Resistor,
    Solution,
)

SIZES = (10, 40, 100, 400)
CHANGE_AT = 0.15


class Builder:
    """Lays down a circuit element by element."""

    def __init__(self, seed: int) -> None:
        self.random = Random(seed)
        self.nodes = 0
        self.resistors: list[Resistor] = []
        self.cells: list[Cell] = []
        self.diodes: list[Diode] = []
        self.loads: list[Load] = []
        self.regulators: list[Regulator] = []

    def add_node(self) -> int:
        """A new node."""
        self.nodes += 1
        return self.nodes - 1

    def add_lead(self, plus: int, minus: int) -> tuple[int, int]:
        """Contact, conductor, contact, on both sides; the far ends."""
        ends = []
        for node in (plus, minus):
            here = node
            for ohms in (0.005, self.random.uniform(0.01, 0.05), 0.005):
                there = self.add_node()
                self.resistors.append(Resistor(here, there, ohms))
                here = there
            ends.append(here)
        return ends[0], ends[1]

    def add_source(self) -> tuple[int, int]:
        """A battery behind a mate; its far plus and minus."""
        plus, minus = self.add_node(), self.add_node()
        self.cells.append(Cell(plus, minus, 16.8, 0.08))
        return self.add_lead(plus, minus)

    def add_device(self, plus: int, minus: int, *, regulated: bool) -> None:
        """A device on the far end of a lead."""
        self.loads.append(Load(plus, minus, LoadKind.POWER, self.random.uniform(1.0, 4.0), 11.0))
        if regulated:
            rail = self.add_node()
            self.regulators.append(Regulator(plus, rail, minus, 5.0, 5.5, max_amps=3.0))
            far_plus, far_minus = self.add_lead(rail, minus)
            self.loads.append(Load(far_plus, far_minus, LoadKind.POWER, 1.0, 4.5))

    def build(self) -> Circuit:
        """The circuit."""
        return Circuit(
            self.nodes,
            tuple(self.resistors),
            tuple(self.cells),
            tuple(self.diodes),
            tuple(self.loads),
            tuple(self.regulators),
        )


def build_rig(items: int, seed: int = 1) -> Circuit:
    """A circuit like that of a rig of so many items, a package of ten to each battery."""
    builder = Builder(seed)
    ground: int | None = None
    for first in range(0, items, 20):
        plus, minus = builder.add_source()
        if first % 40 == 0:
            second_plus, second_minus = builder.add_source()
            rail = builder.add_node()
            builder.diodes += [Diode(plus, rail, 0.4), Diode(second_plus, rail, 0.4)]
            builder.resistors.append(Resistor(second_minus, minus, 0.005))
            plus = rail
        if ground is not None:
            builder.resistors.append(Resistor(ground, minus, 0.02))
        ground = minus
        taps = [(plus, minus)]
        for number in range(first, min(first + 20, items)):
            tap = taps[builder.random.randrange(len(taps))] if number % 3 else taps[-1]
            end = builder.add_lead(*tap)
            if number % 5 == 0:
                taps.append(end)
            else:
                builder.add_device(*end, regulated=number % 4 == 1)
    return builder.build()


def run_discharge(network: Network) -> None:
    """Discharge all cells of a network to their change."""
    curve = stretch_curve(12.0, 16.8)
    batteries = [Battery(curve, curve.compute_charge(98.0 * 3600.0)) for _ in network.circuit.cells]
    last: Solution | None = None

    def draw(volts: tuple[float, ...]) -> Draw:
        nonlocal last
        last = network.solve(cell_volts=volts, start=last)
        return Draw(tuple(last.cell_amps.tolist()))

    discharge(batteries, draw, CHANGE_AT)


def run_rig(circuit: Circuit) -> None:
    """All that is asked of a rig of two setups."""
    for _ in range(2):
        network = Network(circuit)
        for volts, wear in ((16.8, 1.0), (14.4, 1.0), (14.0, 1.5)):
            at, ohms = [volts] * len(circuit.cells), [cell.ohms * wear for cell in circuit.cells]
            network.solve(cell_volts=at, cell_ohms=ohms)
            network.find_margin(cell_volts=at, cell_ohms=ohms)
        run_discharge(network)


def measure(work: Callable[[], object], least: float = 0.2) -> float:
    """CPU seconds of one run: the best of as many as fit in `least` seconds, at least one."""
    best, spent = math.inf, 0.0
    while spent < least:
        start = time.process_time()
        work()
        took = time.process_time() - start
        best, spent = min(best, took), spent + max(took, 1e-6)
    return best


def measure_size(items: int) -> tuple[str, float]:
    """The line of one size, without its growth, and the seconds of its whole rig."""
    circuit = build_rig(items)
    network = Network(circuit)
    bent = len(circuit.loads) + len(circuit.diodes) + len(circuit.regulators)
    elements = bent + len(circuit.resistors) + len(circuit.cells)
    times = [
        measure(lambda: Network(circuit)),
        measure(network.solve),
        measure(network.find_margin),
        measure(lambda: run_discharge(network)),
        measure(lambda: run_rig(circuit)),
    ]
    columns = " ".join(f"{1e3 * each:9.2f}" for each in times)
    return f"{items:5} {circuit.nodes:5} {elements:8} {bent:9} {columns}", times[-1]


def main(sizes: tuple[int, ...]) -> None:
    """Print one line for each size."""
    print("items nodes elements nonlinear   prepare     point    margin   runtime       rig   growth   (ms of CPU)")
    before: tuple[int, float] | None = None
    for items in sizes:
        line, seconds = measure_size(items)
        growth = "" if before is None else f"{math.log(seconds / before[1]) / math.log(items / before[0]):9.2f}"
        print(f"{line}{growth}")
        before = (items, seconds)


if __name__ == "__main__":
    main(tuple(int(each) for each in sys.argv[1:]) or SIZES)
