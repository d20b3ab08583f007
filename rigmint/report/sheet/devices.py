"""A card a device, for a phone: its settings, its leads with volts, how it is changed live."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigmint.lint.wording import say_volts
from rigmint.report.sheet.live_changes import ChangeBox
from rigmint.report.sheet.settings_boxes import SettingBox, SettingRow
from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.uses import Uses


@dataclass(frozen=True, slots=True)
class PluggedLead:
    """A lead in one of the device's ports, named as printed."""

    label: str
    port: str
    other: str
    volts: str


@dataclass(frozen=True, slots=True)
class DeviceCard:
    """The card. `find`: what the search looks in, in lower case."""

    item: str
    part: str
    setups: tuple[str, ...]
    find: str
    settings: tuple[SettingRow, ...]
    leads: tuple[PluggedLead, ...]
    changes: tuple[ChangeBox, ...]


def gather_devices(
    rig: Rig,
    setups: Sequence[Setup],
    uses: Sequence[Uses],
    boxes: Sequence[SettingBox],
    changes: Sequence[ChangeBox],
) -> tuple[DeviceCard, ...]:
    """The cards of what is there in any of the setups shown, in the order of the kit."""
    rows = {box.item: box.rows for box in boxes}
    cards = []
    for name, item in rig.items.items():
        there = tuple(setup.name for setup in setups if name in setup.items)
        if not there:
            continue
        leads = tuple(
            _describe(rig, lead, end, ref, uses)
            for lead in rig.leads.values()
            for end, ref in lead.plugged.items()
            if ref.item == name and any(lead.label in setup.leads for setup in setups)
        )
        words = [name, item.part.name, item.part.id, item.asset or "", *(f"{one.label} {one.port}" for one in leads)]
        cards.append(
            DeviceCard(
                item=name,
                part=item.part.name,
                setups=there,
                find=" ".join(words).lower(),
                settings=rows.get(name, ()),
                leads=leads,
                changes=tuple(change for change in changes if change.item == name),
            )
        )
    return tuple(cards)


def _describe(rig: Rig, lead: Lead, end: str, ref: PortRef, uses: Sequence[Uses]) -> PluggedLead:
    others = [f"{far.item}, {rig.port(far).says}" for name, far in lead.plugged.items() if name != end]
    volts = [view.by_place[lead.label].volts[ref] for view in uses if ref in _volts_of(view, lead.label)]
    return PluggedLead(lead.label, rig.port(ref).says, " and ".join(others) or "nothing", _say(volts))


def _volts_of(view: Uses, label: str) -> dict[PortRef, float]:
    return dict(view.by_place[label].volts) if label in view.by_place else {}


def _say(volts: Sequence[float]) -> str:
    return say_volts(max(volts)) if volts else ""
