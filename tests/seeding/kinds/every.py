"""All kinds of mistake, and a draw of mistakes from them."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tests.power.files import Tree
from tests.seeding.base import Base, write_tree
from tests.seeding.kinds import harmless, parts, people, plugging, settings, wires
from tests.seeding.kinds.kind import Kind

KINDS: tuple[Kind, ...] = (
    *wires.KINDS,
    *plugging.KINDS,
    *parts.KINDS,
    *settings.KINDS,
    *people.KINDS,
    *harmless.KINDS,
)


@dataclass(frozen=True, slots=True)
class Mutant:
    """A sound rig with one change."""

    base: str
    kind: Kind
    says: str
    tree: Tree


def draw_mutants(bases: Sequence[Base], seed: int, each: int, most: int | None = None) -> Iterator[Mutant]:
    """Up to `each` mistakes of every kind in every rig; of them `most` at random, where there are more. Changes that
    change nothing are left out."""
    found: list[tuple[Base, Kind, int]] = []
    for base in bases:
        for kind in KINDS:
            chance = random.Random(f"{seed}/{base.name}/{kind.name}")
            count = sum(1 for _ in kind.sites(base))
            found += [(base, kind, number) for number in chance.sample(range(count), min(each, count))]
    if most is not None and most < len(found):
        found = _spread(found, seed, most)
    for base, kind, number in found:
        says, change = next(site for n, site in enumerate(kind.sites(base)) if n == number)
        tree = base.mutate(change)
        if write_tree(tree) != write_tree(base.tree):
            yield Mutant(base.name, kind, says, tree)


def _spread(found: list[tuple[Base, Kind, int]], seed: int, most: int) -> list[tuple[Base, Kind, int]]:
    """As many of each kind as can be: kinds with few places are taken whole."""
    random.Random(seed).shuffle(found)
    by_kind: dict[str, list[tuple[Base, Kind, int]]] = {}
    for one in found:
        by_kind.setdefault(one[1].name, []).append(one)
    taken: list[tuple[Base, Kind, int]] = []
    while len(taken) < most and any(by_kind.values()):
        for name in sorted(by_kind):
            if by_kind[name] and len(taken) < most:
                taken.append(by_kind[name].pop())
    return taken
