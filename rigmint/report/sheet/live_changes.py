"""Live change on the sheet: what comes off and goes on in which order, and what to check after."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigmint.report.sheet.plugging import name_mating
from rigmint.rig.rig import Setup
from rigmint.study.live_change import LiveChange, find_live_changes
from rigmint.study.studies import Studies


@dataclass(frozen=True, slots=True)
class ChangeBox:
    """One device: the order in which its plugs come off and go on, why, and what to check after."""

    item: str
    setups: tuple[str, ...]
    off: tuple[str, ...]
    on: tuple[str, ...]
    why: tuple[str, ...]
    after: tuple[str, ...]


def gather_changes(studies: Studies, setups: Sequence[Setup]) -> tuple[ChangeBox, ...]:
    """A box a device, and another where it is changed otherwise in another setup."""
    found: dict[LiveChange, list[str]] = {}
    for setup in setups:
        for change in find_live_changes(studies, setup):
            found.setdefault(change, []).append(setup.name)
    order = {name: index for index, name in enumerate(studies.rig.items)}
    return tuple(
        ChangeBox(
            item=change.item,
            setups=tuple(names),
            off=tuple(name_mating(studies.rig, place) for place in change.off),
            on=tuple(name_mating(studies.rig, place) for place in change.on),
            why=change.why,
            after=change.after,
        )
        for change, names in sorted(found.items(), key=lambda pair: order[pair[0].item])
    )
