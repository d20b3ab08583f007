"""Batteries that last longer or less long, and the volts at the change-over."""

from __future__ import annotations

from collections.abc import Mapping

from rigmint.rig.rig import Setup
from rigmint.study.compared.moved import Moved, gather_setups
from rigmint.study.studies import Studies

_STEP = 300.0
"""s: runtimes are printed to 5 minutes, and a difference that does not show is none."""
_VOLTS_STEP = 0.1


def compare_runtimes(
    old: Studies, new: Studies, pairs: tuple[tuple[Setup, Setup], ...]
) -> tuple[Moved[str, float], ...]:
    """By item of the battery: s, to 5 minutes. None: it is not there, or gives no current."""
    found = []
    for before, after in pairs:
        was, now = (_round_all(s.runtime(setup).seconds, _STEP) for s, setup in ((old, before), (new, after)))
        found += [(after.name, item, was.get(item), now.get(item)) for item in dict.fromkeys((*was, *now))]
    return gather_setups(one for one in found if one[2] != one[3])


def compare_change_volts(
    old: Studies, new: Studies, pairs: tuple[tuple[Setup, Setup], ...]
) -> tuple[Moved[str, float], ...]:
    """By place of the port by which the crew works: V at the change-over, to a tenth."""
    found = []
    for before, after in pairs:
        was, now = (
            _round_all({ref.place: volts for ref, volts in s.runtime(setup).change_volts.items()}, _VOLTS_STEP)
            for s, setup in ((old, before), (new, after))
        )
        found += [(after.name, place, was.get(place), now.get(place)) for place in dict.fromkeys((*was, *now))]
    return gather_setups(one for one in found if one[2] != one[3])


def _round_all(values: Mapping[str, float | None], step: float) -> dict[str, float | None]:
    return {key: round(value / step) * step if value is not None else None for key, value in values.items()}
