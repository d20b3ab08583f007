"""A part: what a device or a lead is, from its part file, with defaults filled in.

All figures are SI floats (V, A, W, ohm, m, kg, rad, s, Hz, J). `assumed` on a record names the fields for which a
default stands in.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.rig.device import (
    Control,
    Display,
    Drive,
    Follow,
    Joint,
    LensRing,
    Maker,
    Mover,
    PartNeed,
    Pass,
    Payload,
    Radio,
    Requirement,
    Setting,
    Wakes,
)
from rigmint.rig.electric import Bridge, Cell, Port, Rail
from rigmint.rig.lead import LeadBody


@dataclass(frozen=True, slots=True)
class Part:
    """A device or a lead as its maker built it."""

    id: str
    name: str
    kind: str
    figures: str | None
    mass: float | None
    """kg."""
    rides: str
    """Default place: base, pan, roll, tilt or away."""
    ports: Mapping[str, Port]
    rails: Mapping[str, Rail]
    bridges: tuple[Bridge, ...]
    cells: Mapping[str, Cell]
    chassis: str
    """minus, open or earth."""
    settings: Mapping[str, Setting]
    controls: Mapping[str, Control]
    moves: Mapping[str, Mover]
    makes: Mapping[str, Maker]
    shows: Mapping[str, Display]
    passes: tuple[Pass, ...]
    radios: Mapping[str, Radio]
    on_loss: str | None
    follow: Follow | None
    joints: Mapping[str, Joint]
    payload: Payload | None
    rings: Mapping[str, LensRing]
    drive: Drive | None
    wakes: Wakes | None
    needs: tuple[PartNeed, ...]
    requires: tuple[Requirement, ...]
    speeds: Mapping[str, float]
    """Setting value to ring lengths per full turn of the wheel."""
    lead: LeadBody | None
    assumed: frozenset[str]

    def has_cell_on(self, rail: str) -> bool:
        """Whether a battery or a supply sits on the rail."""
        return any(cell.rail == rail for cell in self.cells.values())
