"""The day: how many packs of each kind a setup takes from full to `needs: day`, and what is there for it.

A pack lasts what its own runtime says, at typical load, aged and cold. Chargers are counted by their bays and not by
what they would bring back: nothing states how long a pack stays in one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from rigmint.rig.connector import go_together
from rigmint.rig.electric import Cell, Port, Role
from rigmint.rig.part import Part
from rigmint.rig.rig import Rig, Setup
from rigmint.study.runtime import Runtime
from rigmint.study.worst_volts import WorstVolts

PACK_KIND = "battery"
CHARGER_KIND = "supply"
_NEARLY_EQUAL = 0.1
"""Share by which the nominal volts of packs differ that stand in for each other."""
_ROUNDING = 1e-6


@dataclass(frozen=True, slots=True)
class DayPacks:
    """Packs that fit one kind of plate; energies in J."""

    items: Mapping[str, float]
    """Those on the rig, to s that one lasts there."""
    parts: tuple[Part, ...]
    """What they and the spares are, the commonest first."""
    connector: str
    nominal: float
    """V."""
    needed: int
    """Full packs for the day, those on the rig counted."""
    spares: int
    entries: tuple[int, ...]
    """Indices of `also` that bring the spares."""
    bays: int
    """Of chargers, on the rig or in the case."""
    joules_needed: float
    joules_there: float

    @property
    def there(self) -> int:
        """Packs on the rig and in the case."""
        return len(self.items) + self.spares

    @property
    def missing(self) -> int:
        """Packs of the first part that would have to be packed besides."""
        gap = self.joules_needed - self.joules_there
        return max(0, math.ceil(gap / _find_joules(self.parts[0]) - _ROUNDING))

    @property
    def lasts(self) -> float:
        """s that what is there lasts, without charging."""
        each = self.joules_needed / self.needed
        return self.joules_there / each / sum(1.0 / seconds for seconds in self.items.values())

    @property
    def is_enough(self) -> bool:
        """Whether what is there lasts the day without charging."""
        return self.joules_there >= self.joules_needed * (1.0 - _ROUNDING)

    def fits(self, other: DayPacks) -> bool:
        """Whether the packs of both stand in for each other."""
        return self.connector == other.connector and _is_near(self.nominal, other.nominal)


@dataclass(frozen=True, slots=True)
class Day:
    """The day of a setup in s. `built_in`: items whose own battery cannot be changed and ends before the day, to the s
    that it lasts."""

    seconds: float
    packs: tuple[DayPacks, ...]
    built_in: Mapping[str, float]


def find_own_seconds(runtime: Runtime, worst: WorstVolts, change_at: float, item: str) -> float | None:
    """s until a battery's own change: the study of runtime ends at the first change of all, and a battery that is not
    there yet is taken to go on as it did. None for one that gives no current."""
    seconds = runtime.seconds[item]
    used = 1.0 - runtime.left[item]
    if seconds is None or used <= 0.0 or ends_runtime(runtime, worst, item):
        return seconds
    return seconds * max(1.0, (1.0 - change_at) / used)


def ends_runtime(runtime: Runtime, worst: WorstVolts, item: str) -> bool:
    """Whether a port that this battery feeds left its window."""
    reach = worst.ports[runtime.failed].high if runtime.failed is not None else None
    return reach is not None and reach.source.item == item


def study_day(rig: Rig, setup: Setup, lasting: Mapping[str, float]) -> Day | None:
    """The day of a setup; `lasting`: item of a battery to s until its own change. None where no day is stated."""
    seconds = setup.needs.day
    if seconds is None:
        return None
    groups: list[list[str]] = []
    for item in lasting:
        if rig.items[item].part.kind != PACK_KIND or find_mount(rig, setup, item) is None:
            continue
        like = next((group for group in groups if _are_alike(rig, setup, group[0], item)), None)
        if like is not None:
            like.append(item)
        else:
            groups.append([item])
    packs = tuple(_count_packs(rig, setup, {item: lasting[item] for item in group}, seconds) for group in groups)
    built_in = {
        item: lasted for item, lasted in lasting.items() if rig.items[item].part.kind != PACK_KIND and lasted < seconds
    }
    return Day(seconds, packs, built_in)


def find_mount(rig: Rig, setup: Setup, item: str) -> Port | None:
    """The port by which a pack is joined: the one that is docked, else one that a lead is in."""
    docked = [ref for index in sorted(setup.docks) for ref in (rig.docks[index].first, rig.docks[index].second)]
    led = [ref for label in sorted(setup.leads) for _, ref in sorted(rig.leads[label].plugged.items())]
    return next((rig.port(ref) for ref in (*docked, *led) if ref.item == item and rig.port(ref).feeds), None)


def _are_alike(rig: Rig, setup: Setup, first: str, second: str) -> bool:
    ports = find_mount(rig, setup, first), find_mount(rig, setup, second)
    cells = _find_cell(rig.items[first].part), _find_cell(rig.items[second].part)
    if ports[0] is None or ports[1] is None or cells[0] is None or cells[1] is None:
        return False
    return _is_same_half(ports[0], ports[1]) and _is_near(cells[0].nominal, cells[1].nominal)


def _is_same_half(one: Port, other: Port) -> bool:
    return (one.connector.id, one.sex) == (other.connector.id, other.sex)


def _is_near(volts: float, other: float) -> bool:
    return abs(volts - other) <= _NEARLY_EQUAL * max(abs(volts), abs(other))


def _find_cell(part: Part) -> Cell | None:
    return next((cell for cell in part.cells.values() if cell.is_battery), None)


def _find_joules(part: Part) -> float:
    return sum(cell.energy or 0.0 for cell in part.cells.values())


def _count_packs(rig: Rig, setup: Setup, items: Mapping[str, float], seconds: float) -> DayPacks:
    name = next(iter(items))
    mount, cell = find_mount(rig, setup, name), _find_cell(rig.items[name].part)
    if mount is None or cell is None:
        msg = f"{name} is no pack that is joined to anything"
        raise ValueError(msg)
    needed = {item: max(1, math.ceil(seconds / lasts - _ROUNDING)) for item, lasts in items.items()}
    entries = [index for index, spare in enumerate(rig.spares) if _stands_in(spare.part, mount, cell)]
    spares = [rig.spares[index] for index in entries]
    return DayPacks(
        items=items,
        parts=tuple(_order_by_count([*(rig.items[item].part for item in items), *(spare.part for spare in spares)])),
        connector=mount.connector.id,
        nominal=cell.nominal,
        needed=sum(needed.values()),
        spares=sum(spare.count for spare in spares),
        entries=tuple(entries),
        bays=sum(_list_bays(rig, setup, mount)),
        joules_needed=sum(count * _find_joules(rig.items[item].part) for item, count in needed.items()),
        joules_there=sum(_find_joules(rig.items[item].part) for item in items)
        + sum(spare.count * _find_joules(spare.part) for spare in spares),
    )


def _order_by_count(parts: Sequence[Part]) -> list[Part]:
    """Each part once, the commonest first."""
    ids = [part.id for part in parts]
    return sorted(
        {part.id: part for part in parts}.values(), key=lambda part: (-ids.count(part.id), ids.index(part.id))
    )


def _stands_in(part: Part, mount: Port, cell: Cell) -> bool:
    """Whether a spare goes where the pack goes, and gives as many volts."""
    own = _find_cell(part)
    if part.kind != PACK_KIND or own is None or not _is_near(own.nominal, cell.nominal):
        return False
    return any(_is_same_half(port, mount) and port.feeds and port.role is not Role.IN for port in part.ports.values())


def _list_bays(rig: Rig, setup: Setup, mount: Port) -> Iterator[int]:
    """The bays that take the pack, of each charger: a part of kind `supply` that it goes into."""
    held = [(rig.items[name].part, 1) for name in sorted(setup.items)]
    for part, count in (*held, *((spare.part, spare.count) for spare in rig.spares)):
        if part.kind == CHARGER_KIND:
            yield count * sum(go_together(port, mount) for port in part.ports.values())


def is_short(packs: DayPacks, others: Sequence[Sequence[DayPacks]]) -> bool:
    """Whether the day takes more packs than there are, in this rig and in the cases of the job. `others`: of each other
    rig the packs in the setup that needs most of them. A charger that takes them makes it a matter of the day."""
    if packs.is_enough or packs.bays:
        return False
    alike = [other for rig in others for other in rig if packs.fits(other)]
    there = packs.joules_there + sum(other.joules_there for other in alike)
    needed = packs.joules_needed + sum(other.joules_needed for other in alike)
    return there < needed * (1.0 - _ROUNDING)
