"""Payload: the mass that each head and each carrier of a setup carries, against what its maker says."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import fsum

from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.riding import STAGES, Riding

_MOVING = STAGES[1:]


@dataclass(frozen=True, slots=True)
class Carried:
    """One thing that is carried: an item or a lead, and the stage of its head that it sits on."""

    name: str
    stage: str
    mass: float | None
    """kg; None where nobody states it."""
    rides_assumed: bool
    """Whether a default says on what stage it sits."""


@dataclass(frozen=True, slots=True)
class Burden:
    """What a head or a carrier carries. The sums are lower bounds where something has no mass."""

    carrier: str
    is_head: bool
    low: float
    """kg."""
    high: float | None
    carried: tuple[Carried, ...]
    """Heaviest first; of a head what sits on its moving stages."""
    unsure: tuple[str, ...]
    """Items that may sit here or on another head."""

    @property
    def unweighed(self) -> tuple[str, ...]:
        """Items without a mass, and those that may sit here."""
        return tuple(sorted({*(one.name for one in self.carried if one.mass is None), *self.unsure}))

    @property
    def mass(self) -> float:
        """kg in all: what the lowest moving stage of a head turns."""
        return fsum(one.mass for one in self.carried if one.mass is not None)

    @property
    def on_platform(self) -> float:
        """kg on the camera's own stage of a head; in all on a carrier."""
        return self.at_stage("tilt") if self.is_head else self.mass

    def at_stage(self, stage: str) -> float:
        """kg that a stage turns: what sits on it and on those that it carries."""
        above = STAGES[STAGES.index(stage) :]
        return fsum(one.mass for one in self.carried if one.mass is not None and one.stage in above)


@dataclass(frozen=True, slots=True)
class Payloads:
    """One setup."""

    loads: tuple[Burden, ...]
    """Those of parts that state a payload, by name."""
    unstated: tuple[str, ...]
    """Heads and carriers whose part states none, and which carry something."""
    riding: Riding


def study_payloads(rig: Rig, setup: Setup, riding: Riding) -> Payloads:
    """Every head that is there, and every carrier that carries one."""
    carried = {head: _list_carried(rig, setup, riding, head) for head in riding.on_head}
    loads, unstated = [], []
    for head, things in carried.items():
        on_stages = [one for one in things if one.stage in _MOVING]
        if rig.items[head].part.payload is not None:
            loads.append(_sum(rig, head, on_stages, riding.unsure))
        elif on_stages:
            unstated.append(head)
    for carrier in sorted({name for chain in riding.carriers.values() for name in chain}):
        if rig.items[carrier].part.payload is None:
            unstated.append(carrier)
            continue
        heads = [head for head, chain in riding.carriers.items() if carrier in chain]
        things = [one for head in heads for one in (_weigh(rig, head), *carried[head])]
        nearer = {name for head in heads for name in _list_nearer(riding.carriers[head], carrier)}
        has_all = len(heads) == len(riding.on_head)
        certain = sorted(nearer | riding.unsure if has_all else nearer)
        things += [_weigh(rig, name) for name in certain]
        loads.append(_sum(rig, carrier, things, () if has_all else riding.unsure))
    return Payloads(tuple(sorted(loads, key=lambda load: load.carrier)), tuple(sorted(unstated)), riding)


def _list_nearer(chain: tuple[str, ...], carrier: str) -> tuple[str, ...]:
    return chain[: chain.index(carrier)]


def _sum(rig: Rig, name: str, things: Iterable[Carried], unsure: Iterable[str]) -> Burden:
    part = rig.items[name].part
    limits = part.payload
    heaviest = sorted(things, key=lambda one: (-(one.mass or 0.0), one.name))
    return Burden(
        carrier=name,
        is_head=part.kind == "head",
        low=limits.low if limits is not None else 0.0,
        high=limits.high if limits is not None else None,
        carried=tuple(heaviest),
        unsure=tuple(sorted(unsure)),
    )


def _weigh(rig: Rig, name: str) -> Carried:
    item = rig.items[name]
    return Carried(name, item.rides, item.part.mass, rides_assumed=not item.states_rides)


def _list_carried(rig: Rig, setup: Setup, riding: Riding, head: str) -> list[Carried]:
    riders = riding.on_head[head]
    things = [_weigh(rig, name) for name in sorted(riders)]
    for label in sorted(setup.leads):
        stage = _find_lead_stage(rig, rig.leads[label], head, riders)
        mass = rig.leads[label].body.mass
        if stage is not None and mass is not None:
            things.append(Carried(label, stage, mass, rides_assumed=False))
    return things


def _find_lead_stage(rig: Rig, lead: Lead, head: str, riders: frozenset[str]) -> str | None:
    """A lead hangs from the lower of the stages that its ends sit on; one that leaves the head hangs from elsewhere."""
    stages = [_find_stage(rig, ref, head, riders) for ref in lead.plugged.values()]
    known = [stage for stage in stages if stage is not None]
    if not known or len(known) < len(stages):
        return None
    return min(known, key=STAGES.index)


def _find_stage(rig: Rig, ref: PortRef, head: str, riders: frozenset[str]) -> str | None:
    if ref.item == head:
        return rig.port(ref).stage or "base"
    return rig.items[ref.item].rides if ref.item in riders else None
