"""Voltage classes, by word: what a technician tells leads apart by, whatever the exact volts are."""

from __future__ import annotations

from enum import StrEnum


class VoltClass(StrEnum):
    """A class of voltage; each goes up to its `limit`."""

    FIVE = "five"
    EIGHT = "eight"
    TWELVE = "twelve"
    TWENTY_FOUR = "twenty_four"
    FORTY_EIGHT = "forty_eight"
    HIGH = "high"

    @property
    def says(self) -> str:
        """The class in words."""
        return "over 60 V" if self is VoltClass.HIGH else f"{self.value.replace('_', '-')}-volt class"


_LIMITS = (
    (6.0, VoltClass.FIVE),
    (10.0, VoltClass.EIGHT),
    (20.0, VoltClass.TWELVE),
    (36.0, VoltClass.TWENTY_FOUR),
    (60.0, VoltClass.FORTY_EIGHT),
)
"""V up to which a class goes: USB and board supplies; two lithium-ion cells in series; four; eight; and the direct
voltage under which touching is held harmless in dry surroundings (IEC 60364-4-41, from memory)."""


def classify_volts(volts: float) -> VoltClass:
    """The class of a voltage, whichever way round."""
    return next((found for limit, found in _LIMITS if abs(volts) <= limit), VoltClass.HIGH)
