"""The day in a line: packs that it takes, packs that are there, watt-hours in all."""

from __future__ import annotations

from rigmint.lint.wording import say_list, say_minutes
from rigmint.study.day import Day, DayPacks

_JOULES = 3600.0


def say_day(day: Day | None) -> str:
    """Nothing where no day is stated, or no battery is in use."""
    if day is None or not (day.packs or day.built_in):
        return ""
    told = [_say_packs(packs) for packs in day.packs]
    told += [f"{item} runs {say_minutes(seconds)} on its own battery" for item, seconds in day.built_in.items()]
    return f"A day of {say_minutes(day.seconds)} in this setup takes {'; '.join(told)}.{_say_energy(day)}"


def _say_packs(packs: DayPacks) -> str:
    bays = f", {packs.bays} {'bay' if packs.bays == 1 else 'bays'} to charge in" if packs.bays else ""
    there = f"{packs.there} there, {packs.spares} of them in the case"
    name = packs.parts[0].name if len(packs.parts) == 1 else "packs of several sizes"
    return f"{packs.needed} × {name} for {say_list(list(packs.items))} ({there}{bays})"


def _say_energy(day: Day) -> str:
    if not day.packs:
        return ""
    needed = sum(packs.joules_needed for packs in day.packs) / _JOULES
    there = sum(packs.joules_there for packs in day.packs) / _JOULES
    return f" Packs for {needed:.0f} Wh, {there:.0f} Wh there."
