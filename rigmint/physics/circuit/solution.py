"""The solution of a circuit, on its own nodes and elements."""

from dataclasses import dataclass, field
from enum import Enum

from rigmint.physics.circuit.arrays import Bools, Floats, Ints
from rigmint.physics.circuit.newton import State
from rigmint.physics.circuit.settle import Sag


class RegulatorState(Enum):
    """What a regulator is doing. ON: at its volts, or held up by a foreign source. LIMITED: at its current limit."""

    OFF = "off"
    ON = "on"
    LIMITED = "limited"


@dataclass(frozen=True, slots=True)
class Origin:
    """How a solution came about: what the next one, close by, may start from."""

    state: State
    on: Bools
    sag: Sag
    cell_volts: Floats
    cell_ohms: Floats
    amounts: Floats
    drawing: Bools
    """Which regulator inputs draw."""
    draws: Bools
    """Which loads and weak resistors draw."""


@dataclass(frozen=True, slots=True)
class Solution:
    """Volts and amps of a circuit at one operating point; all arrays are in the order of the circuit's elements."""

    potentials: Floats
    """Volts of each node against its island's reference: the minus of a source where there is one."""
    islands: Ints
    """For each node the island that it belongs to: what conducts joins nodes into one."""
    resistor_amps: Floats
    """From a to b."""
    cell_amps: Floats
    """Out of plus; below zero where a cell is being charged."""
    cell_volts: Floats
    """At the terminals, plus against minus."""
    diode_amps: Floats
    """From anode to cathode, never below zero."""
    load_amps: Floats
    """Into plus."""
    load_volts: Floats
    """Plus against minus."""
    input_amps: Floats
    """Into each regulator's input."""
    output_amps: Floats
    """Out of each regulator's output."""
    input_volts: Floats
    """Input against ground of each regulator."""
    output_volts: Floats
    """Output against ground of each regulator."""
    regulator_states: tuple[RegulatorState, ...]
    diode_conducts: tuple[bool, ...]
    iterations: int
    """Rounds of Newton's iteration in all."""
    origin: Origin = field(repr=False, compare=False)

    @property
    def is_unhindered(self) -> bool:
        """Whether every load is in its window and every regulator on, in its window and below its limit: then it would
        be an operating point if there were no windows and no limits."""
        return not self.origin.sag.any() and bool(self.origin.on.all())

    def measure_volts(self, plus: int, minus: int) -> float:
        """Volts of one node against another. Nothing holds two islands apart: between them there are none."""
        if self.islands[plus] != self.islands[minus]:
            return 0.0
        return float(self.potentials[plus] - self.potentials[minus])
