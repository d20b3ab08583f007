"""Connectors and protocols: what plugs into what, and what runs over it."""

from __future__ import annotations

import typing
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum


class Sex(StrEnum):
    """A plug has pins, a socket has holes, whatever is on the panel."""

    PLUG = "plug"
    SOCKET = "socket"
    SAME = "same"
    UNSTATED = "unstated"

    @property
    def opposite(self) -> Sex:
        """What mates with it."""
        return {Sex.PLUG: Sex.SOCKET, Sex.SOCKET: Sex.PLUG}.get(self, self)

    def mates(self, other: Sex) -> bool:
        """Whether the two go into each other; an end that does not state its sex is not held against it."""
        return Sex.UNSTATED in (self, other) or other is self.opposite


@dataclass(frozen=True, slots=True)
class Connector:
    """A connector family. Without contacts it is a mechanical mate."""

    id: str
    name: str
    contacts: tuple[str, ...]
    latches: bool | None
    """None where the file does not say."""
    reversible: bool
    """Goes in either way round by design."""
    forces: Mapping[str, str]
    """Contact to contact when it is forced in turned round; empty where it cannot be."""
    first: tuple[str, ...]
    """Contacts that mate before the rest."""
    amps: float | None
    """A a contact."""
    volts: float | None
    contact_ohms: float
    usual: Mapping[str, Mapping[str, str]]
    """Pin-outs of the trade: name to contact to role; the first is the commonest."""
    almost: frozenset[str]
    """Connectors that it goes into without working well."""
    figures: str | None
    assumed: frozenset[str]

    @property
    def is_mechanical(self) -> bool:
        """A plate, rod or mount: no contacts."""
        return not self.contacts

    def enters(self, other: Connector) -> bool:
        """Whether the two go together, well or badly (sexes apart)."""
        return self.id == other.id or other.id in self.almost or self.id in other.almost


class Half(typing.Protocol):
    """One half of a mate: a port, or an end of a lead."""

    @property
    def connector(self) -> Connector:
        """Its connector."""

    @property
    def sex(self) -> Sex:
        """Its sex."""


def go_together(one: Half, other: Half) -> bool:
    """Whether two halves go together, well or badly."""
    return one.connector.enters(other.connector) and one.sex.mates(other.sex)


@dataclass(frozen=True, slots=True)
class Protocol:
    """What runs between ports: axes and flows, over named wires."""

    id: str
    name: str
    carries: frozenset[str]
    """Axes and flows."""
    wires: tuple[str, ...]
    """Names of the signals that a lead must join."""
    bit_rate: float | None
    """bit/s."""
    figures: str | None
