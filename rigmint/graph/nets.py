"""Nets: pins that are one piece of metal at zero ohm, every switch counted as closable."""

from __future__ import annotations

from collections.abc import Sequence

from rigmint.graph.pins import PinNetwork


class Groups:
    """Things numbered from 0, united step by step (a union-find)."""

    def __init__(self, size: int) -> None:
        self._parent = list(range(size))

    def root(self, one: int) -> int:
        """The number that stands for the group of `one`."""
        parent = self._parent
        while parent[one] != one:
            parent[one] = parent[parent[one]]
            one = parent[one]
        return one

    def unite(self, one: int, other: int) -> None:
        """Make the groups of both one."""
        first, second = self.root(one), self.root(other)
        if first != second:
            self._parent[second] = first


def find_nets(network: PinNetwork) -> Sequence[int]:
    """The net of each pin, as the number of one of its pins; worked out once for a network."""
    if not network.nets:
        network.nets.extend(_find_nets(network))
    return network.nets


def _find_nets(network: PinNetwork) -> list[int]:
    groups = Groups(len(network.pins))
    for join in network.joins:
        groups.unite(join.first, join.second)
    return [groups.root(pin) for pin in range(len(network.pins))]
