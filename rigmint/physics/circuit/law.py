"""What each port of a frame does: amps against volts, at one operating point and one pattern of regulators."""

from dataclasses import dataclass, replace

import numpy as np

from rigmint.physics.circuit.arrays import Bools, Floats
from rigmint.physics.circuit.elements import LEAST_INPUT_VOLTS, Circuit, LoadKind
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.modes import LIMITED, Modes

STIFF_OHMS = 1e-7
"""Behind every diode and regulator, and behind cells of zero ohms that stand across each other: shares the current
of two that are paralleled, at a cost of 1 µV in 10 A."""

_CHANGES_ABOVE = np.array([0.0, 0.0, 1.0, -1.0])
"""By output mode: OPEN and HOLDING do not change by volts, LIMITED above its volts, IDLE below."""

DRAWING_AMPS = 1e-9
"""Less than this out of a regulator is nothing."""

_NO_WINDOW_VOLTS = 1e-3
"""Stands for no window where windows are ignored: P / V needs some floor."""


@dataclass(frozen=True, slots=True)
class Law:
    """Values of all ports. Loads and weak resistors draw power / V + current + siemens × V from `low` volts up, and
    low_siemens × V under that."""

    power: Floats
    current: Floats
    siemens: Floats
    low: Floats
    low_siemens: Floats
    cell_volts: Floats
    cell_ohms: Floats
    drop: Floats
    output_volts: Floats
    output_limit: Floats
    input_low: Floats
    input_gain: Floats
    """Input watts for each output watt; zero where a regulator is off."""
    on: Bools

    def unload(self) -> "Law":
        """The same with no loads, and regulators that draw nothing and have no limit.

        Limited, a regulator that a first guess drove to its limit would have nowhere to send those amps, and a diode
        behind it would open and close for ever. Without limits the volts are never lower, and bound those with.
        """
        nothing = np.zeros_like(self.power)
        weak = np.where(np.isinf(self.low), self.siemens, 0.0)
        return replace(
            self,
            power=nothing,
            current=nothing,
            siemens=weak,
            low_siemens=weak,
            input_gain=self.input_gain * 0.0,
            output_limit=np.full_like(self.output_limit, np.inf),
        )

    def scale_power(self, factor: float) -> "Law":
        """The same with every constant power multiplied."""
        return _with_low_siemens(replace(self, power=self.power * factor))

    def keep_power(self, kept: Bools) -> "Law":
        """The same with only these of the constant powers."""
        return _with_low_siemens(replace(self, power=np.where(kept, self.power, 0.0)))

    def ignore_windows(self) -> "Law":
        """The same with no windows, no current limits and no lower end of any regulator's input."""
        floor = np.where(np.isinf(self.low), self.low, _NO_WINDOW_VOLTS)
        return _with_low_siemens(
            replace(
                self,
                low=floor,
                output_limit=np.full_like(self.output_limit, np.inf),
                input_low=np.full_like(self.input_low, _NO_WINDOW_VOLTS),
            )
        )

    def switch_regulators(self, on: Bools, gain: Floats) -> "Law":
        """The same with these regulators on; gain: input watts an output watt of each when on."""
        if on.tobytes() == self.on.tobytes() and (self.input_gain is gain or not gain.size):
            return self
        return replace(self, on=on, input_gain=np.where(on, gain, 0.0))

    def draw(self, volts: Floats) -> Floats:
        """Amps into the loads and weak resistors at these volts."""
        above = volts >= self.low
        held = np.where(above, volts, 1.0)
        return np.where(above, self.power / held + self.current + self.siemens * held, self.low_siemens * volts)

    def compute_slope(self, volts: Floats, *, positive: bool) -> Floats:
        """Siemens of the loads and weak resistors at these volts.

        positive: count what power and current draw as if a resistance drew it.
        """
        above = volts >= self.low
        held = np.where(above, volts, 1.0)
        of_power = self.power / (held * held)
        bent = of_power + self.current / held if positive else -of_power
        return np.where(above, self.siemens + bent, self.low_siemens)

    def feed(self, volts: Floats, output_power: Floats) -> Floats:
        """Amps into regulator inputs at these volts, for this output power."""
        above = volts >= self.input_low
        per_watt = np.where(above, 1.0 / np.where(above, volts, 1.0), volts / (self.input_low * self.input_low))
        return self.input_gain * np.maximum(output_power, 0.0) * per_watt


def build_law(circuit: Circuit, frame: Frame) -> Law:
    """The law of a circuit as it is stated, every regulator on."""
    loads, regulators = circuit.loads, circuit.regulators
    weak = [1.0 / circuit.resistors[index].ohms for index in frame.weak_resistor.tolist()]
    amounts = np.array([load.amount for load in loads], dtype=np.float64)
    law = Law(
        power=np.zeros(len(loads) + len(weak)),
        current=np.zeros(len(loads) + len(weak)),
        siemens=np.array([0.0] * len(loads) + weak),
        low=np.array([load.window_low for load in loads] + [np.inf] * len(weak)),
        low_siemens=np.zeros(0),
        cell_volts=np.array([cell.volts for cell in circuit.cells], dtype=np.float64),
        cell_ohms=np.array([cell.ohms for cell in circuit.cells], dtype=np.float64),
        drop=np.array([diode.drop for diode in circuit.diodes], dtype=np.float64),
        output_volts=np.array([regulator.volts for regulator in regulators], dtype=np.float64),
        output_limit=np.array([np.inf if r.max_amps is None else r.max_amps for r in regulators], dtype=np.float64),
        input_low=np.array([max(r.takes_low, LEAST_INPUT_VOLTS) for r in regulators], dtype=np.float64),
        input_gain=np.array([1.0 / r.efficiency for r in regulators], dtype=np.float64),
        on=np.ones(len(regulators), dtype=np.bool_),
    )
    return set_amounts(law, circuit, amounts)


def set_amounts(law: Law, circuit: Circuit, amounts: Floats) -> Law:
    """The same with these amounts of the loads, in the unit of each load's kind."""
    kinds = [load.kind for load in circuit.loads]
    power, current, siemens = law.power.copy(), law.current.copy(), law.siemens.copy()
    count = len(kinds)
    for kind, target in ((LoadKind.POWER, power), (LoadKind.CURRENT, current)):
        target[:count] = np.where([each is kind for each in kinds], amounts, 0.0)
    resistive = np.array([each is LoadKind.RESISTANCE for each in kinds], dtype=np.bool_)
    siemens[:count] = np.where(resistive, 1.0 / np.where(resistive, amounts, 1.0), 0.0)
    return _with_low_siemens(replace(law, power=power, current=current, siemens=siemens))


def set_cells(law: Law, volts: Floats, ohms: Floats) -> Law:
    """The same with these cells."""
    return replace(law, cell_volts=volts, cell_ohms=ohms)


def _with_low_siemens(law: Law) -> Law:
    return replace(law, low_siemens=(law.power / law.low + law.current) / law.low + law.siemens)


@dataclass(frozen=True, slots=True)
class FixedLaw:
    """What modes make of a law: cells, diodes and outputs obey alpha × amps + beta × volts = constant.

    Diodes and outputs, in this order, are the *switching* ports; what would break their mode is stated here, too.
    """

    modes: Modes
    alpha: Floats
    beta: Floats
    constant: Floats
    held: Bools
    """Switching ports that are at given volts: what breaks their mode is their amps."""
    threshold: Floats
    """Volts of switching ports at which those that are not held change."""
    above: Floats
    """1 where they change above the threshold, -1 below it, 0 never."""
    forward: Floats
    """1 where amps count from a to b, for diodes; -1 where out of a, for outputs."""
    most: Floats
    """Most amps of those that are held: forward through a diode, out of an output."""
    conducts: Bools
    """Which ports hold two pieces of wiring together, all but regulator inputs: those through which current flows,
    or would if volts changed."""
    volts: float
    """What counts as large in volts: the highest source or regulator, at least a millivolt."""


def fix_law(frame: Frame, law: Law, modes: Modes) -> FixedLaw:
    """What these modes make of a law."""
    cell_in = np.isfinite(law.cell_ohms)
    switched_on = np.concatenate((modes.conducting, modes.holding))
    held = np.concatenate((cell_in, switched_on))
    ohms = np.concatenate((np.where(cell_in, law.cell_ohms, 0.0), np.full(switched_on.size, STIFF_OHMS)))
    threshold = np.concatenate((law.drop, law.output_volts))
    volts = np.concatenate((law.cell_volts, threshold))
    amps = np.zeros(held.size)
    limit = np.where(np.isinf(law.output_limit), 0.0, law.output_limit)
    amps[held.size - frame.regulators :] = np.where(modes.outputs == LIMITED, -limit, 0.0)
    conducts = np.zeros(frame.ports, dtype=np.bool_)
    conducts[frame.drawing] = law.low_siemens > 0.0
    conducts[frame.fixed] = held
    return FixedLaw(
        modes=modes,
        alpha=np.where(held, -ohms, 1.0),
        beta=held.astype(np.float64),
        constant=np.where(held, volts, amps),
        held=switched_on,
        threshold=threshold,
        above=np.concatenate((np.ones(frame.diodes), _CHANGES_ABOVE[modes.outputs])),
        forward=np.concatenate((np.ones(frame.diodes), -np.ones(frame.regulators))),
        most=np.concatenate((np.full(frame.diodes, np.inf), law.output_limit)),
        conducts=conducts,
        volts=float(np.abs(volts).max(initial=1e-3)),
    )


def find_drawing(law: Law, output_amps: Floats) -> Bools:
    """Which regulator inputs draw current and so hold two pieces of wiring together; amps: into the outputs."""
    return np.asarray((law.input_gain > 0.0) & (output_amps < -DRAWING_AMPS))


def find_conducting_ports(frame: Frame, fixed: FixedLaw, drawing: Bools) -> Bools:
    """Which ports hold two pieces of wiring together; drawing: which regulator inputs do."""
    conducts = fixed.conducts.copy()
    conducts[frame.input] = drawing
    return conducts
