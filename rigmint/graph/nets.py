"""Nets: pins that are one piece of metal at zero ohm, every switch counted as closable."""

from __future__ import annotations

from rigmint.graph.pins import PinNetwork


def find_nets(network: PinNetwork) -> list[int]:
    """The net of each pin, as the number of one of its pins."""
    parent = list(range(len(network.pins)))

    def root(pin: int) -> int:
        while parent[pin] != pin:
            parent[pin] = parent[parent[pin]]
            pin = parent[pin]
        return pin

    for join in network.joins:
        first, second = root(join.first), root(join.second)
        if first != second:
            parent[second] = first
    return [root(pin) for pin in range(len(parent))]
