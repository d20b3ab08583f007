"""What goes out of the door and comes back: devices, spares, batteries, leads."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigmint.lint.wording import say_volts
from rigmint.rig.part import Part
from rigmint.rig.rig import Lead, Rig, Setup
from rigmint.study.uses import Uses

_JOULES_A_WATT_HOUR = 3600.0


@dataclass(frozen=True, slots=True)
class Pulled:
    """A part, how many, the names under which it is on the rig, asset numbers, and why it is a spare."""

    part: Part
    count: int
    names: tuple[str, ...]
    assets: tuple[str, ...]
    why: str


@dataclass(frozen=True, slots=True)
class BatteryRow:
    """A kind of battery: how many, and Wh of each."""

    part: Part
    count: int
    watt_hours: float


@dataclass(frozen=True, slots=True)
class LeadRow:
    """A lead of the schedule. `setups`: those in which it is not there."""

    label: str
    part: str
    ends: tuple[tuple[str, str], ...]
    """(place as printed, connector)."""
    length: str
    carries: str
    volts: str
    mark: str
    asset: str


@dataclass(frozen=True, slots=True)
class PullList:
    """The section."""

    devices: tuple[Pulled, ...]
    spares: tuple[Pulled, ...]
    batteries: tuple[BatteryRow, ...]
    watt_hours: float
    leads: tuple[LeadRow, ...]


def gather_pull_list(rig: Rig, setups: Sequence[Setup], uses: Sequence[Uses]) -> PullList:
    """What the setups shown need; `uses` of each of them."""
    there = [name for name in rig.items if any(name in setup.items for setup in setups)]
    devices: dict[str, list[str]] = {}
    for name in there:
        devices.setdefault(rig.items[name].part.id, []).append(name)
    pulled = [
        Pulled(
            rig.items[names[0]].part,
            len(names),
            tuple(names),
            tuple(asset for name in names if (asset := rig.items[name].asset) is not None),
            "",
        )
        for names in devices.values()
    ]
    spares = [Pulled(spare.part, spare.count, (), (), spare.why or "") for spare in rig.spares]
    batteries = _list_batteries([*pulled, *spares])
    leads = [lead for lead in rig.leads.values() if any(lead.label in setup.leads for setup in setups)]
    return PullList(
        devices=tuple(pulled),
        spares=tuple(spares),
        batteries=batteries,
        watt_hours=sum(row.count * row.watt_hours for row in batteries),
        leads=tuple(_gather_lead(rig, lead, uses) for lead in leads),
    )


def _list_batteries(pulled: Sequence[Pulled]) -> tuple[BatteryRow, ...]:
    counts: dict[str, tuple[Part, int]] = {}
    for one in pulled:
        if _find_watt_hours(one.part) > 0:
            _, before = counts.get(one.part.id, (one.part, 0))
            counts[one.part.id] = (one.part, before + one.count)
    return tuple(BatteryRow(part, number, _find_watt_hours(part)) for part, number in counts.values())


def _find_watt_hours(part: Part) -> float:
    return sum(cell.energy or 0.0 for cell in part.cells.values()) / _JOULES_A_WATT_HOUR


def _gather_lead(rig: Rig, lead: Lead, uses: Sequence[Uses]) -> LeadRow:
    used = [view.by_place[lead.label] for view in uses if lead.label in view.by_place]
    volts = [value for use in used for value in use.volts.values()]
    carried = dict.fromkeys(word for use in used for word in (*use.axes, *use.flows))
    is_power = any(use.volts for use in used)
    ends = [
        (
            f"{ref.item}, {rig.port(ref).says}" if (ref := lead.plugged.get(name)) is not None else "loose",
            f"{end.connector.name}, {end.sex.value}",
        )
        for name, end in lead.body.ends.items()
    ]
    return LeadRow(
        label=lead.label,
        part=lead.part.name if lead.part is not None else "straight lead" if lead.body.straight else "as described",
        ends=tuple(ends),
        length=f"{'~' if 'length' in lead.assumed else ''}{round(lead.length * 100):g} cm",
        carries=", ".join([*(["power"] if is_power else []), *carried]),
        volts=_say_span(volts),
        mark=rig.marked.get(lead.label) or lead.mark or "",
        asset=lead.asset or "",
    )


def _say_span(volts: Sequence[float]) -> str:
    if not volts:
        return ""
    low, high = say_volts(min(volts)), say_volts(max(volts))
    return high if low == high else f"{low.removesuffix(' V')} to {high}"
