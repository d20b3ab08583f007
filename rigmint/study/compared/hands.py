"""Hands that are gained and lost: a control on an axis, whose it is, how it arrives, how far it reaches."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.rig.device import SignalKind
from rigmint.rig.rig import Setup
from rigmint.study.compared.moved import Moved, gather_setups
from rigmint.study.studies import Studies


@dataclass(frozen=True, slots=True)
class Hold:
    """How a control has an axis. `person` None: by hand at the control's item; `reach` in m, None over wire."""

    person: str | None
    arrives: SignalKind
    reach: float | None


def compare_hands(
    old: Studies, new: Studies, pairs: tuple[tuple[Setup, Setup], ...]
) -> tuple[Moved[tuple[str, str], Hold], ...]:
    """By (axis, control). What rests on an unknown setting is left out."""
    found = []
    for before, after in pairs:
        was, now = _list_holds(old, before), _list_holds(new, after)
        for key in dict.fromkeys((*was, *now)):
            if was.get(key) != now.get(key):
                found.append((after.name, key, was.get(key), now.get(key)))
    return gather_setups(found)


def _list_holds(studies: Studies, setup: Setup) -> Mapping[tuple[str, str], Hold]:
    holds: dict[tuple[str, str], Hold] = {}
    for place, axis in studies.hands(setup).axes.items():
        for claim in axis.certain:
            holds[place, claim.control] = Hold(claim.person, claim.arrives, claim.reach)
    return holds
