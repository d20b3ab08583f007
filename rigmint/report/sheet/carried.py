"""The carried mass on the sheet, and the packs for the day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rigmint.lint.wording import say_kilograms
from rigmint.report.power_day import say_day
from rigmint.rig.rig import Setup
from rigmint.study.payload import Burden
from rigmint.study.studies import Studies


def list_carried(studies: Studies, setups: Sequence[Setup]) -> tuple[str, ...]:
    """What each head and carrier carries, against its limits; setups that agree are told together."""
    return _tell_together({setup.name: [_say(burden) for burden in studies.payloads(setup).loads] for setup in setups})


def list_day(studies: Studies, setups: Sequence[Setup]) -> tuple[str, ...]:
    """The packs that the day takes; setups that agree are told together."""
    days = {setup.name: studies.day(setup) for setup in setups}
    return _tell_together({name: [say_day(day)] for name, day in days.items()})


def _say(burden: Burden) -> str:
    least = "at least " if burden.unweighed else ""
    limit = f" of {say_kilograms(burden.high)}" if burden.high is not None else ""
    missing = f"; without a mass: {', '.join(burden.unweighed)}" if burden.unweighed else ""
    return f"{burden.carrier} carries {least}{say_kilograms(burden.mass)}{limit}{missing}"


def _tell_together(told: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    setups: dict[str, list[str]] = {}
    for name, sentences in told.items():
        for sentence in sentences:
            setups.setdefault(sentence, []).append(name)
    return tuple(
        sentence if len(names) == len(told) else f"{sentence} ({', '.join(names)})"
        for sentence, names in setups.items()
        if sentence
    )
