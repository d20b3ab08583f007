"""What works in a wiring and no longer does once a mistake is made: power, hands, picture and other flows."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class LossKind(StrEnum):
    """What is lost."""

    POWER = "power"
    """An item is no longer fed, or with volts that it does not work on."""
    HAND = "hand"
    """Nobody who is meant to has an axis any more."""
    FLOW = "flow"
    """Picture, range, timecode or another flow does not arrive."""


@dataclass(frozen=True, slots=True, order=True)
class Loss:
    """One thing that no longer works: an item, an axis, or a screen or item without its flow (`token`)."""

    kind: LossKind
    place: str
    token: str = ""
