"""Sparse elimination of a resistive network: how a current at any port spreads to every node.

The networks of rigs are nearly trees, so eliminating the node of fewest neighbours first costs a few operations a
node. A node's own conductance is always taken as the sum of its remaining branches, so nothing is ever subtracted:
micro-ohms beside megohms lose no digits.
"""

from dataclasses import dataclass
from heapq import heapify, heappop, heappush

from rigmint.physics.circuit.arrays import Floats

_Near = list[dict[int, float]]


@dataclass(frozen=True, slots=True)
class _Step:
    """One node eliminated: its total conductance, and the share of its current that each neighbour takes."""

    node: int
    siemens: float
    shares: list[tuple[int, float]]


def spread_currents(branches: list[tuple[int, int, float]], grounded: set[int], injected: Floats) -> Floats:
    """Potentials of a resistive network under several patterns of injected current at once.

    branches: (node, node, siemens), no branch from a node to itself. grounded: nodes held at zero, at least one in
    each connected part. injected: amps, shape (nodes, patterns). Returns volts of the same shape; zero at nodes
    that are grounded or have no branch.
    """
    steps = _eliminate_nodes(branches, grounded, injected.shape[0])
    rows = [row if row.any() else None for row in injected.copy()]
    for step in steps:
        row = rows[step.node]
        if row is None:
            continue
        for other, share in step.shares:
            if other in grounded:
                continue
            moved = row if share == 1.0 else row * share
            at_other = rows[other]
            rows[other] = moved.copy() if at_other is None else at_other + moved
    volts = injected * 0.0
    for step in reversed(steps):
        row = rows[step.node]
        here = volts[step.node]
        if row is not None:
            here += row / step.siemens
        for other, share in step.shares:
            if other not in grounded:
                here += volts[other] if share == 1.0 else volts[other] * share
    return volts


def _eliminate_nodes(branches: list[tuple[int, int, float]], grounded: set[int], count: int) -> list[_Step]:
    near: _Near = [{} for _ in range(count)]
    for a, b, siemens in branches:
        near[a][b] = near[a].get(b, 0.0) + siemens
        near[b][a] = near[b].get(a, 0.0) + siemens
    queue = [(len(near[node]), node) for node in range(count) if near[node] and node not in grounded]
    heapify(queue)
    left = {node for _, node in queue}
    steps: list[_Step] = []
    while queue:
        degree, node = heappop(queue)
        if node not in left or degree != len(near[node]):
            continue
        left.discard(node)
        steps.append(_eliminate_node(near, node))
        for other in near[node]:
            if other in left:
                heappush(queue, (len(near[other]), other))
    return steps


def _eliminate_node(near: _Near, node: int) -> _Step:
    around = list(near[node].items())
    total = sum(siemens for _, siemens in around)
    for position, (a, siemens_a) in enumerate(around):
        near_a = near[a]
        del near_a[node]
        for b, siemens_b in around[:position]:
            bridged = siemens_a * siemens_b / total
            near_a[b] = near_a.get(b, 0.0) + bridged
            near[b][a] = near[b].get(a, 0.0) + bridged
    return _Step(node, total, [(a, siemens / total) for a, siemens in around])
