"""What is there in a setup. Setups that have the same things there share what is computed from it."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.rig.rig import Setup


@dataclass(frozen=True, slots=True)
class Presence:
    """Items, leads and docks that are there, and the items among them that are off."""

    items: frozenset[str]
    leads: frozenset[str]
    docks: frozenset[int]
    off: frozenset[str]

    @classmethod
    def of(cls, setup: Setup) -> Presence:
        """What is there in a setup."""
        return cls(setup.items, setup.leads, setup.docks, setup.off)
