"""Signal nets: the signal contacts of ports that a lead or a dock joins end to end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from rigmint.graph.lead_contacts import spread_contacts
from rigmint.graph.presence import Presence
from rigmint.rig.connector import go_together
from rigmint.rig.electric import Level, find_signal_limit
from rigmint.rig.rig import Lead, PortRef, Rig


@dataclass(frozen=True, slots=True)
class SignalContact:
    """A contact that a part uses for a signal. `level`: None where the part states none."""

    ref: PortRef
    signal: str
    level: Level | None

    @property
    def survives(self) -> float:
        """The highest V that it survives, by what its part states or by default."""
        return find_signal_limit(self.level)[0]

    @property
    def is_assumed(self) -> bool:
        """Whether what it survives is a default."""
        return find_signal_limit(self.level)[1]


@dataclass(frozen=True, slots=True)
class JoinedContacts:
    """Two signal contacts of two ports, joined by a lead, or docked (None)."""

    first: SignalContact
    second: SignalContact
    lead: str | None


def list_joined_contacts(rig: Rig, presence: Presence) -> tuple[JoinedContacts, ...]:
    """Every pair of signal contacts that is joined, each once."""
    found: dict[JoinedContacts, None] = {}
    for label in sorted(presence.leads):
        found |= dict.fromkeys(_join_by_lead(rig, rig.leads[label]))
    for index in sorted(presence.docks):
        dock = rig.docks[index]
        near, far = rig.port(dock.first), rig.port(dock.second)
        if go_together(near, far):
            for contact in near.signals:
                if contact in far.signals:
                    pair = (_contact(rig, dock.first, contact), _contact(rig, dock.second, contact))
                    found[JoinedContacts(*pair, None)] = None
    return tuple(found)


def _join_by_lead(rig: Rig, lead: Lead) -> Iterator[JoinedContacts]:
    ends = [end for end in sorted(lead.plugged) if go_together(rig.port(lead.plugged[end]), lead.body.ends[end])]
    wires = [conductor for conductor in lead.body.conductors if conductor.regulator is None]  # else it is no signal
    for near, far in combinations(ends, 2):
        for contact in rig.port(lead.plugged[near]).signals:
            reached = spread_contacts([(near, contact)], wires)
            for other in rig.port(lead.plugged[far]).signals:
                if (far, other) in reached:
                    first = _contact(rig, lead.plugged[near], contact)
                    yield JoinedContacts(first, _contact(rig, lead.plugged[far], other), lead.label)


def _contact(rig: Rig, ref: PortRef, contact: str) -> SignalContact:
    port = rig.port(ref)
    signal = port.signals[contact]
    return SignalContact(ref, signal, port.levels.get(signal))
