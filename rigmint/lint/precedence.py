"""Which finding speaks: where several findings have one cause, the worse explanation silences the others.

The table is held here, not in the rules. A chain is listed from what speaks to what falls silent.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from rigmint.lint.finding import Finding
from rigmint.words import Grade

Key: TypeAlias = Callable[[Finding], Hashable]


def _cause(finding: Finding) -> Hashable:
    return finding.cause


def _at(finding: Finding) -> Hashable:
    return finding.at


def _island(finding: Finding) -> Hashable:
    return finding.island if finding.island is not None else finding.at


@dataclass(frozen=True, slots=True)
class Chain:
    """Codes (or `family:*`) from the one that speaks to the one that is silenced, where `keys` agree."""

    codes: tuple[str, ...]
    keys: tuple[Key, ...]


_HANDS = ("owner:mixed", "owner:two", "owner:wrong-ring", "owner:unintended", "owner:nobody")
CHAINS = (
    Chain(
        (
            "polarity:shorted",
            "polarity:reversed",
            "polarity:signal",
            "polarity:no-return",
            "voltage:over",
            "backfeed:tied-sources",
            "backfeed:into-output",
            "misplug:burns",
        ),
        (_cause,),
    ),
    Chain(
        ("voltage:collapse", "voltage:unpowered", "voltage:above-window", "voltage:under", "current:*"),
        (_cause, _at),
    ),
    Chain(("voltage:collapse", "voltage:under", "current:*"), (_island,)),
    Chain(("polarity:shorted", "voltage:collapse", "voltage:under"), (_island,)),
    Chain(("polarity:shorted", "voltage:unpowered"), (_cause,)),
    Chain(("voltage:collapse", "ground:*"), (_island,)),
    Chain(("voltage:collapse", "runtime:*"), (_island,)),
    Chain(("polarity:shorted", "current:*"), (_island,)),
    Chain(("polarity:shorted", "ground:*"), (_island,)),
    Chain(("polarity:shorted", "runtime:*"), (_island,)),
    Chain(
        ("fit:port-taken", "fit:wrong-way-round", "fit:wrong-port", "fit:no-wire", "fit:chain-order"),
        (_cause,),
    ),
    Chain(_HANDS, (_at, _cause)),
    Chain(("radio:too-many", "owner:nobody"), (_cause,)),
    Chain(("radio:too-many", "picture:nobody"), (_cause,)),
    Chain(("follow:on", "follow:reachable", "settings:unstated"), (_cause,)),
    Chain(("radio:out-of-reach", "radio:near-reach", "radio:control-dies-first"), (_cause,)),
    Chain(("radio:too-many", "radio:same-slot"), (_at,)),
    Chain(("signal:level", "fit:wrong-port", "record:kind"), (_cause,)),
    Chain(("fit:wrong-way-round", "record:kind"), (_cause,)),
    # A gear that must be changed says nothing of torque and speed. Of weak, slow and too strong several may hold.
    *(Chain(("drive:no-mesh", f"drive:{problem}"), (_at,)) for problem in ("no-stops", "too-strong", "weak", "slow")),
)
CIRCUIT_FAMILIES = frozenset({"polarity", "voltage", "current", "ground", "runtime"})
"""Families whose findings rest on the circuit of one island: with a short on it, none of its figures means anything."""

_BURNING = frozenset({Grade.BURN, Grade.HURT})
_BEHIND = ("owner:nobody", "picture:nobody", "signal:nobody", "tidy:idle-control")


def keep_speaking(findings: Sequence[Finding]) -> list[Finding]:
    """The findings of one setup that speak."""
    silent: set[int] = set()
    for chain in CHAINS:
        for key in chain.keys:
            _silence_along(findings, chain, key, silent)
    _silence_lead_that_does_not_fit(findings, silent)
    _silence_at_further_axes(findings, silent)
    _silence_voltage_at_burnt_ports(findings, silent)
    _silence_record_behind_wrong_trigger(findings, silent)
    _silence_unused_items_that_are_missed(findings, silent)
    return [finding for index, finding in enumerate(findings) if index not in silent]


def _silence_along(findings: Sequence[Finding], chain: Chain, key: Key, silent: set[int]) -> None:
    """What is only thin silences nothing that is worse."""
    best: dict[tuple[Hashable, bool], int] = {}
    ranked: list[tuple[int, int, Hashable, bool]] = []
    for index, finding in enumerate(findings):
        rank = _rank(chain, finding.code)
        if rank is None:
            continue
        value, is_grave = key(finding), finding.grade.is_at_least(Grade.FIGHT)
        ranked.append((index, rank, value, is_grave))
        for reached in (True, False) if is_grave else (False,):
            best[value, reached] = min(rank, best.get((value, reached), rank))
    silent.update(index for index, rank, value, is_grave in ranked if rank > best[value, is_grave])


def _rank(chain: Chain, code: str) -> int | None:
    for rank, pattern in enumerate(chain.codes):
        if code == pattern or (pattern.endswith(":*") and code.startswith(pattern[:-1])):
            return rank
    return None


def _silence_lead_that_does_not_fit(findings: Sequence[Finding], silent: set[int]) -> None:
    """A lead that does not mate silences everything else said of it, and hands and picture missing behind it. What is
    only thin, such as a plug that does not latch, silences nothing."""
    at_fault = [one for one in findings if one.code.startswith("fit:") and one.grade.is_at_least(Grade.DEAD)]
    misfits = {finding.cause for finding in at_fault if finding.code == "fit:no-mate"}
    fitting = {finding.cause for finding in at_fault}
    behind = {place for finding in at_fault for place in finding.also}
    for index, finding in enumerate(findings):
        if finding.cause in misfits and finding.code != "fit:no-mate":
            silent.add(index)
        if finding.code in _BEHIND and (finding.cause in fitting or finding.at in behind):
            silent.add(index)


def _silence_at_further_axes(findings: Sequence[Finding], silent: set[int]) -> None:
    """Two hands, or a motor on another ring than its own, explain what is wrong on each axis that they concern."""
    for rank, code in enumerate(_HANDS[:-2]):
        axes = {
            place
            for index, finding in enumerate(findings)
            if finding.code == code and index not in silent
            for place in (finding.at, *finding.also)
        }
        milder = _HANDS[rank + 1 :]
        silent.update(index for index, one in enumerate(findings) if one.code in milder and one.at in axes)


def _silence_voltage_at_burnt_ports(findings: Sequence[Finding], silent: set[int]) -> None:
    """A burn at a port silences the rest of `voltage` there, and that its item is switched off: who switches it on
    burns it."""
    burnt = {
        place
        for finding in findings
        if finding.grade in _BURNING and finding.code.partition(":")[0] in ("polarity", "voltage", "backfeed")
        for place in (finding.at, *finding.also)
    }
    switched = {place.partition(".")[0] for place in burnt}
    for index, finding in enumerate(findings):
        if finding.code.startswith("voltage:") and finding.grade not in _BURNING and finding.at in burnt | switched:
            silent.add(index)


def _silence_unused_items_that_are_missed(findings: Sequence[Finding], silent: set[int]) -> None:
    """An item that is joined to nothing is told once: where something is missed, the finding that names it says so."""
    missed = {
        place.partition(".")[0]
        for finding in findings
        if finding.code in _BEHIND and finding.grade is Grade.DEAD
        for place in (finding.cause, *finding.path)
    }
    for index, finding in enumerate(findings):
        if finding.code == "tidy:unused-item" and finding.at in missed:
            silent.add(index)


def _silence_record_behind_wrong_trigger(findings: Sequence[Finding], silent: set[int]) -> None:
    """A trigger of the wrong kind or level is why nobody has the record that its finding names."""
    triggers = [finding for finding in findings if finding.code in ("record:kind", "signal:level")]
    named = {place for finding in triggers for place in finding.also}
    for index, finding in enumerate(findings):
        if finding.code == "owner:nobody" and finding.at in named:
            silent.add(index)
