"""Meter and plug: a row a power lead in plugging order, then the signal leads, then how it comes apart."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.report.sheet.plug_face import PlugFace


@dataclass(frozen=True, slots=True)
class MeterRow:
    """A lead to plug; for power: the face of its far plug and the volts to expect."""

    label: str
    mark: str
    start: str
    end: str
    face: PlugFace | None
    expect: str
    carries: str
    hot: str
    """What must never be done hot, in words."""


@dataclass(frozen=True, slots=True)
class Plugging:
    """One setup, or `same_as`: the setup before it whose order it shares."""

    setup: str
    same_as: str
    conflicts: tuple[str, ...]
    power: tuple[MeterRow, ...]
    signals: tuple[MeterRow, ...]
    last: tuple[str, ...]
    unplugging: tuple[str, ...]
