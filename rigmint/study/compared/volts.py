"""Ports whose volts move, at typical load and at the change of the battery, and what is left above their windows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.power import Point, PortPower
from rigmint.study.studies import Studies

LEAST_VOLTS = 0.05
"""V: less is not shown, since volts are printed to a tenth."""


@dataclass(frozen=True, slots=True)
class PortState:
    """A port in one rig. V at typical and at change; V above the lower end of its window at change, where it has one
    (None: it has none, or it draws nothing)."""

    typical: float
    change: float | None
    spare: float | None


@dataclass(frozen=True, slots=True)
class PortMove:
    """A port that is in both rigs, in one setup."""

    setup: str
    place: str
    before: PortState
    after: PortState

    @property
    def size(self) -> float:
        """V by which it moves, at the point at which it moves most."""
        return max(
            abs(self.after.typical - self.before.typical),
            abs(self.after.change - self.before.change)
            if self.after.change is not None and self.before.change is not None
            else 0.0,
            abs(self.after.spare - self.before.spare)
            if self.after.spare is not None and self.before.spare is not None
            else 0.0,
        )


def compare_volts(old: Studies, new: Studies, pairs: tuple[tuple[Setup, Setup], ...]) -> tuple[PortMove, ...]:
    """The ports that move by 0.05 V or more, those that move most first. A setup that collapses in either rig has no
    volts to compare: the collapse is a finding."""
    moves = []
    for before, after in pairs:
        was, now = _measure(old, before), _measure(new, after)
        moves += [PortMove(after.name, place, was[place], now[place]) for place in now if place in was]
    return tuple(sorted((m for m in moves if m.size >= LEAST_VOLTS), key=lambda m: (-round(m.size, 2), m.place)))


def _measure(studies: Studies, setup: Setup) -> Mapping[str, PortState]:
    points = studies.whole_power(setup).points
    typical, change = points[Point.TYPICAL], points[Point.CHANGE]
    return {
        ref.place: PortState(port.volts, _volts_at(change.ports, ref), _find_spare(studies.rig, change.ports, ref))
        for ref, port in typical.ports.items()
    }


def _volts_at(ports: Mapping[PortRef, PortPower], ref: PortRef) -> float | None:
    return ports[ref].volts if ref in ports else None


def _find_spare(rig: Rig, ports: Mapping[PortRef, PortPower], ref: PortRef) -> float | None:
    works = rig.port(ref).works
    if works is None or ref not in ports or ports[ref].amps <= 0.0:
        return None
    return ports[ref].volts - works.low
