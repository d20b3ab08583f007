"""Ties claims to the rings, joints and records that they move, with who is meant and what stops the others."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Container
from types import MappingProxyType

from rigmint.rig.axes import find_axis_holders, joints_of, rings_of
from rigmint.rig.device import SignalKind
from rigmint.rig.house import House
from rigmint.rig.rig import Item, Rig, Setup
from rigmint.study.claims import find_arrivals
from rigmint.study.conditions import Assumption
from rigmint.study.following import find_following
from rigmint.study.hands import AxisHands, Claim, Hands, Stopped
from rigmint.study.signal_map import SignalMap
from rigmint.study.stops import find_stopped
from rigmint.words import LENS_AXES

CARRIER = "carrier"


def study_hands(rig: Rig, setup: Setup, house: House) -> Hands:
    """The study of one setup, with what stops each control that does not arrive."""
    return tie_hands(SignalMap(rig, setup, house.leaves), with_stops=True)


def tie_hands(signals: SignalMap, *, with_stops: bool, only: Container[str] | None = None) -> Hands:
    """The study on a signal map that exists already; without stops it is quicker, for rules that seldom need them.
    `only`: of these controls alone, heads that follow being named as such."""
    rig, setup = signals.rig, signals.setup
    claims: dict[str, list[Claim]] = defaultdict(list)
    for place in _list_axes(rig, setup):
        claims[place] = []
    for arrival in find_arrivals(signals, only):
        held = find_held_axis(rig, setup, arrival.mover_item, arrival.axis)
        if held is not None:
            claims[held].append(arrival.claim)
    for name in sorted(setup.items - setup.off):
        if only is not None and name not in only:
            continue
        for axis, claim in _follow_claims(rig.items[name], setup):
            claims[f"{name}.{axis}"].append(claim)
    short = _name_short(list(claims))
    axes = {
        place: AxisHands(
            place=place,
            name=short[place],
            meant=setup.who.get(place, ()),
            claims=tuple(found),
            stopped=find_axis_stops(signals, place, {claim.control for claim in found}) if with_stops else (),
        )
        for place, found in sorted(claims.items())
    }
    return Hands(MappingProxyType(axes))


def find_axis_stops(signals: SignalMap, place: str, reaching: set[str]) -> tuple[Stopped, ...]:
    """What stops each control that can send the axis at `place` and is not among `reaching`."""
    axis = place.partition(".")[2]
    return tuple(find_stopped(signals, axis, _movers_of(signals.rig, signals.setup, place), reaching))


def find_held_axis(rig: Rig, setup: Setup, mover_item: str, axis: str) -> str | None:
    """What a mover moves: the ring that its motor is fitted to, whatever axis it is set to; else the item's own."""
    fitting = rig.fitted.get(mover_item)
    if fitting is not None and axis in LENS_AXES:
        return f"{fitting.lens}.{fitting.ring}" if fitting.lens in setup.items else None
    part = rig.items[mover_item].part
    if axis in LENS_AXES:
        return f"{mover_item}.{axis}" if axis in rings_of(part) else None
    return f"{mover_item}.{axis}"


def _list_axes(rig: Rig, setup: Setup) -> list[str]:
    places = []
    for name in sorted(setup.items):
        part = rig.items[name].part
        places += [f"{name}.{axis}" for axis in (*rings_of(part), *joints_of(part))]
        if find_axis_holders("record", {name: part}):
            places.append(f"{name}.record")
    return [*places, *(place for place in setup.who if place not in places)]


def _name_short(places: list[str]) -> dict[str, str]:
    counts: dict[str, int] = defaultdict(int)
    for place in places:
        counts[place.partition(".")[2]] += 1
    return {place: axis if counts[axis := place.partition(".")[2]] == 1 else place for place in places}


def _movers_of(rig: Rig, setup: Setup, place: str) -> list[tuple[str, str]]:
    item_name, _, axis = place.partition(".")
    fitted = [f.motor for f in rig.fitted.values() if (f.lens, f.ring) == (item_name, axis) and f.motor in setup.items]
    movers = [(motor, name) for motor in fitted for name in rig.items[motor].part.moves]
    own = rig.items[item_name].part.moves if item_name in rig.items else {}
    return movers + [(item_name, name) for name in own]


def _follow_claims(item: Item, setup: Setup) -> list[tuple[str, Claim]]:
    """Whoever carries the head is a hand on each axis whose follow is on in the mode that is set."""
    holder = find_carrier(item.name, setup)
    return [
        (state.axis, _make_follow_claim(item.name, state.axis, holder, state.assumes))
        for state in find_following(item, setup).set_mode
    ]


def find_carrier(head: str, setup: Setup) -> str | None:
    """Who carries a head: who holds it, else the crew's `carrier`."""
    return setup.holder(head) or (CARRIER if CARRIER in setup.crew else None)


def _make_follow_claim(item: str, axis: str, holder: str | None, assumes: Assumption) -> Claim:
    return Claim(
        control=item,
        person=holder,
        sends=SignalKind.FOLLOW,
        arrives=SignalKind.FOLLOW,
        mover=f"{item}.{axis}",
        axis=axis,
        automatic=False,
        takes_over=None,
        path=(item, f"{item}.{axis}"),
        reach=None,
        assumes=MappingProxyType(dict(assumes)),
    )
