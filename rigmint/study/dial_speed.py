"""Dial speed: whether a wheel with hard stops that acts by speed can take a ring from end to end."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.physics.gears import (
    compute_coverage,
    compute_leftover,
    compute_ratio,
    compute_ring_steps,
    compute_wheel_steps,
)
from rigmint.rig.device import Control, SignalKind
from rigmint.rig.part import Part
from rigmint.rig.rig import Rig, Setup
from rigmint.study.hands import Claim, Hands
from rigmint.words import LENS_AXES

_USUAL_NAME = "dial_speed"
_SLACK = 1e-9
"""Of a ring length: what rounding of a turn in degrees may cost."""


@dataclass(frozen=True, slots=True)
class Speed:
    """A dial speed and what it does."""

    value: str
    coverage: float
    """Ring lengths within the wheel's stops."""
    leftover: float
    """rad of the wheel that are left over once the ring is covered."""
    steps: float | None
    """Motor steps for each rad of the wheel; None where a figure is not stated."""

    @property
    def covers(self) -> bool:
        """Whether the wheel takes the ring from end to end."""
        return self.coverage >= 1.0 - _SLACK


@dataclass(frozen=True, slots=True)
class DialSpeed:
    """A wheel on a ring, and the setting that says how far a turn of it takes the ring."""

    claim: Claim
    place: str
    """The ring."""
    turn: float
    """rad between the wheel's stops."""
    item: str
    """Whose setting it is; the control's own item where nobody states speeds."""
    setting: str | None
    """None where no part on the way states speeds, or not of which setting."""
    value: str | None
    """As it is set; None where nobody stated it."""
    speeds: tuple[Speed, ...]
    """What each value does, slowest first."""

    @property
    def now(self) -> Speed | None:
        """The speed that is set; None where it is unknown, or its part does not state what it does."""
        return next((speed for speed in self.speeds if speed.value == self.value), None)

    @property
    def lowest(self) -> Speed | None:
        """The lowest that covers the ring."""
        return next((speed for speed in self.speeds if speed.covers), None)


def study_dial_speeds(rig: Rig, setup: Setup, hands: Hands) -> tuple[DialSpeed, ...]:
    """Every hand on a lens ring that arrives as speed from a wheel with hard stops, by ring and control."""
    found = []
    for axis in hands.axes.values():
        if axis.place.partition(".")[2] not in LENS_AXES:
            continue
        for claim in axis.certain:
            control = _control_of(rig, claim)
            if claim.arrives is SignalKind.RATE and control is not None and control.turn is not None:
                found.append(_study_one(rig, setup, axis.place, claim, control.turn))
    return tuple(found)


def find_speed_setting(part: Part) -> str | None:
    """The setting whose values `speeds` lists: the one of the usual name, else the only one that has them all."""
    fitting = [name for name, one in part.settings.items() if part.speeds.keys() <= set(one.values)]
    if _USUAL_NAME in part.settings:
        return _USUAL_NAME
    return fitting[0] if len(fitting) == 1 else None


def _control_of(rig: Rig, claim: Claim) -> Control | None:
    return rig.items[claim.item].part.controls.get(claim.control.partition(".")[2])


def _study_one(rig: Rig, setup: Setup, place: str, claim: Claim, turn: float) -> DialSpeed:
    item = _find_speed_item(rig, claim)
    if item is None:
        return DialSpeed(claim, place, turn, claim.item, None, None, ())
    part = rig.items[item].part
    setting = find_speed_setting(part)
    ring_steps = _find_ring_steps(rig, place, claim)
    speeds = [_rate_speed(value, lengths, turn, ring_steps) for value, lengths in part.speeds.items()]
    return DialSpeed(
        claim=claim,
        place=place,
        turn=turn,
        item=item,
        setting=setting,
        value=setup.setting(item, setting) if setting is not None else None,
        speeds=tuple(sorted(speeds, key=lambda speed: (speed.coverage, speed.value))),
    )


def _find_speed_item(rig: Rig, claim: Claim) -> str | None:
    """The first item on the way from the hand that states speeds: its own, or the one that makes speed of position."""
    names = dict.fromkeys(place.partition(".")[0] for place in claim.path)
    return next((name for name in names if name in rig.items and rig.items[name].part.speeds), None)


def _rate_speed(value: str, lengths: float, turn: float, ring_steps: float | None) -> Speed:
    return Speed(
        value=value,
        coverage=compute_coverage(lengths, turn),
        leftover=compute_leftover(lengths, turn),
        steps=compute_wheel_steps(ring_steps, lengths) if ring_steps is not None else None,
    )


def _find_ring_steps(rig: Rig, place: str, claim: Claim) -> float | None:
    """Motor steps from end to end of the ring; None where motor or ring do not state a figure for it."""
    motor, _, mover = claim.mover.partition(".")
    lens, _, name = place.partition(".")
    part = rig.items[motor].part
    ring = rig.items[lens].part.rings.get(name)
    steps = part.moves[mover].steps if mover in part.moves else None
    if ring is None or part.drive is None or steps is None or ring.turn is None:
        return None
    if ring.teeth is None or part.drive.teeth is None:
        return None
    return compute_ring_steps(steps, compute_ratio(ring.teeth, part.drive.teeth), ring.turn)
