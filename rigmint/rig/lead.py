"""A lead as it is soldered: ends, conductors, what it carries."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.rig.connector import Connector, Sex
from rigmint.rig.electric import Fuse, RegulatorSpec


@dataclass(frozen=True, slots=True)
class LeadEnd:
    """A connector on a lead."""

    name: str
    connector: Connector
    sex: Sex
    tag: str | None


@dataclass(frozen=True, slots=True)
class EndContact:
    """One contact of one end."""

    end: str
    contact: str


@dataclass(frozen=True, slots=True)
class Conductor:
    """A wire from contact to contact."""

    index: int
    source: EndContact
    target: EndContact
    gauge: float | None
    """AWG; None where it is given by area."""
    area: float | None
    """m2; None where it is given by gauge."""
    fuse: Fuse | None
    diode: float | None
    """V of a diode that points from source to target."""
    regulator: RegulatorSpec | None
    ground: EndContact | None
    """Minus of the regulator."""
    assumed: frozenset[str]


@dataclass(frozen=True, slots=True)
class Carry:
    """A protocol that the lead is made for, between any two ends or between two named ones."""

    protocol: str
    ends: frozenset[str] | None


@dataclass(frozen=True, slots=True)
class Loss:
    """Signal loss of a coax: dB/m at a frequency in Hz."""

    at: float
    per_metre: float


@dataclass(frozen=True, slots=True)
class LeadBody:
    """A lead, apart from where it is plugged."""

    ends: Mapping[str, LeadEnd]
    conductors: tuple[Conductor, ...]
    carries: tuple[Carry, ...] | None
    """None: whatever both ports speak (a lead that nobody described)."""
    length: float
    """m."""
    loss: Loss | None
    mark: str | None
    mass: float | None
    """kg."""
    straight: bool
    """Assumed contact to contact, since nobody described it."""
    assumed: frozenset[str]
