"""What a meter shows at a port before it is plugged, with any battery that the crew may put on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.rig.rig import PortRef
from rigmint.study.worst_volts import WorstVolts


@dataclass(frozen=True, slots=True)
class Expected:
    """V from the emptiest battery to the fullest, without load, and the item that gives them."""

    low: float
    high: float
    source: str


def find_expected_volts(full: WorstVolts, flat: WorstVolts) -> Mapping[PortRef, Expected]:
    """By port that a source reaches the right way round; `flat`: the search with empty batteries. Regulators and
    negotiated volts give one figure."""
    return {
        ref: Expected(min(low, volts.high.volts), volts.high.volts, volts.high.source.item)
        for ref, volts in full.ports.items()
        if volts.high is not None and volts.high.volts > 0 and (low := _find_high(flat, ref)) is not None
    }


def _find_high(volts: WorstVolts, ref: PortRef) -> float | None:
    high = volts.ports[ref].high
    return high.volts if high is not None and high.volts > 0 else None
