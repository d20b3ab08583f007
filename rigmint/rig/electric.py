"""The electrical side of a part: ports, rails, bridges between rails, cells."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType

from rigmint.rig.choice import When
from rigmint.rig.connector import Connector, Sex

PLUS = "plus"
MINUS = "minus"
SIGNAL_SURVIVES = 3.6
"""V that a signal contact survives where its part does not say (common practice)."""


@dataclass(frozen=True, slots=True)
class Window:
    """A closed interval, for example of volts."""

    low: float
    high: float

    def holds(self, value: float) -> bool:
        """Whether the value lies inside."""
        return self.low <= value <= self.high


class Role(StrEnum):
    """What the maker means a power port for."""

    IN = "in"
    OUT = "out"
    EITHER = "either"


@dataclass(frozen=True, slots=True)
class Level:
    """What a signal contact gives or takes."""

    gives: str | float | None
    """`closure`, or V."""
    takes: str | float | None
    kind: str | None
    """pulse, hold or serial."""
    survives: Window | None


def find_signal_limit(level: Level | None) -> tuple[float, bool]:
    """V that a signal contact survives, and whether that is assumed: what its level states, else a tenth over the
    volts that it takes, and never below 3.6 V."""
    if level is not None and level.survives is not None:
        return level.survives.high, False
    if level is not None and isinstance(level.takes, float):
        return max(SIGNAL_SURVIVES, level.takes * 1.1), True
    return SIGNAL_SURVIVES, True


@dataclass(frozen=True, slots=True)
class Port:
    """A connector on a part."""

    name: str
    says: str
    """As printed on the device; the port's name where the part does not state it."""
    connector: Connector
    sex: Sex
    pins: Mapping[str, str]
    """Contact to `minus`, `plus`, another rail's name, or a signal's name."""
    rail: str | None
    """The rail that its plus contacts join; None for a port without power."""
    role: Role
    works: Window | None
    """V."""
    survives: Window | None
    """V."""
    max_amps: float | None
    speaks: tuple[str, ...]
    levels: Mapping[str, Level]
    stage: str | None
    tag: str | None
    isolated: bool
    offers: tuple[float, ...]
    """V that a USB power-delivery source offers."""
    wants: float | None
    """V that a USB power-delivery sink asks for."""
    feeds: Mapping[str, str]
    """Feed contact to the rail that it joins."""
    assumed: frozenset[str]

    minus_contacts: tuple[str, ...] = field(init=False, repr=False, compare=False)
    """The contacts that join the part's ground."""
    signals: Mapping[str, str] = field(init=False, repr=False, compare=False)
    """Contact to signal name, for the contacts that are neither a feed nor minus."""

    def __post_init__(self) -> None:
        # Asked for by every study, hence fields; frozen, hence set this way.
        minus = tuple(contact for contact, role in self.pins.items() if role == MINUS)
        signals = {c: role for c, role in self.pins.items() if role != MINUS and c not in self.feeds}
        object.__setattr__(self, "minus_contacts", minus)
        object.__setattr__(self, "signals", MappingProxyType(signals))

    @property
    def carries_power(self) -> bool:
        """Whether it has both a feed and a minus."""
        return bool(self.feeds) and bool(self.minus_contacts)


class LoadKind(StrEnum):
    """How a load draws."""

    POWER = "power"
    CURRENT = "current"
    RESISTANCE = "resistance"


@dataclass(frozen=True, slots=True)
class Draw:
    """What a rail draws: W, A or ohm by kind."""

    kind: LoadKind
    amount: float

    def watts_at(self, volts: float) -> float:
        """W drawn at a voltage inside the window."""
        if self.kind is LoadKind.POWER:
            return self.amount
        if self.kind is LoadKind.CURRENT:
            return self.amount * volts
        return volts * volts / self.amount


@dataclass(frozen=True, slots=True)
class Rail:
    """An internal supply rail and what is drawn from it."""

    name: str
    load: Draw | None
    peak: Draw | None
    start: Draw | None
    assumed: frozenset[str]


class BridgeKind(StrEnum):
    """What sits between two rails."""

    REGULATOR = "regulator"
    DIODE = "diode"
    SWITCH = "switch"
    WIRE = "wire"


@dataclass(frozen=True, slots=True)
class Fuse:
    """A fuse; inside: a blown one is a bench repair."""

    amps: float
    inside: bool = False


@dataclass(frozen=True, slots=True)
class RegulatorSpec:
    """A regulator's figures: V, A, fraction."""

    out: float
    max_amps: float | None
    efficiency: float
    takes: Window
    lifts: bool
    blocks: bool | None
    """Whether it keeps its output from feeding its input; None where the part does not state it."""
    assumed: frozenset[str]


@dataclass(frozen=True, slots=True)
class Bridge:
    """A path between two rails of a part."""

    index: int
    source: str
    target: str
    kind: BridgeKind
    regulator: RegulatorSpec | None
    drop: float
    """V of a conducting diode."""
    resistance: float
    """ohm of a closed switch or a wire."""
    max_amps: float | None
    fuse: Fuse | None
    when: When


@dataclass(frozen=True, slots=True)
class Cell:
    """A battery or a supply on a rail."""

    name: str
    rail: str
    volts: Window
    nominal: float
    resistance: float
    """ohm."""
    energy: float | None
    """J; None for a supply."""
    max_amps: float | None
    trips: float | None
    """A at which it switches off; infinite for what does not trip, None where nothing says."""
    charge: float
    """A that may be pushed into it."""
    chemistry: str
    curve: tuple[tuple[float, float], ...] | None
    """(fraction left, V), falling; None: by chemistry."""
    spikes: float | None
    dips: float | None
    assumed: frozenset[str]

    @property
    def is_battery(self) -> bool:
        """Whether it empties."""
        return self.energy is not None
