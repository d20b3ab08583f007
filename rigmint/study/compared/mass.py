"""Mass that a head or a carrier carries more or less, stage by stage."""

from __future__ import annotations

from rigmint.rig.rig import Setup
from rigmint.study.compared.moved import Moved, gather_setups
from rigmint.study.studies import Studies

_STEP = 0.005
"""kg: less needs no new balance."""


def compare_masses(
    old: Studies, new: Studies, pairs: tuple[tuple[Setup, Setup], ...]
) -> tuple[Moved[tuple[str, str], float], ...]:
    """By (head or carrier, stage): kg that sit on that stage itself. A carrier has no stages: what it carries in all
    stands at `all`. What has no mass counts as none."""
    found = []
    for before, after in pairs:
        was, now = _weigh(old, before), _weigh(new, after)
        for key in dict.fromkeys((*was, *now)):
            if key not in was or key not in now or abs(was[key] - now[key]) >= _STEP:
                found.append((after.name, key, was.get(key), now.get(key)))
    return gather_setups(found)


def _weigh(studies: Studies, setup: Setup) -> dict[tuple[str, str], float]:
    masses: dict[tuple[str, str], float] = {}
    for burden in studies.payloads(setup).loads:
        if not burden.is_head:
            masses[burden.carrier, "all"] = burden.mass
            continue
        for thing in burden.carried:
            if thing.mass is not None:
                key = (burden.carrier, thing.stage)
                masses[key] = masses.get(key, 0.0) + thing.mass
    return masses
