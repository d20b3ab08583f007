"""Currents in resistors of zero ohms, which carry what the rest of the circuit sends through them.

Where several of them close a ring the split is not determined; the one given is the limit of equal resistances.
"""

from dataclasses import dataclass

import numpy as np

from rigmint.physics.circuit.arrays import Floats, Ints
from rigmint.physics.circuit.elements import Circuit


@dataclass(frozen=True, slots=True)
class Joints:
    """How amps into the nodes of joined pairs divide: share[k] @ inflow[nodes] is the current of resistor k."""

    nodes: Ints
    share: Floats

    def divide(self, inflow: Floats) -> Floats:
        """Amps from a to b in each zero-ohm resistor, by the amps that the rest of the circuit puts into each node."""
        return np.asarray(self.share @ inflow[self.nodes])


def build_joints(circuit: Circuit, zero_resistor: Ints) -> Joints:
    """Prepare the division of currents among the zero-ohm resistors of a circuit."""
    pairs = [(circuit.resistors[index].a, circuit.resistors[index].b) for index in zero_resistor.tolist()]
    nodes = sorted({node for pair in pairs for node in pair})
    place = {node: row for row, node in enumerate(nodes)}
    incidence = np.zeros((len(pairs), len(nodes)))
    for row, (a, b) in enumerate(pairs):
        incidence[row, place[a]] += 1.0
        incidence[row, place[b]] -= 1.0
    share = np.linalg.pinv(incidence.T) if pairs else incidence
    return Joints(np.array(nodes, dtype=np.intp), np.asarray(share, dtype=np.float64))
