"""Settings whose value differs, as each holds in a setup, and who is meant to have what."""

from __future__ import annotations

from rigmint.rig.place import setting_place
from rigmint.rig.rig import Setup
from rigmint.study.compared.moved import Moved, gather_setups

SetupPair = tuple[Setup, Setup]


def compare_settings(pairs: tuple[SetupPair, ...]) -> tuple[Moved[str, str], ...]:
    """By place of the setting; None is a value that nobody states. Settings of items that came or went are left out:
    they came or went with their item."""
    found = []
    for old, new in pairs:
        for item, setting in dict.fromkeys((*old.settings, *new.settings)):
            if item in old.items and item in new.items:
                before, after = old.setting(item, setting), new.setting(item, setting)
                if before != after:
                    found.append((new.name, setting_place(item, setting), before, after))
    return gather_setups(found)


def compare_intentions(pairs: tuple[SetupPair, ...]) -> tuple[Moved[str, str], ...]:
    """By axis: the persons who are meant to have it."""
    found = []
    for old, new in pairs:
        for axis in dict.fromkeys((*old.who, *new.who)):
            before, after = (", ".join(setup.who[axis]) if axis in setup.who else None for setup in (old, new))
            if before != after:
                found.append((new.name, axis, before, after))
    return gather_setups(found)
