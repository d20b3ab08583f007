"""The frame of a circuit: everything that depends only on its wiring, computed once.

Wires are reduced to what the other elements see of them. Nodes joined by zero ohms are one *joint*; joints connected
by resistors are one *piece* of wiring. Loads, cells, diodes and the two sides of each regulator are *ports*: two
joints each. With amps i into the ports and the level y of each piece,

    volts across the ports  v = level(a) - level(b) - z i,   sum of i over each piece = 0,

which is exact: no element is tied to a reference through a made-up resistance.
"""

from dataclasses import dataclass, field

import numpy as np

from rigmint.physics.circuit.arrays import Floats, Ints
from rigmint.physics.circuit.elements import ZERO_OHMS, Circuit
from rigmint.physics.circuit.spread import spread_currents
from rigmint.physics.circuit.unite import unite_pairs

_WEAK_OHMS = 1e4
"""From here up a resistor is a port of its own: it shall not tie two pieces of wiring into one, or the milliohms in
them would be computed as differences of megohms."""


@dataclass(frozen=True, slots=True)
class Frame:
    """The wiring of a circuit, reduced to its ports.

    Ports in order: loads, weak resistors, cells, diodes, regulator outputs, regulator inputs; each from a to b.
    """

    loads: int
    weak: int
    cells: int
    diodes: int
    regulators: int
    joint_of_node: Ints
    piece_of_joint: Ints
    port_a: Ints
    port_b: Ints
    piece_a: Ints
    piece_b: Ints
    spread: Floats
    """Volts by which one amp out of joint a into joint b of a port lifts each joint, shape (joints, ports)."""
    z: Floats
    """Volts that one amp into a port takes off each port, shape (ports, ports)."""
    rise: Floats
    """Volts across each port by volts of each piece's level: 1 at a, -1 at b, shape (ports, pieces)."""
    piece_rank: tuple[int, ...]
    """Which piece is preferred as the reference of an island: lowest first."""
    wire: Ints
    """Indices of the resistors that are neither zero, weak nor open."""
    wire_a: Ints
    wire_b: Ints
    wire_siemens: Floats
    weak_resistor: Ints
    zero_resistor: Ints

    ports: int = field(init=False)
    """How many ports there are."""
    drawing: slice = field(init=False)
    """Loads and weak resistors among the ports."""
    fixed: slice = field(init=False)
    """Cells, diodes and regulator outputs among the ports: those whose law is linear in each mode."""
    cell: slice = field(init=False)
    diode: slice = field(init=False)
    output: slice = field(init=False)
    input: slice = field(init=False)
    switching: slice = field(init=False)
    """Diodes and regulator outputs among the ports: those that have modes."""
    varying: Ints = field(init=False)
    """Loads, weak resistors and regulator inputs among the ports: those whose law is bent, or may be."""

    def __post_init__(self) -> None:
        # Looked up in every round of every iteration, hence fields; frozen, hence set this way.
        ends = [0]
        for count in (self.loads + self.weak, self.cells, self.diodes, self.regulators, self.regulators):
            ends.append(ends[-1] + count)
        object.__setattr__(self, "ports", ends[5])
        object.__setattr__(self, "drawing", slice(0, ends[1]))
        object.__setattr__(self, "fixed", slice(ends[1], ends[4]))
        object.__setattr__(self, "switching", slice(ends[2], ends[4]))
        object.__setattr__(self, "varying", np.r_[0 : ends[1], ends[4] : ends[5]])
        for place, name in enumerate(("cell", "diode", "output", "input"), start=1):
            object.__setattr__(self, name, slice(ends[place], ends[place + 1]))


def build_frame(circuit: Circuit) -> Frame:
    """Reduce the wiring of a circuit to its ports."""
    ohms = np.array([resistor.ohms for resistor in circuit.resistors], dtype=np.float64)
    zero = np.flatnonzero(ohms < ZERO_OHMS)
    weak = np.flatnonzero((ohms >= _WEAK_OHMS) & np.isfinite(ohms))
    wire = np.flatnonzero((ohms >= ZERO_OHMS) & (ohms < _WEAK_OHMS))
    ends = [(resistor.a, resistor.b) for resistor in circuit.resistors]
    joint_of_node = unite_pairs(circuit.nodes, [ends[index] for index in zero.tolist()])
    joints = max(joint_of_node, default=-1) + 1
    wires = [(joint_of_node[ends[index][0]], joint_of_node[ends[index][1]]) for index in wire.tolist()]
    piece_of_joint = unite_pairs(joints, wires)
    pairs = _list_ports(circuit, weak.tolist())
    port_a = np.array([joint_of_node[a] for a, _ in pairs], dtype=np.intp)
    port_b = np.array([joint_of_node[b] for _, b in pairs], dtype=np.intp)
    anchors, rank = _choose_anchors(circuit, joint_of_node, piece_of_joint)
    siemens = 1.0 / ohms[wire]
    branches = [(a, b, g) for (a, b), g in zip(wires, siemens.tolist(), strict=True) if a != b]
    injected = np.zeros((joints, len(pairs)))
    columns = np.arange(len(pairs))
    injected[port_a, columns] += 1.0
    injected[port_b, columns] -= 1.0
    spread = spread_currents(branches, set(anchors), injected)
    pieces = np.array(piece_of_joint, dtype=np.intp)
    rise = np.zeros((len(pairs), len(rank)))
    rise[columns, pieces[port_a]] += 1.0
    rise[columns, pieces[port_b]] -= 1.0
    return Frame(
        loads=len(circuit.loads),
        weak=len(weak),
        cells=len(circuit.cells),
        diodes=len(circuit.diodes),
        regulators=len(circuit.regulators),
        joint_of_node=np.array(joint_of_node, dtype=np.intp),
        piece_of_joint=pieces,
        port_a=port_a,
        port_b=port_b,
        piece_a=pieces[port_a],
        piece_b=pieces[port_b],
        spread=spread,
        z=spread[port_a] - spread[port_b],
        rise=rise,
        piece_rank=tuple(rank),
        wire=wire,
        wire_a=np.array([a for a, _ in wires], dtype=np.intp),
        wire_b=np.array([b for _, b in wires], dtype=np.intp),
        wire_siemens=siemens,
        weak_resistor=weak,
        zero_resistor=zero,
    )


def _list_ports(circuit: Circuit, weak: list[int]) -> list[tuple[int, int]]:
    """The two nodes of each port, in the order that Frame states."""
    return [
        *((load.plus, load.minus) for load in circuit.loads),
        *((circuit.resistors[index].a, circuit.resistors[index].b) for index in weak),
        *((cell.plus, cell.minus) for cell in circuit.cells),
        *((diode.anode, diode.cathode) for diode in circuit.diodes),
        *((regulator.output, regulator.ground) for regulator in circuit.regulators),
        *((regulator.input, regulator.ground) for regulator in circuit.regulators),
    ]


def _choose_anchors(
    circuit: Circuit, joint_of_node: list[int], piece_of_joint: list[int]
) -> tuple[list[int], list[int]]:
    """The reference joint of each piece and the rank of each piece: a source's minus first, then a ground."""
    wanted = [cell.minus for cell in circuit.cells]
    wanted += [regulator.ground for regulator in circuit.regulators]
    wanted += [load.minus for load in circuit.loads]
    wanted += range(circuit.nodes)
    pieces = max(piece_of_joint, default=-1) + 1
    anchors, rank = [-1] * pieces, [0] * pieces
    for place, node in enumerate(wanted):
        joint = joint_of_node[node]
        piece = piece_of_joint[joint]
        if anchors[piece] < 0:
            anchors[piece], rank[piece] = joint, place
    return anchors, rank
