"""Direct-current circuits with constant-power loads, diodes and regulators, by nodal analysis and Newton's iteration.

`elements` says what a circuit is made of; `Network` prepares one and solves it at any number of operating points;
`solve` and `collapse_margin` do so once.
"""

from rigmint.physics.circuit.elements import Cell, Circuit, Diode, Load, LoadKind, Regulator, Resistor
from rigmint.physics.circuit.errors import BadCircuit, Collapse, EnergyImbalance, SolveFailed
from rigmint.physics.circuit.follow import Follower
from rigmint.physics.circuit.margin import MOST, Margin
from rigmint.physics.circuit.network import Network, collapse_margin, solve
from rigmint.physics.circuit.solution import RegulatorState, Solution

__all__ = [
    "MOST",
    "BadCircuit",
    "Cell",
    "Circuit",
    "Collapse",
    "Diode",
    "EnergyImbalance",
    "Follower",
    "Load",
    "LoadKind",
    "Margin",
    "Network",
    "Regulator",
    "RegulatorState",
    "Resistor",
    "Solution",
    "SolveFailed",
    "collapse_margin",
    "solve",
]
