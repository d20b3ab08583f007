"""What a library says: its rules' parameters, packs, power figures, requirements and acceptances."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from rigmint.rig.device import Requirement
from rigmint.rig.rig import Acceptance
from rigmint.words import Grade


@dataclass(frozen=True, slots=True)
class PowerFigures:
    """How the circuit is judged. Fractions, a count, K."""

    change_at: float = 0.15
    age: float = 0.85
    cold: float = 0.60
    peaks: int = 2
    wire_temperature: float = 293.15


@dataclass(frozen=True, slots=True)
class RuleOverride:
    """What a library changes about one rule; parameters as text or number, as written."""

    is_off: bool = False
    grade: Grade | None = None
    parameters: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class HouseFiles:
    """Schemas and checks of the house, relative to the library's folder."""

    rig_schema: str | None = None
    part_schema: str | None = None
    checks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class House:
    """A library's file; the defaults are those of a rig that has none."""

    file: str | None = None
    title: str | None = None
    packs_needed: tuple[str, ...] = ()
    packs_left_out: tuple[str, ...] = ()
    rules: Mapping[str, RuleOverride] = field(default_factory=dict)
    requires: tuple[Requirement, ...] = ()
    accepted: tuple[Acceptance, ...] = ()
    files: HouseFiles = HouseFiles()
    power: PowerFigures = PowerFigures()
    leaves: Mapping[str, float] = field(default_factory=dict)
    """Place to the fraction of a stated radio reach that it leaves."""
    fail_on: Grade = Grade.FIGHT
    tapes: Mapping[str, str] = field(default_factory=dict)
    """Voltage class or `signal` to the tape's colour on lead labels, where the library sets it."""
