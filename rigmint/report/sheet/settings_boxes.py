"""Settings, a box a device: what is stated, in each setup, what is forgotten at power-off, what nobody wrote down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigmint.rig.rig import Item, Rig, SettingState, Setup


@dataclass(frozen=True, slots=True)
class SettingRow:
    """A setting and its value in each setup shown; None: nobody stated it; empty: the item is not there.
    `differs`: not the same in all of them."""

    name: str
    values: tuple[str | None, ...]
    differs: bool
    forgets: bool
    falls_back: str
    """What it falls back to at power-off, where it forgets."""

    @property
    def shared(self) -> str | None:
        """The value of all setups in which the item is, where it does not differ."""
        return next((value for value in self.values if value != ""), None)


@dataclass(frozen=True, slots=True)
class SettingBox:
    """A device: the rows to enter, and the settings that stay as delivered, in words."""

    item: str
    part: str
    rows: tuple[SettingRow, ...]
    as_delivered: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SettingsView:
    """All boxes, and the places of settings that nobody wrote down in some setup."""

    boxes: tuple[SettingBox, ...]
    unwritten: tuple[str, ...]


def gather_settings(rig: Rig, setups: Sequence[Setup]) -> SettingsView:
    """The boxes of the devices that are there in any of these setups and have something to set."""
    boxes = [
        _gather_box(item, setups)
        for name, item in rig.items.items()
        if item.part.settings and any(name in setup.items for setup in setups)
    ]
    unwritten = [f"{box.item}.{row.name}" for box in boxes for row in box.rows if None in row.values]
    return SettingsView(tuple(box for box in boxes if box.rows or box.as_delivered), tuple(unwritten))


def _gather_box(item: Item, setups: Sequence[Setup]) -> SettingBox:
    rows, delivered = [], []
    for setting in item.part.settings.values():
        states = [setup.settings.get((item.name, setting.name)) for setup in setups if item.name in setup.items]
        if all(state is not None and state.stated == "default" for state in states):
            delivered.append(f"{setting.name} {setting.default}")
            continue
        values = tuple(_show(setup.settings.get((item.name, setting.name)), item, setup) for setup in setups)
        present = {value for value, setup in zip(values, setups, strict=True) if item.name in setup.items}
        falls_back = setting.default or "" if setting.forgets else ""
        rows.append(SettingRow(setting.name, values, len(present) > 1, setting.forgets, falls_back))
    return SettingBox(item.name, item.part.name, tuple(rows), tuple(delivered))


def _show(state: SettingState | None, item: Item, setup: Setup) -> str | None:
    if item.name not in setup.items:
        return ""
    return state.value if state is not None else None
