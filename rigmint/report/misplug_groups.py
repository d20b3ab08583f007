"""The order in which misplugs are told, and what is told together."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from rigmint.rig.rig import PortRef, Rig
from rigmint.study.misplug.burns import Harm, HarmKind
from rigmint.study.misplug.losses import Loss
from rigmint.study.misplug.mistakes import How
from rigmint.study.misplug.outcome import Misplug, Outcome, find_marks

_OUTCOMES = (Outcome.BURN, Outcome.DEAD, Outcome.HARMLESS)
_HOWS = (How.MOVED, How.SWAPPED, How.TURNED, How.FORCED)
Order: TypeAlias = tuple[int, bool, bool, int, int, float, str, str, str, str]


@dataclass(frozen=True, slots=True)
class Culprit:
    """Leads of which one mistake does the same. `meant`: the leads that they were taken for; `sockets`: where they go
    in, if that is not where they do harm."""

    how: How
    leads: tuple[str, ...]
    end: str
    meant: tuple[str, ...]
    sockets: tuple[PortRef, ...]
    volts: float
    marks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class VictimGroup:
    """Sockets that die of the same mistakes in the same way."""

    victims: tuple[PortRef, ...]
    harm: Harm
    culprits: tuple[Culprit, ...]
    further: tuple[str, ...]
    """Ports that die besides."""
    is_marked: bool
    """Whether marks answer all of them."""


@dataclass(frozen=True, slots=True)
class FailureGroup:
    """An end that goes into several sockets, or leads that may be taken for one: what no longer works of all of them,
    and what else of some."""

    how: How
    leads: tuple[str, ...]
    end: str
    meant: str
    sockets: tuple[PortRef, ...]
    losses: tuple[Loss, ...]
    others: tuple[Loss, ...]


def sort_misplugs(rig: Rig, misplugs: Iterable[Misplug]) -> list[Misplug]:
    """What burns first, within reach before what only a bench allows, without a mark before what is marked; then what
    fails to work; then what does no harm."""
    return sorted(misplugs, key=lambda one: _rank(rig, one))


def _rank(rig: Rig, misplug: Misplug) -> Order:
    mistake = misplug.mistake
    kind, excess = _badness(misplug.harms[0]) if misplug.harms else (0, 0.0)
    return (
        _OUTCOMES.index(misplug.outcome),
        not mistake.same_place,
        bool(misplug.harms) and bool(find_marks(rig, misplug)),
        _HOWS.index(mistake.how),
        kind,
        -excess,
        misplug.port.place if misplug.harms else "",
        mistake.lead or "",
        mistake.end or "",
        f"{mistake.into.place} {mistake.meant} {mistake.ways} {misplug.setups}",
    )


def _badness(harm: Harm) -> tuple[int, float]:
    return harm.kind, abs(harm.volts / harm.limit) if harm.limit else abs(harm.volts)


def group_by_victim(rig: Rig, misplugs: Sequence[Misplug], *, perhaps: bool = False) -> list[VictimGroup]:
    """Misplugs that burn, in their order, by what they destroy first; sockets of one fate together. `perhaps`: by what
    they destroy only if a regulator lets current back."""
    by_victim: dict[tuple[PortRef, HarmKind, str], list[Misplug]] = defaultdict(list)
    for one in misplugs:
        harm = _first_harm(one, perhaps=perhaps)
        by_victim[harm.ref or one.mistake.into, harm.kind, _name_what(harm)].append(one)
    alike: dict[tuple[object, ...], list[tuple[PortRef, list[Misplug]]]] = defaultdict(list)
    for (victim, kind, what), group in by_victim.items():
        harm = _first_harm(group[0], perhaps=perhaps)
        culprits = _list_culprits(rig, victim, group, perhaps=perhaps)
        alike[kind, what, harm.limit, culprits].append((victim, group))
    found = []
    for (_, _, _, _), entries in alike.items():
        victim, group = entries[0]
        everything = [one for _, members in entries for one in members]
        harms = [harm for one in everything for harm in (one.perhaps if perhaps else one.harms)[1:]]
        victims = tuple(ref for ref, _ in entries)
        further = {harm.ref.place for harm in harms if harm.ref is not None and harm.ref not in victims}
        found.append(
            VictimGroup(
                victims=victims,
                harm=_first_harm(group[0], perhaps=perhaps),
                culprits=_list_culprits(rig, victim, group, perhaps=perhaps),
                further=tuple(sorted(further)),
                is_marked=all(find_marks(rig, one) for one in everything),
            )
        )
    return sorted(found, key=lambda one: one.is_marked)


def _first_harm(misplug: Misplug, *, perhaps: bool) -> Harm:
    return (misplug.perhaps if perhaps else misplug.harms)[0]


def _name_what(harm: Harm) -> str:
    return "" if harm.kind is HarmKind.INTO_OUTPUT else harm.what


def _list_culprits(rig: Rig, victim: PortRef, misplugs: Sequence[Misplug], *, perhaps: bool) -> tuple[Culprit, ...]:
    by_lead: dict[tuple[How, str, str], list[Misplug]] = defaultdict(list)
    for one in misplugs:
        mistake = one.mistake
        end = "" if mistake.how is How.SWAPPED else mistake.end or ""
        by_lead[mistake.how, mistake.lead or "", end].append(one)
    alike: dict[tuple[object, ...], list[Culprit]] = defaultdict(list)
    for (how, lead, end), group in by_lead.items():
        culprit = Culprit(
            how=how,
            leads=(lead,),
            end=end,
            meant=_list_distinct(one.mistake.meant for one in group) if how is How.SWAPPED else (),
            sockets=tuple(dict.fromkeys(one.mistake.into for one in group if one.mistake.into != victim)),
            volts=max((_first_harm(one, perhaps=perhaps).volts for one in group), key=abs),
            marks=_list_distinct(mark for one in group for mark in find_marks(rig, one)),
        )
        alike[how, end, culprit.meant, culprit.sockets, round(culprit.volts, 1), culprit.marks].append(culprit)
    return tuple(
        replace(group[0], leads=_list_distinct(lead for one in group for lead in one.leads)) for group in alike.values()
    )


def _list_distinct(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))


def group_failures(misplugs: Sequence[Misplug]) -> list[FailureGroup]:
    """Misplugs that only fail to work, in their order: of an end that is moved all sockets together, of a lead all that
    may be taken for it."""
    groups: dict[tuple[How, str, str], list[Misplug]] = defaultdict(list)
    for one in misplugs:
        mistake = one.mistake
        is_swapped = mistake.how is How.SWAPPED
        owner = mistake.meant if is_swapped else mistake.lead or ""
        groups[mistake.how, owner, "" if is_swapped else mistake.end or ""].append(one)
    return [_make_failure(how, end, group) for (how, _, end), group in groups.items()]


def _make_failure(how: How, end: str, group: Sequence[Misplug]) -> FailureGroup:
    common = set.intersection(*(set(one.losses) for one in group))
    return FailureGroup(
        how=how,
        leads=_list_distinct(one.mistake.lead or "" for one in group),
        end=end,
        meant=group[0].mistake.meant,
        sockets=tuple(dict.fromkeys(one.mistake.into for one in group)),
        losses=tuple(sorted(common)),
        others=tuple(sorted({loss for one in group for loss in one.losses} - common)),
    )
