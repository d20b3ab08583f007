"""The last section: what was accepted, what is assumed, what only hands and eyes can check, what is not looked at."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigmint.lint.results import FileReport, ReportedFinding
from rigmint.report.order import sort_findings
from rigmint.rig.rig import Rig, Setup

NOT_LOOKED_AT = (
    "The mains side of supplies and chargers, and everything before them.",
    "Whether plates, rods, bonds, speed rail and mounts are strong enough, and how they are fixed.",
    "Weather: rain, heat, cold below what the job states, dust, salt.",
    "What is not written down in the rig file and its parts.",
)


@dataclass(frozen=True, slots=True)
class HandCheck:
    """Something to do with hands or eyes, and where."""

    says: str
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Answers:
    """The section."""

    accepted: tuple[ReportedFinding, ...]
    assumed: tuple[str, ...]
    unknown: tuple[str, ...]
    checks: tuple[HandCheck, ...]
    not_looked_at: tuple[str, ...]


def gather_answers(rig: Rig, report: FileReport, setups: Sequence[Setup]) -> Answers:
    """What stands in the setups shown."""
    accepted = [finding for finding in sort_findings(report) if finding.accepted is not None]
    unknown = dict.fromkeys(one.says for one in report.unknown)
    return Answers(
        accepted=tuple(accepted),
        assumed=_gather_figures(report.assumed),
        unknown=tuple(unknown),
        checks=_list_checks(rig, setups),
        not_looked_at=NOT_LOOKED_AT,
    )


def _gather_figures(assumed: Sequence[str]) -> tuple[str, ...]:
    """`place figure, figure`, a place once."""
    figures: dict[str, list[str]] = {}
    for one in assumed:
        place, _, figure = one.rpartition(" ")
        figures.setdefault(place, []).append(figure)
    return tuple(f"{place} {', '.join(names)}" for place, names in figures.items())


def _list_checks(rig: Rig, setups: Sequence[Setup]) -> tuple[HandCheck, ...]:
    there = frozenset(name for setup in setups for name in setup.items)
    kinds = {name: rig.items[name].part.kind for name in rig.items if name in there}
    heads = _of(kinds, "head")
    return (
        HandCheck("Polarity and voltage metered at each power lead before its first plug-in", _list_unmetered(rig)),
        HandCheck("Full travel of every joint with all tails on: nothing pulls, nothing catches", heads),
        HandCheck("Strain relief at both ends of each tail", ()),
        HandCheck("Locks, clamps and quick plates closed", ()),
        *_ask_of("Gear mesh at both ends of the ring's travel", tuple(sorted(rig.fitted.keys() & there))),
        *_ask_of("Safety bonds on", tuple(name for name in rig.items if name in there and rig.items[name].bond)),
        *_ask_of("Antennas on before the radio is switched on", _with_radio(rig, there)),
        *_ask_of("Plugs tied or clamped as written down", tuple(sorted(rig.tied))),
        HandCheck("Balance in every axis with the lens at its ends", heads),
        HandCheck("Picture seen at the working distance, on every screen", _of(kinds, "monitor")),
        HandCheck("Record started and stopped by every hand that has it", _of(kinds, "camera")),
    )


def _ask_of(says: str, places: tuple[str, ...]) -> tuple[HandCheck, ...]:
    """A check that is none where there is nothing to check."""
    return (HandCheck(says, places),) if places else ()


def _list_unmetered(rig: Rig) -> tuple[str, ...]:
    return tuple(
        label
        for label, lead in rig.leads.items()
        if label not in rig.metered and any(rig.port(ref).carries_power for ref in lead.plugged.values())
    )


def _of(kinds: dict[str, str], kind: str) -> tuple[str, ...]:
    return tuple(name for name, found in kinds.items() if found == kind)


def _with_radio(rig: Rig, there: frozenset[str]) -> tuple[str, ...]:
    return tuple(name for name, item in rig.items.items() if name in there and item.part.radios)
