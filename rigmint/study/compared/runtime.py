"""Batteries that last longer or less long, and the volts at the change-over."""

from __future__ import annotations

from rigmint.rig.rig import Setup
from rigmint.study.compared.moved import Moved, gather_setups
from rigmint.study.studies import Studies

_STEP = 300.0
"""s: runtimes are printed to 5 minutes, and a difference that does not show is none."""
_LEAST_SHARE = 0.02
_VOLTS_STEP = 0.1


def compare_runtimes(
    old: Studies, new: Studies, pairs: tuple[tuple[Setup, Setup], ...]
) -> tuple[Moved[str, float], ...]:
    """By item of the battery: s until its own change, to 5 minutes. None: it is not there, or gives no current."""
    found = []
    for before, after in pairs:
        was, now = old.own_runtimes(before), new.own_runtimes(after)
        for item in dict.fromkeys((*was, *now)):
            if _has_moved(was.get(item), now.get(item)):
                found.append((after.name, item, _round(was.get(item), _STEP), _round(now.get(item), _STEP)))
    return gather_setups(found)


def _has_moved(before: float | None, after: float | None) -> bool:
    """By what shows in print, and by more than such an estimate is good for."""
    if before is None or after is None:
        return before is not after
    return _round(before, _STEP) != _round(after, _STEP) and abs(after - before) >= _LEAST_SHARE * before


def compare_change_volts(
    old: Studies, new: Studies, pairs: tuple[tuple[Setup, Setup], ...]
) -> tuple[Moved[str, float], ...]:
    """By place of the port by which the crew works: V at the change-over, to a tenth."""
    found = []
    for before, after in pairs:
        was, now = (
            {ref.place: _round(volts, _VOLTS_STEP) for ref, volts in s.runtime(setup).change_volts.items()}
            for s, setup in ((old, before), (new, after))
        )
        found += [(after.name, place, was.get(place), now.get(place)) for place in dict.fromkeys((*was, *now))]
    return gather_setups(one for one in found if one[2] != one[3])


def _round(value: float | None, step: float) -> float | None:
    return round(value / step) * step if value is not None else None
