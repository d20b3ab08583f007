"""The single faults of a rig in a setup: what comes loose, breaks, empties, drops out or is off, one at a time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from rigmint.graph.pins import PinNetwork
from rigmint.rig.electric import MINUS
from rigmint.rig.lead import Conductor
from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.electronics import wants_volts

REMOVABLE_KINDS = frozenset({"battery", "supply"})
"""What is taken off for a change; a cell inside a device only goes flat."""


class FaultKind(StrEnum):
    """What fails."""

    LEAD_OUT = "lead-out"
    PLUS_OPEN = "plus-open"
    MINUS_OPEN = "minus-open"
    SOURCE_FLAT = "source-flat"
    SOURCE_OUT = "source-out"
    LINK_LOST = "link-lost"
    ITEM_OFF = "item-off"


@dataclass(frozen=True, slots=True)
class SingleFault:
    """One fault. `at` is a lead's label, `item.cell`, an item or a link's name; `conductor` is the index of the
    conductor that is open."""

    kind: FaultKind
    at: str
    conductor: int | None = None

    @property
    def place(self) -> str:
        """The place that a report names."""
        return f"link:{self.at}" if self.kind is FaultKind.LINK_LOST else self.at

    @property
    def item(self) -> str:
        """The item of a source or of what is off; of a lead or a link its own name."""
        return self.at.partition(".")[0]


def list_single_faults(rig: Rig, setup: Setup, network: PinNetwork) -> tuple[SingleFault, ...]:
    """Every single fault of what is there: leads in the order of the file with their conductors, sources, links,
    items."""
    return (
        *_list_lead_faults(rig, setup),
        *_list_source_faults(rig, setup, network),
        *(SingleFault(FaultKind.LINK_LOST, name) for name in rig.links if name in setup.links),
        *(SingleFault(FaultKind.ITEM_OFF, name) for name in rig.items if is_off_able(rig, setup, name)),
    )


def is_off_able(rig: Rig, setup: Setup, item: str) -> bool:
    """Whether an item is there, on, and has something to switch off. A battery or a supply is flat or out instead."""
    part = rig.items[item].part
    if item not in setup.items or item in setup.off or part.kind in REMOVABLE_KINDS:
        return False
    has_load = any(rail.load is not None for rail in part.rails.values())
    takes_power = any(port.carries_power for port in part.ports.values()) and wants_volts(part)
    return has_load or bool(part.cells) or bool(part.radios) or takes_power


def list_power_conductors(rig: Rig, lead: Lead) -> Iterator[tuple[Conductor, FaultKind]]:
    """The conductors of a lead that carry plus or minus where it is plugged, with the fault that each is when open."""
    for conductor in lead.body.conductors:
        kind = _find_kind(rig, lead, conductor)
        if kind is not None:
            yield conductor, kind


def list_minus_conductors(rig: Rig, lead: Lead) -> tuple[int, ...]:
    """The indices of the conductors that carry minus."""
    return tuple(
        conductor.index for conductor, kind in list_power_conductors(rig, lead) if kind is FaultKind.MINUS_OPEN
    )


def _find_kind(rig: Rig, lead: Lead, conductor: Conductor) -> FaultKind | None:
    """A conductor that meets a feed anywhere counts as plus, even where it meets a minus too: it is crossed."""
    found: FaultKind | None = None
    for side in (conductor.source, conductor.target):
        ref: PortRef | None = lead.plugged.get(side.end)
        if ref is None:
            continue
        port = rig.port(ref)
        if side.contact in port.feeds:
            return FaultKind.PLUS_OPEN
        if port.pins.get(side.contact) == MINUS:
            found = FaultKind.MINUS_OPEN
    return found


def _list_lead_faults(rig: Rig, setup: Setup) -> Iterator[SingleFault]:
    for label, lead in rig.leads.items():
        if label in setup.leads and lead.plugged:
            yield SingleFault(FaultKind.LEAD_OUT, label)
            for conductor, kind in list_power_conductors(rig, lead):
                yield SingleFault(kind, label, conductor.index)


def _list_source_faults(rig: Rig, setup: Setup, network: PinNetwork) -> Iterator[SingleFault]:
    live = [source for source in network.sources if source.item not in setup.off]
    for source in live:
        yield SingleFault(FaultKind.SOURCE_FLAT, source.place)
    for item in dict.fromkeys(source.item for source in live):
        if rig.items[item].part.kind in REMOVABLE_KINDS:
            yield SingleFault(FaultKind.SOURCE_OUT, item)
