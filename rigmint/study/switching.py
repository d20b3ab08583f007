"""The order in which a rig is switched on: sources first, what moves last, with what must be so before."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.rig.rig import Item, Rig, Setup
from rigmint.study.plugging import SOURCE_KINDS, list_matings, measure_from_sources

_KINDS = (
    *SOURCE_KINDS,
    "plate",
    "breakout",
    "regulator",
    "converter",
    "timecode",
    "camera",
    "recorder",
    "receiver",
    "monitor",
    "sender",
    "desk",
    "hand_unit",
    "head",
    "range_finder",
    "motor_driver",
    "lens_motor",
)
"""Who looks and who steers is on before what they look through and steer is (common practice)."""
_HEAD_BEFORE = ("axes free", "balanced", "hands off")
_RADIO_BEFORE = ("antennas on",)


@dataclass(frozen=True, slots=True)
class SwitchStep:
    """A device to switch on; whether it moves then; what must be so before."""

    item: str
    moves: bool
    before: tuple[str, ...]


def find_switching_order(rig: Rig, setup: Setup) -> tuple[SwitchStep, ...]:
    """Every item that gives or draws power and is not off."""
    distances = measure_from_sources(rig, setup, list_matings(rig, setup))
    order = {name: index for index, name in enumerate(rig.items)}
    steps = [_make_step(rig.items[name]) for name in rig.items if name in setup.items - setup.off]
    kept = [step for step in steps if step is not None]
    ranks = {kind: rank for rank, kind in enumerate(_KINDS)}
    kept.sort(
        key=lambda step: (
            step.moves,
            ranks.get(rig.items[step.item].part.kind, len(ranks)),
            distances.get(step.item, 0),
            order[step.item],
        )
    )
    return tuple(kept)


def _make_step(item: Item) -> SwitchStep | None:
    part = item.part
    if not part.cells and all(rail.load is None for rail in part.rails.values()):
        return None
    moves = moves_at_switch_on(item)
    before = dict.fromkeys(part.wakes.before if part.wakes is not None else ())
    if part.kind == "head" and not before:
        before |= dict.fromkeys(_HEAD_BEFORE)
    if part.radios:
        before |= dict.fromkeys(_RADIO_BEFORE)
    return SwitchStep(item.name, moves, tuple(before))


def moves_at_switch_on(item: Item) -> bool:
    """Whether a part of it moves when it is switched on, as its part says; a head does where nothing says."""
    wakes = item.part.wakes
    return wakes.moves if wakes is not None else item.part.kind == "head"
