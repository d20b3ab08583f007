"""Which parts of the catalogue could stand in for an item with nothing lost, and what each would change."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rigmint.library.catalogue import Catalogue
from rigmint.lint.compare import Comparison, Judged, Turn, compare_judged, judge_side
from rigmint.lint.packs import Pack
from rigmint.lint.rule import Rule
from rigmint.rig.part import Part
from rigmint.study.exchange import exchange_part
from rigmint.words import Grade


@dataclass(frozen=True, slots=True)
class StandIn:
    """A part that takes all plugs of an item, the names under which it takes them where these differ, the settings
    that it does not have, and what it changes."""

    part: Part
    renamed: Mapping[str, str]
    dropped: tuple[str, ...]
    comparison: Comparison

    @property
    def losses(self) -> tuple[str, ...]:
        """What is lost with it, in words; empty where nothing is. A hand that the same person has by another control of
        the part, and a flow that ends at another screen of it, are not lost."""
        found = [f"{one.finding.code} at {one.finding.at}" for one in self.comparison.find_worsening(Grade.FIGHT)]
        hands, arrivals = self.comparison.rigs.hands, self.comparison.rigs.arrivals
        held = {(m.key[0], m.after.person, setup) for m in hands if m.after is not None for setup in m.setups}
        found += [
            f"the hand of {m.key[1]} on {m.key[0]}"
            for m in hands
            if m.after is None and m.before is not None
            if any((m.key[0], m.before.person, setup) not in held for setup in m.setups)
        ]
        arriving = {
            (m.key[0], _item_of(m.key[1]), setup) for m in arrivals if m.after is not None for setup in m.setups
        }
        found += [
            f"{m.key[0]} at {m.key[1]}"
            for m in arrivals
            if m.after is None and any((m.key[0], _item_of(m.key[1]), setup) not in arriving for setup in m.setups)
        ]
        return tuple(dict.fromkeys(found))


@dataclass(frozen=True, slots=True)
class Unfit:
    """A part of the same kind that cannot take all plugs of an item, and what it lacks."""

    part: Part
    lacking: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StandIns:
    """Every other part of an item's kind: those with nothing lost, best first, then the others, then the unfit."""

    item: str
    part: Part
    whole: tuple[StandIn, ...]
    lossy: tuple[StandIn, ...]
    unfit: tuple[Unfit, ...]


def find_stand_ins(
    judged: Judged,
    item: str,
    catalogue: Catalogue,
    rules: Sequence[tuple[Pack, Rule]],
    today: datetime.date,
    setup: str | None = None,
) -> StandIns:
    """Try every part of the kind of an item in its place, and check the rig anew with each; `setup` as the one in
    which it was judged."""
    rig, house = judged.rig, judged.studies.house
    part = rig.items[item].part
    found: list[StandIn] = []
    unfit: list[Unfit] = []
    for part_id in catalogue.part_ids:
        other = catalogue.part(part_id)
        if other is None or other.kind != part.kind or other.id == part.id:
            continue
        exchange = exchange_part(rig, item, other)
        if exchange.rig is None:
            unfit.append(Unfit(other, exchange.lacking))
            continue
        changed = judge_side(exchange.rig, house, rules, today, setup)
        found.append(StandIn(other, exchange.renamed, exchange.dropped, compare_judged(judged, changed)))
    found.sort(key=_rank)
    return StandIns(
        item,
        part,
        tuple(one for one in found if not one.losses),
        tuple(one for one in found if one.losses),
        tuple(unfit),
    )


def _item_of(place: str) -> str:
    return place.partition(".")[0]


def _rank(one: StandIn) -> tuple[int, int, int, float, float, str]:
    """Fewest losses, then fewest new findings, fewest new names and settings, least moved volts, nearest in mass."""
    gained = sum(change.turn in (Turn.GAINED, Turn.WORSE) for change in one.comparison.findings)
    moved = max((move.size for move in one.comparison.rigs.volts), default=0.0)
    lost_time = max((m.before - (m.after or 0.0) for m in one.comparison.rigs.runtimes if m.before), default=0.0)
    changes = len(one.renamed) + len(one.dropped)
    return len(one.losses), gained, changes, round(lost_time, 0), round(moved, 2), one.part.id
