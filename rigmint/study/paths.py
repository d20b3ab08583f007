"""The way from a source to a pin, as the chain of places that a report names."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Callable, Container
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from rigmint.graph.pins import GROUND, JoinKind, Pin, PinNetwork, Regulator
from rigmint.study.potentials import BODY_DROP

Neighbours: TypeAlias = dict[int, list["Hop"]]


@dataclass(frozen=True, slots=True)
class Hop:
    """One step outwards from a pin. `guessed`: through a regulator that does not state whether it blocks."""

    pin: int
    ohms: float = 0.0
    guessed: bool = False
    mate: bool = False
    drop: float = 0.0
    """V lost on the step."""
    regulator: Regulator | None = None
    """The regulator that the step goes through forwards: it sets the volts anew."""


@dataclass(frozen=True, slots=True)
class Way:
    """A chain of pins from a source outwards, with what it says."""

    pins: tuple[int, ...]
    places: tuple[str, ...]
    """Source item, then ports and leads in order."""
    leads: tuple[str, ...]
    """Labels of the leads on the way, from the source on."""
    ohms: float
    guessed: bool


def list_hops(network: PinNetwork, *, outwards: bool) -> Neighbours:
    """The hops from each pin: with the current from a plus (`outwards`), or against it from a minus."""
    hops: Neighbours = defaultdict(list)
    for join in network.joins:
        mate = join.kind is JoinKind.MATE
        hops[join.first].append(Hop(join.second, join.ohms, mate=mate))
        hops[join.second].append(Hop(join.first, join.ohms, mate=mate))
    for diode in network.diodes:
        near, far = (diode.anode, diode.cathode) if outwards else (diode.cathode, diode.anode)
        hops[near].append(Hop(far, diode.ohms, drop=diode.drop))
    if outwards:
        for regulator in network.regulators:
            hops[regulator.source].append(Hop(regulator.output, regulator=regulator))
            if regulator.spec.blocks is not True:
                is_guess = regulator.spec.blocks is None
                hops[regulator.output].append(Hop(regulator.source, guessed=is_guess, drop=BODY_DROP))
    return hops


def find_way(
    network: PinNetwork,
    hops: Neighbours,
    start: int,
    goals: Container[int],
    *,
    allowed: Callable[[int], bool] | None = None,
    admits: Callable[[int, Hop], bool] | None = None,
) -> Way | None:
    """The way of fewest hops from a source's pin to one of `goals`, through pins that are `allowed` (a goal always is)
    and by steps from a pin that `admits` takes; one that rests on no guess before any that does."""

    def may_go(pin: int, hop: Hop) -> bool:
        is_allowed = allowed is None or allowed(hop.pin) or hop.pin in goals
        return is_allowed and (admits is None or admits(pin, hop))

    certain = _search(network, hops, start, goals, lambda pin, hop: not hop.guessed and may_go(pin, hop))
    return certain or _search(network, hops, start, goals, may_go)


def _search(
    network: PinNetwork,
    hops: Neighbours,
    start: int,
    goals: Container[int],
    may_go: Callable[[int, Hop], bool],
) -> Way | None:
    came: dict[int, tuple[int, Hop] | None] = {start: None}
    queue = deque([start])
    while queue:
        pin = queue.popleft()
        if pin in goals:
            return _trace(network, came, pin)
        for hop in hops.get(pin, ()):
            if hop.pin not in came and may_go(pin, hop):
                came[hop.pin] = (pin, hop)
                queue.append(hop.pin)
    return None


def _trace(network: PinNetwork, came: dict[int, tuple[int, Hop] | None], pin: int) -> Way:
    pins, hops = [pin], []
    step = came[pin]
    while step is not None:
        pins.append(step[0])
        hops.append(step[1])
        step = came[step[0]]
    pins.reverse()
    named = [network.pins[number] for number in pins]
    return Way(
        pins=tuple(pins),
        places=_name_places(named),
        leads=tuple(dict.fromkeys(pin.owner for pin in named if pin.is_lead)),
        ohms=sum(hop.ohms for hop in hops),
        guessed=any(hop.guessed for hop in hops),
    )


def _name_places(pins: list[Pin]) -> tuple[str, ...]:
    """Source item first; then each port, and each lead once. Of a dock, only the last port of all is named."""
    raw: list[Pin] = []
    for pin in pins:
        if not pin.is_lead and (not pin.group or pin.contact == GROUND):
            continue
        if not raw or _place(raw[-1]) != _place(pin):
            raw.append(pin)
    docked: set[int] = set()
    for index, (near, far) in enumerate(pairwise(raw)):
        if not near.is_lead and not far.is_lead and near.owner != far.owner:
            docked.add(index)
            if index + 2 < len(raw):
                docked.add(index + 1)
    return (pins[0].owner, *(_place(pin) for index, pin in enumerate(raw) if index not in docked))


def _place(pin: Pin) -> str:
    return pin.owner if pin.is_lead else pin.place
