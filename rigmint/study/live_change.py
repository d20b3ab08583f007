"""What is changed while the rig is up: which plug comes off first and last, why, and what to look at after."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rigmint.rig.rig import Rig, Setup
from rigmint.study.plugging import Mating, Turn, list_matings
from rigmint.study.studies import Studies
from rigmint.study.switching import moves_at_switch_on

CHANGED_KINDS = ("battery", "sender", "monitor", "lens_motor", "lens")
"""What a crew changes on set."""
SHIELD_AMPS = 0.5
"""A over which a return that is left to run through a picture shield does harm (common practice)."""


@dataclass(frozen=True, slots=True)
class LiveChange:
    """One item. `off`: its mates in the order in which they come off, as places; on again in reverse. `why`, `after`:
    sentences."""

    item: str
    off: tuple[str, ...]
    why: tuple[str, ...]
    after: tuple[str, ...]

    @property
    def on(self) -> tuple[str, ...]:
        """The mates in the order in which they go on again."""
        return tuple(reversed(self.off))


def find_live_changes(studies: Studies, setup: Setup) -> tuple[LiveChange, ...]:
    """Each item of a kind that is changed on set and that something is plugged into, in the order of the kit."""
    rig = studies.rig
    matings = list_matings(rig, setup)
    changes = []
    for name, item in rig.items.items():
        if name not in setup.items or item.part.kind not in CHANGED_KINDS:
            continue
        mine = [mating for mating in matings if any(ref.item == name for ref in mating.refs)]
        off = [*(one.place for one in _sort_off(mine)), *_list_mounts(rig, setup, name, mine)]
        if off:
            why, after = tuple(_say_why(studies, setup, name, mine)), tuple(_say_after(studies, setup, name))
            changes.append(LiveChange(name, tuple(off), why, after))
    return tuple(changes)


def _sort_off(matings: Sequence[Mating]) -> list[Mating]:
    """Picture and data off before power, leads before what the item is docked to."""
    return sorted(matings, key=lambda one: (one.turn is not Turn.SIGNAL, one.place.startswith("dock:")))


def _list_mounts(rig: Rig, setup: Setup, name: str, conducting: Sequence[Mating]) -> list[str]:
    """The docks of an item that only hold it."""
    told = {one.place for one in conducting}
    places = [
        f"dock:{dock.index}"
        for dock in rig.docks
        if dock.index in setup.docks and name in (dock.first.item, dock.second.item)
    ]
    return [place for place in places if place not in told]


def _say_why(studies: Studies, setup: Setup, name: str, matings: Sequence[Mating]) -> Iterator[str]:
    """The return that would be left to a signal lead, were power to come off first."""
    signals = [one for one in matings if one.turn is Turn.SIGNAL and _has_return(studies.rig, one, name)]
    is_fed = any(one.turn is not Turn.SIGNAL for one in matings)
    back = studies.own_return(setup, name) if signals and is_fed else None
    if back is not None and back.drawn > SHIELD_AMPS:
        leads = ", ".join(one.place for one in signals)
        yield f"With its minus off first, {back.drawn:.1f} A would return through {leads}."


def _has_return(rig: Rig, mating: Mating, name: str) -> bool:
    return any(ref.item == name and rig.port(ref).minus_contacts for ref in mating.refs)


def _say_after(studies: Studies, setup: Setup, name: str) -> Iterator[str]:
    rig = studies.rig
    kind = rig.items[name].part.kind
    lost = [name, *studies.drops_without(setup, name)] if kind == "battery" else [name]
    if len(lost) > 1:
        yield f"It was down with it: {', '.join(lost[1:])}"
    yield from list_forgotten(rig, setup, lost)
    moving = [one for one in lost if one != name and moves_at_switch_on(rig.items[one])]
    if moving:
        yield f"It moves when it comes back: {', '.join(moving)}"
    if kind in ("lens", "lens_motor"):
        motors = [motor for motor, fitting in sorted(rig.fitted.items()) if name in (motor, fitting.lens)]
        there = [motor for motor in motors if motor in setup.items]
        if there:
            yield f"Gear mesh, ends of travel and direction of {', '.join(there)}; marks anew"
        yield "Balance of every axis"
    if kind in ("sender", "monitor"):
        yield "Picture on every screen, and its delay"
    if rig.items[name].part.radios:
        yield "Radio channel and slot as written down"


def list_forgotten(rig: Rig, setup: Setup, items: Sequence[str]) -> Iterator[str]:
    """The settings of some items that fall back at power-off and stand otherwise."""
    for item in items:
        for setting in rig.items[item].part.settings.values():
            value = setup.setting(item, setting.name)
            if setting.forgets and value is not None and value != setting.default:
                yield f"{item}: {setting.name} back to {value}, since it forgets"
