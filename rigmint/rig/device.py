"""What a part does besides drawing power: hands, motors, signals, radio, head, lens."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from rigmint.rig.choice import Choice, When
from rigmint.rig.electric import Window
from rigmint.words import Grade


class SignalKind(StrEnum):
    """How a control acts on an axis."""

    ABSOLUTE = "absolute"
    RATE = "rate"
    TRIGGER = "trigger"
    FOLLOW = "follow"


@dataclass(frozen=True, slots=True)
class Setting:
    """A setting of a part; without a default it is unknown until it is stated."""

    name: str
    values: tuple[str, ...]
    """Empty: any value."""
    default: str | None
    forgets: bool


@dataclass(frozen=True, slots=True)
class Control:
    """What a hand touches."""

    name: str
    sends: SignalKind
    axis: Choice
    turn: float | None
    """rad between a wheel's hard stops."""
    automatic: bool
    takes_over: str | None
    """touch, button or never (steps back for another hand); None: it just sends."""
    when: When


@dataclass(frozen=True, slots=True)
class Mover:
    """Something that moves an axis."""

    name: str
    axis: Choice
    takes: frozenset[SignalKind]
    """Empty: any."""
    steps: float | None
    """Steps a turn."""
    when: When


@dataclass(frozen=True, slots=True)
class Maker:
    """Where flows begin; the choice names the picture format, where there is one."""

    name: str
    flows: Mapping[str, Choice]


@dataclass(frozen=True, slots=True)
class Display:
    """Where a flow ends."""

    name: str
    latency: float
    """s."""


@dataclass(frozen=True, slots=True)
class Pass:
    """How signals go through a part, from each source to each target."""

    index: int
    sources: tuple[str, ...]
    targets: tuple[str, ...]
    axes: Choice | None
    """None with `carries` None too: whatever the protocols at its ends carry."""
    carries: tuple[str, ...] | None
    becomes: SignalKind | None
    when: When
    accepts: tuple[str, ...]
    """Picture formats; empty: any."""
    format: Choice | None
    latency: float
    """s."""
    passive: bool


@dataclass(frozen=True, slots=True)
class RadioChannel:
    """A radio channel: Hz, Hz, and s that it must listen before it sends."""

    centre: float
    width: float
    listens: float


@dataclass(frozen=True, slots=True)
class Radio:
    """A radio in a part. By region: dBm radiated, m of stated reach."""

    name: str
    speaks: tuple[str, ...]
    band: Window | None
    power: Mapping[str, float]
    hears: float | None
    """dBm."""
    reach: Mapping[str, float]
    peers: int | None
    slot: Choice | None
    shared_slots: tuple[str, ...]
    gain: float
    """dBi."""
    channels: Mapping[str, RadioChannel]


@dataclass(frozen=True, slots=True)
class Follow:
    """Follow modes of a stabiliser head."""

    mode: Choice
    modes: Mapping[str, Mapping[str, Choice]]
    """Mode to axis to `on` or `off`, fixed or by setting; axes that a mode does not name are off."""
    cycle: tuple[str, ...]
    dead_band: Mapping[str, Choice]


@dataclass(frozen=True, slots=True)
class Joint:
    """A joint of a head."""

    name: str
    endless: bool
    slip_ring: bool
    travel: Window | None
    """rad."""


@dataclass(frozen=True, slots=True)
class Payload:
    """kg."""

    low: float
    high: float | None


@dataclass(frozen=True, slots=True)
class LensRing:
    """A ring of a lens: m, teeth, rad, N*m."""

    name: str
    module: float | None
    teeth: int | None
    turn: float | None
    torque: float | None
    stops: bool | None
    stands: float | None


@dataclass(frozen=True, slots=True)
class Drive:
    """A lens motor's output gear: m, teeth, N*m, rad/s. A motor driver states only when its motors calibrate."""

    module: float | None
    teeth: int | None
    torque: float | None
    speed: float | None
    calibration: float | None
    never_calibrates: bool
    calibrates: When
    """Settings of the part under which it seeks the stops on its own; empty: at each switch-on."""


@dataclass(frozen=True, slots=True)
class Wakes:
    """What happens at switch-on."""

    moves: bool
    before: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PartNeed:
    """What a part asks of the chain: the kind next to it, or firmware of a kind."""

    next_to: str | None
    firmware: Mapping[str, str]
    when: When


@dataclass(frozen=True, slots=True)
class Requirement:
    """A rule of the trade or the house without Python. `when` and `settings` map a key as written to
    its values."""

    when: Mapping[str, tuple[str, ...]]
    settings: Mapping[str, tuple[str, ...]]
    alike: tuple[tuple[str, ...], ...]
    unlike: tuple[tuple[str, ...], ...]
    why: str
    grade: Grade
    origin: str
    """Place of the statement: a part's item, `requires` of the rig, or `library`."""
