"""One mistake: what is plugged otherwise than the rig file says, and the rig as it then is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from types import MappingProxyType

from rigmint.rig.rig import Item, Lead, PortRef, Rig, Setup

LOOSE = "loose"
"""What an end in the air is meant for, in the words of the rig file."""


class How(StrEnum):
    """The kinds of mistake."""

    MOVED = "moved"
    """An end in another port that takes it."""
    SWAPPED = "swapped"
    """Another lead in its place."""
    TURNED = "turned"
    """Two ends of a lead exchanged."""
    FORCED = "forced"
    """A plug pushed in turned round."""


@dataclass(frozen=True, slots=True)
class Mistake:
    """One mistake in one setup. `lead` is what is plugged wrongly: a label, or the id of a part of the library; None
    for two ports that are docked. `meant` is where its `end` should be, or the lead that it was taken for."""

    how: How
    lead: str | None
    end: str | None
    meant: str
    into: PortRef
    same_place: bool
    """Within reach, as `places` has it; else the mistake is made on a bench only."""
    leads: Mapping[str, Lead]
    """The leads that are plugged otherwise, as they then are; what was in the wrong socket hangs loose."""
    docks_out: frozenset[int] = frozenset()
    items: Mapping[str, Item] = field(default_factory=dict)
    """An item with a port turned round, where a dock is forced."""
    ways: tuple[tuple[str, str], ...] = ()
    """Of another lead that goes in by several of its ends: which end goes where."""

    @property
    def key(self) -> tuple[object, ...]:
        """What tells it from others, in whatever setup."""
        return self.how.value, self.lead or "", self.end or "", self.meant, self.into, self.ways


def rewrite_rig(rig: Rig, setup: Setup, mistake: Mistake) -> tuple[Rig, Setup]:
    """The same rig with that mistake made, and its setup."""
    items = MappingProxyType({**rig.items, **mistake.items}) if mistake.items else rig.items
    leads = MappingProxyType({**rig.leads, **mistake.leads})
    return replace(rig, items=items, leads=leads), replace(setup, docks=setup.docks - mistake.docks_out)


def pull_out(lead: Lead, end: str) -> Lead:
    """The lead with one end in the air."""
    return plug(lead, {one: ref for one, ref in lead.plugged.items() if one != end})


def plug(lead: Lead, plugged: Mapping[str, PortRef]) -> Lead:
    """The lead with its ends in these ports, and the others in the air."""
    loose = frozenset(lead.body.ends) - frozenset(plugged)
    return replace(lead, plugged=MappingProxyType(dict(plugged)), loose=loose)
