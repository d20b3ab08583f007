"""Findings that somebody signed for: what an entry matches, whether it holds, and what the core says of entries that do
not."""

from __future__ import annotations

import datetime
from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from fnmatch import fnmatchcase

from rigmint.library.faults import Fault
from rigmint.lint.changes import Unsign
from rigmint.lint.finding import Finding, Fix, MergedFinding
from rigmint.lint.results import Accepted
from rigmint.lint.wording import say_quantity
from rigmint.rig.house import House
from rigmint.rig.quantity import UNITS
from rigmint.rig.rig import Acceptance, Rig
from rigmint.words import Grade

_NEEDS_EXPIRY = frozenset({Grade.BURN, Grade.HURT})
_SHARE = "of the load"


class Verdict(StrEnum):
    """What became of an entry at a finding that it matches."""

    HOLDS = "holds"
    EXPIRED = "expired"
    UNDATED = "undated"
    """Of a finding that can burn or hurt, without an `until`."""
    GROWN = "grown"
    """The finding is worse than what was signed for."""
    UNMEASURED = "unmeasured"
    """With an `up_to`, where the finding has no value to hold against it."""
    WRONG_UNIT = "wrong-unit"


@dataclass(frozen=True, slots=True)
class Signed:
    """A finding and who signed for it, if anybody did."""

    merged: MergedFinding
    accepted: Accepted | None


@dataclass(frozen=True, slots=True)
class Signing:
    """What came of all entries. `own`: the core's findings of the rig's own entries; `of_library`: place of each entry
    of the library that matched something, and its verdicts, for who has seen all rigs; `faults`: of units."""

    signed: tuple[Signed, ...]
    own: tuple[MergedFinding, ...]
    of_library: tuple[tuple[str, str], ...]
    faults: tuple[Fault, ...]


def sign_findings(
    findings: Sequence[MergedFinding], rig: Rig, house: House, today: datetime.date, codes: Container[str]
) -> Signing:
    """Each finding with its acceptance, and the core's own findings of entries that are stale or do not hold. A finding
    that is signed for in some of its setups is told twice: as accepted there, and as open in the others.

    `codes`: those of the rules that ran; an entry for another is not called stale.
    """
    entries = (*rig.accepted, *house.accepted)
    verdicts: dict[str, set[Verdict]] = {entry.place: set() for entry in entries}
    signed: list[Signed] = []
    faults: dict[str, Fault] = {}
    for merged in findings:
        judged = [(one, judge_entry(one, merged.finding, today)) for one in entries if matches_entry(one, merged, rig)]
        for entry, verdict in judged:
            verdicts[entry.place].add(verdict)
            if verdict is Verdict.WRONG_UNIT and entry.up_to is not None and merged.finding.measured is not None:
                fault = _find_unit_fault(entry, entry.up_to.kind, merged.finding.measured.unit, rig, house)
                faults.setdefault(entry.place, fault)
        signed += _split(merged, judged)
    own = [
        say_verdicts(entry, verdicts[entry.place], tuple(rig.setups))
        for entry in rig.accepted
        if entry.code in codes or verdicts[entry.place]
    ]
    of_library = tuple((one.place, verdict) for one in house.accepted for verdict in sorted(verdicts[one.place]))
    return Signing(
        tuple(signed), tuple(one for one in own if one is not None), of_library, tuple(sorted(faults.values()))
    )


def say_verdicts(entry: Acceptance, verdicts: set[Verdict], setups: tuple[str, ...]) -> MergedFinding | None:
    """What the core has to say of an entry, given what became of it everywhere; None where it does its work."""
    if not verdicts:
        says = f"{entry.by} signed for {entry.code} at {entry.at}, and there is no such finding any more."
        changes = () if is_of_library(entry) else (Unsign(int(entry.place.rpartition(".")[2])),)
        fixes = (Fix("Take the entry out, or correct its code or place.", changes),)
        return MergedFinding(Finding("accepted:stale", Grade.TIDY, says, entry.at, entry.place, fixes=fixes), setups)
    signed = f"{entry.by} signed for {entry.code} at {entry.at}"
    if Verdict.EXPIRED in verdicts:
        says = f"What {signed}, held until {entry.until}: put it right or sign anew."
    elif Verdict.UNDATED in verdicts:
        says = f"{signed}, without a day: what can burn or hurt is signed for only `until` a day, so it is open."
    elif Verdict.UNMEASURED in verdicts:
        says = f"{signed}, with an `up_to` against which this finding has no value to hold: leave `up_to` out."
    else:
        return None
    return MergedFinding(Finding("accepted:expired", Grade.THIN, says, entry.at, entry.place), setups)


def is_of_library(entry: Acceptance) -> bool:
    """Whether an entry stands in the library, and not in the rig."""
    return entry.place.startswith("library")


def _split(merged: MergedFinding, judged: Sequence[tuple[Acceptance, Verdict]]) -> list[Signed]:
    holding = [entry for entry, verdict in judged if verdict is Verdict.HOLDS]
    whole = next((one for one in holding if one.setup is None or (one.setup,) == merged.setups), None)
    if whole is not None:
        return [Signed(merged, _sign(whole))]
    by_setup: Mapping[str | None, Acceptance] = {one.setup: one for one in reversed(holding)}
    signed = [
        Signed(replace(merged, setups=(setup,)), _sign(by_setup[setup])) for setup in merged.setups if setup in by_setup
    ]
    rest = tuple(setup for setup in merged.setups if setup not in by_setup)
    grown = [entry for entry, verdict in judged if verdict is Verdict.GROWN]
    is_open = [Signed(replace(_say_grown(merged, grown), setups=rest), None)] if rest else []
    return [*is_open, *signed]


def _say_grown(merged: MergedFinding, grown: Sequence[Acceptance]) -> MergedFinding:
    """The finding with who had signed for less."""
    told = [f" {one.by} signed for it up to {say_quantity(one.up_to)}." for one in grown if one.up_to is not None]
    says = merged.finding.says + "".join(dict.fromkeys(told))
    return replace(merged, finding=replace(merged.finding, says=says)) if told else merged


def _sign(entry: Acceptance) -> Accepted:
    return Accepted(entry.why, entry.by, entry.until, entry.place != "library")


def judge_entry(entry: Acceptance, finding: Finding, today: datetime.date) -> Verdict:
    """What becomes of an entry at a finding that it matches."""
    if entry.until is not None and datetime.date.fromisoformat(entry.until) < today:
        return Verdict.EXPIRED
    if entry.until is None and finding.grade in _NEEDS_EXPIRY:
        return Verdict.UNDATED
    if entry.up_to is None:
        return Verdict.HOLDS
    measured = finding.measured
    if measured is None:
        return Verdict.UNMEASURED
    if not _is_of_unit(entry.up_to.kind, measured.unit):
        return Verdict.WRONG_UNIT
    bound = entry.up_to.value
    has_grown = measured.value < bound if measured.gets_worse_downwards else measured.value > bound
    return Verdict.GROWN if has_grown else Verdict.HOLDS


def _is_of_unit(kind: str, unit: str) -> bool:
    """Whether a kind of quantity is measured in an SI unit."""
    if unit == _SHARE:
        return kind == "ratio"
    found = UNITS[kind].get(unit)
    return found is not None and found.factor == 1.0


def _find_unit_fault(entry: Acceptance, kind: str, unit: str, rig: Rig, house: House) -> Fault:
    """The fault of an `up_to` of another kind than what the finding measures."""
    says = f"`up_to` of {entry.code} at {entry.at} is given as {_with_article(kind)}"
    has_unit = any(_is_of_unit(known, unit) for known in UNITS)
    due = f"and it is measured in {unit}" if has_unit else f"and it counts {unit}: leave `up_to` out"
    is_house = is_of_library(entry)
    position = entry.position if is_house and entry.position is not None else rig.position(entry.place)
    file = house.file if is_house and house.file is not None else rig.file
    return Fault(file, position.line, position.column, "file:wrong-unit", f"{says}, {due}")


def _with_article(kind: str) -> str:
    words = kind.replace("_", " ")
    return f"{'an' if words[:1] in 'aeiou' else 'a'} {words}"


def matches_entry(entry: Acceptance, merged: MergedFinding, rig: Rig) -> bool:
    """Whether an entry is for a finding, whatever becomes of it there."""
    finding = merged.finding
    if entry.code != finding.code or (entry.setup is not None and entry.setup not in merged.setups):
        return False
    if any(fnmatchcase(place, entry.at) for place in (finding.at, finding.cause)):
        return True
    return is_of_library(entry) and any(
        fnmatchcase(place, entry.at) for place in _list_by_part((finding.at, finding.cause), rig)
    )


def _list_by_part(places: Sequence[str], rig: Rig) -> Iterator[str]:
    """`motor_f.bus_1` as `generic/lens-motor.bus_1`, `M1:a` as `generic/lead-bus:a` and as `generic/lead-bus`."""
    for place in places:
        item, dot, rest = place.partition(".")
        if item in rig.items:
            yield f"{rig.items[item].part.id}{dot}{rest}"
        label, colon, end = place.partition(":")
        lead = rig.leads.get(label)
        if lead is not None and lead.part is not None:
            yield lead.part.id
            if end:
                yield f"{lead.part.id}{colon}{end}"
