"""Where current can flow: which diodes a source feeds, and which regulators have a way back for their input current."""

import numpy as np

from rigmint.physics.circuit.arrays import Bools
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.law import Law


def find_returned_inputs(frame: Frame, law: Law) -> Bools:
    """Regulators whose ground is joined back to their input by anything that conducts that way, shape (regulators,).

    Loads and cells conduct both ways, diodes forward, regulator outputs from ground to output, inputs not at all.
    """
    if not frame.regulators:
        return np.zeros(0, dtype=np.bool_)
    pieces = len(frame.piece_rank)
    both_ways = np.zeros(frame.ports, dtype=np.bool_)
    both_ways[frame.drawing] = law.low_siemens > 0.0
    both_ways[frame.cell] = np.isfinite(law.cell_ohms)
    reaches = np.eye(pieces, dtype=np.float32)
    reaches[frame.piece_a[both_ways], frame.piece_b[both_ways]] = 1.0
    reaches[frame.piece_b[both_ways], frame.piece_a[both_ways]] = 1.0
    reaches[frame.piece_a[frame.diode], frame.piece_b[frame.diode]] = 1.0
    reaches[frame.piece_b[frame.output], frame.piece_a[frame.output]] = 1.0
    known = -1
    while known != (known := int(np.count_nonzero(reaches))):
        reaches = np.minimum(reaches @ reaches, 1.0)
    return np.asarray(reaches[frame.piece_b[frame.input], frame.piece_a[frame.input]] > 0.0)


def find_fed_diodes(frame: Frame, law: Law) -> Bools:
    """Diodes whose anode a source reaches. One whose anode nothing feeds must not lift it to what is behind it."""
    if not frame.diodes:
        return np.zeros(0, dtype=np.bool_)
    both_ways = np.zeros(frame.ports, dtype=np.bool_)
    both_ways[frame.drawing] = law.low_siemens > 0.0
    both_ways[frame.cell] = np.isfinite(law.cell_ohms)
    one_way = np.zeros(frame.ports, dtype=np.bool_)
    one_way[frame.diode] = True
    fed = np.zeros(len(frame.piece_rank), dtype=np.bool_)
    cells = np.flatnonzero(both_ways[frame.cell]) + frame.cell.start
    fed[frame.piece_a[cells]] = True
    fed[frame.piece_b[cells]] = True
    outputs = np.arange(frame.output.start, frame.output.stop)[law.on]
    inputs = np.arange(frame.input.start, frame.input.stop)[law.on]
    a, b, forward = frame.piece_a, frame.piece_b, both_ways | one_way
    sources = np.concatenate((a[forward], b[both_ways], a[inputs], b[outputs]))
    targets = np.concatenate((b[forward], a[both_ways], a[outputs], a[outputs]))
    while True:
        reached = targets[fed[sources]]
        if fed[reached].all():
            return fed[frame.piece_a[frame.diode]]
        fed[reached] = True
