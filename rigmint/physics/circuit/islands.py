"""Which pieces of wiring hang together, and which of them is each island's reference."""

import numpy as np

from rigmint.physics.circuit.arrays import Bools, Ints
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.unite import find_root


def find_references(frame: Frame, conducts: Bools) -> Ints:
    """For each piece of wiring the reference of its island, when these ports conduct, shape (ports,).

    The reference is the piece of lowest rank, so the reference of an island is also the reference of that part of it
    that fewer ports hold together.
    """
    rank = frame.piece_rank
    parent = list(range(len(rank)))
    for a, b in zip(frame.piece_a[conducts].tolist(), frame.piece_b[conducts].tolist(), strict=True):
        root_a, root_b = find_root(parent, a), find_root(parent, b)
        if rank[root_a] <= rank[root_b]:
            parent[root_b] = root_a
        else:
            parent[root_a] = root_b
    return np.array([find_root(parent, piece) for piece in range(len(rank))], dtype=np.intp)
