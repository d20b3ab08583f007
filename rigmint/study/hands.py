"""Who has what: for every axis of a setup the controls that reach it, by which path, and what stopped the others."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.rig.device import SignalKind


@dataclass(frozen=True, slots=True)
class Claim:
    """One path by which a control reaches an axis; places throughout."""

    control: str
    person: str | None
    """None: by hand at the control's item."""
    sends: SignalKind
    arrives: SignalKind
    mover: str
    axis: str
    """The axis as which it arrives: what the motor is set to, whatever ring it is fitted to."""
    automatic: bool
    takes_over: str | None
    path: tuple[str, ...]
    """From the control to the mover."""
    reach: float | None
    """m; None: no radio on the way, or a reach that nobody states."""
    assumes: Mapping[tuple[str, str], str]
    """(item, setting) to the value of an unknown setting under which the claim stands."""

    @property
    def item(self) -> str:
        """The item of the control."""
        return self.control.partition(".")[0]

    @property
    def is_certain(self) -> bool:
        """Whether it rests on no unknown setting."""
        return not self.assumes


@dataclass(frozen=True, slots=True)
class Stopped:
    """A control that would reach the axis, and what stopped it: `by` is a place."""

    control: str
    by: str
    says: str


@dataclass(frozen=True, slots=True)
class AxisHands:
    """One axis: `place` is a ring, a joint or a record, `name` its short form where only one item has it."""

    place: str
    name: str
    meant: tuple[str, ...]
    """Persons; `nobody`, `automatic`; empty where the rig does not say."""
    claims: tuple[Claim, ...]
    stopped: tuple[Stopped, ...]

    @property
    def certain(self) -> tuple[Claim, ...]:
        """The claims that rest on no unknown setting."""
        return tuple(claim for claim in self.claims if claim.is_certain)


@dataclass(frozen=True, slots=True)
class Hands:
    """The study of one setup."""

    axes: Mapping[str, AxisHands]
    """By place."""
