"""Union-find over small integers."""

from collections.abc import Iterable


def unite_pairs(count: int, pairs: Iterable[tuple[int, int]]) -> list[int]:
    """Label 0 to `count` - 1 so that united numbers share a label; labels are 0, 1, 2 ... by first appearance."""
    parent = list(range(count))
    for a, b in pairs:
        root_a, root_b = find_root(parent, a), find_root(parent, b)
        if root_a != root_b:
            parent[max(root_a, root_b)] = min(root_a, root_b)
    labels: list[int] = []
    seen: dict[int, int] = {}
    for number in range(count):
        labels.append(seen.setdefault(find_root(parent, number), len(seen)))
    return labels


def find_root(parent: list[int], number: int) -> int:
    """The representative of a number, halving its path on the way."""
    while parent[number] != number:
        parent[number] = parent[parent[number]]
        number = parent[number]
    return number
