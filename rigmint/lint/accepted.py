"""Findings that somebody signed for: matched, expired, stale."""

from __future__ import annotations

import datetime
from collections.abc import Container, Sequence
from dataclasses import dataclass, replace
from fnmatch import fnmatchcase

from rigmint.lint.engine import MergedFinding
from rigmint.lint.finding import Finding
from rigmint.lint.results import Accepted
from rigmint.rig.house import House
from rigmint.rig.rig import Acceptance, Rig
from rigmint.words import Grade

_NEEDS_EXPIRY = frozenset({Grade.BURN, Grade.HURT})


@dataclass(frozen=True, slots=True)
class Signed:
    """A finding and who signed for it, if anybody did."""

    merged: MergedFinding
    accepted: Accepted | None


def sign_findings(
    findings: Sequence[MergedFinding], rig: Rig, house: House, today: datetime.date, codes: Container[str]
) -> tuple[tuple[Signed, ...], tuple[MergedFinding, ...]]:
    """Each finding with its acceptance, and the core's own findings of entries that are stale or expired. A finding
    that is signed for in some of its setups is told twice: as accepted there, and as open in the others.

    `codes`: those of the rules that ran; an entry for another is not called stale.
    """
    used: set[str] = set()
    signed: list[Signed] = []
    entries = (*rig.accepted, *house.accepted)
    for merged in findings:
        matching = [one for one in entries if _matches(one, merged, rig)]
        used.update(one.place for one in matching)
        holding = [one for one in matching if _holds(one, merged.finding, today)]
        signed += _split(merged, holding)
    judged = [entry for entry in rig.accepted if entry.code in codes or entry.place in used]
    own = [_judge_entry(entry, entry.place in used, rig, today) for entry in judged]
    return tuple(signed), tuple(finding for finding in own if finding is not None)


def _split(merged: MergedFinding, holding: Sequence[Acceptance]) -> list[Signed]:
    whole = next((one for one in holding if one.setup is None or (one.setup,) == merged.setups), None)
    if whole is not None:
        return [Signed(merged, _sign(whole))]
    by_setup = {one.setup: one for one in reversed(holding)}
    signed = [
        Signed(replace(merged, setups=(setup,)), _sign(by_setup[setup])) for setup in merged.setups if setup in by_setup
    ]
    rest = tuple(setup for setup in merged.setups if setup not in by_setup)
    return [*([Signed(replace(merged, setups=rest), None)] if rest else []), *signed]


def _sign(entry: Acceptance) -> Accepted:
    return Accepted(entry.why, entry.by, entry.until, entry.place != "library")


def _holds(entry: Acceptance, finding: Finding, today: datetime.date) -> bool:
    return not _is_expired(entry, today) and _may_be_accepted(entry, finding) and not _has_grown(entry, finding)


def _matches(entry: Acceptance, merged: MergedFinding, rig: Rig) -> bool:
    finding = merged.finding
    if entry.code != finding.code or (entry.setup is not None and entry.setup not in merged.setups):
        return False
    if any(fnmatchcase(place, entry.at) for place in (finding.at, finding.cause)):
        return True
    by_part = [_by_part(place, rig) for place in (finding.at, finding.cause)]
    return entry.place == "library" and any(place and fnmatchcase(place, entry.at) for place in by_part)


def _by_part(place: str, rig: Rig) -> str | None:
    """`motor_f.bus_1` as `generic/lens-motor.bus_1`."""
    item, dot, rest = place.partition(".")
    if item in rig.items:
        return f"{rig.items[item].part.id}{dot}{rest}"
    lead = rig.leads.get(place.partition(":")[0])
    return lead.part.id if lead is not None and lead.part is not None else None


def _has_grown(entry: Acceptance, finding: Finding) -> bool:
    """Whether the finding has become worse than what was signed for."""
    measured = finding.measured
    if entry.up_to is None or measured is None or measured.limit is None:
        return False
    limit = measured.limit[-1] if isinstance(measured.limit, tuple) else measured.limit
    is_short_of_limit = measured.value < limit
    return measured.value < entry.up_to.value if is_short_of_limit else measured.value > entry.up_to.value


def _is_expired(entry: Acceptance, today: datetime.date) -> bool:
    return entry.until is not None and datetime.date.fromisoformat(entry.until) < today


def _may_be_accepted(entry: Acceptance, finding: Finding) -> bool:
    """A burn or a hurt is signed for only with an expiry."""
    return finding.grade not in _NEEDS_EXPIRY or entry.until is not None


def _judge_entry(entry: Acceptance, is_used: bool, rig: Rig, today: datetime.date) -> MergedFinding | None:
    setups = tuple(rig.setups)
    if not is_used:
        says = f"{entry.by} signed for {entry.code} at {entry.at}, and there is no such finding any more: take it out."
        return MergedFinding(Finding("accepted:stale", Grade.TIDY, says, entry.at, entry.place), setups)
    if _is_expired(entry, today):
        signed = f"What {entry.by} signed for, {entry.code} at {entry.at}"
        says = f"{signed}, held until {entry.until}: put it right or sign anew."
        return MergedFinding(Finding("accepted:expired", Grade.THIN, says, entry.at, entry.place), setups)
    return None
