"""Conditions on settings: whether they hold, and what an unknown setting would have to be for them to hold."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TypeAlias

from rigmint.rig.choice import Choice, When
from rigmint.rig.place import setting_place
from rigmint.rig.rig import Item, Setup

Assumption: TypeAlias = tuple[tuple[tuple[str, str], str], ...]
"""((item, setting), value) pairs, sorted: values of unknown settings that a path rests on."""
NOTHING: Assumption = ()


@dataclass(frozen=True, slots=True)
class Barred:
    """A condition that does not hold: the place of the setting, and the words for it."""

    by: str
    says: str


def judge_when(item: Item, when: When, setup: Setup) -> list[Assumption] | Barred:
    """The assumptions under which a condition holds (one that is empty where it simply does), or what bars it."""
    options: list[list[tuple[tuple[str, str], str]]] = []
    for name, values in when.items():
        if setup.is_unknown(item.name, name):
            options.append([((item.name, name), value) for value in values])
            continue
        value = setup.setting(item.name, name)
        if value not in values:
            place = setting_place(item.name, name)
            return Barred(place, f"{item.name}.{name} is {value}, not {' or '.join(values)}")
    return [tuple(sorted(combination)) for combination in product(*options)]


def resolve_choice(item: Item, choice: Choice, setup: Setup) -> list[tuple[tuple[str, ...], Assumption]]:
    """The words that a choice stands for, each with what it assumes."""
    if choice.setting is None:
        return [(choice.words, NOTHING)]
    if setup.is_unknown(item.name, choice.setting):
        setting = item.part.settings[choice.setting]
        return [(choice.resolve(value), (((item.name, choice.setting), value),)) for value in setting.values]
    return [(choice.resolve(setup.setting(item.name, choice.setting)), NOTHING)]


def join_assumptions(first: Assumption, second: Assumption) -> Assumption | None:
    """Both together; None where they contradict each other."""
    if not second:
        return first
    if not first:
        return second
    merged = dict(first)
    for key, value in second:
        if merged.setdefault(key, value) != value:
            return None
    return tuple(sorted(merged.items()))
