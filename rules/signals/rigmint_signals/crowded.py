"""`radio:crowded`: radio channels that overlap, between the rig's links, with other rigs of the job, and with what else
is on the air."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from rigmint import (
    Case,
    Finding,
    Fix,
    Grade,
    Link,
    Measured,
    Parameter,
    RadioChannel,
    Rig,
    Rule,
    SetChannel,
    Unknown,
    compute_overlap,
    say_list,
)
from rigmint_signals.hops import list_live_others

_MEGA = 1e6
_MOST_TOLD = 3
_CLOCKS = frozenset({"timecode", "sync"})
"""Flows that a whole job takes from one master."""


@dataclass(frozen=True, slots=True)
class _User:
    """Somebody on the air: a link of the rig (None: somebody else), by name, with centre and width in Hz. `network`:
    what else may be on it by design, radios of the same asset number, and clocks that hear one another."""

    link: Link | None
    name: str
    centre: float
    width: float
    network: frozenset[str] = frozenset()

    @property
    def span(self) -> tuple[float, float]:
        """(centre, width)."""
        return self.centre, self.width

    @property
    def told(self) -> str:
        """`2420 MHz, 2 wide`."""
        return f"{self.centre / _MEGA:g} MHz, {self.width / _MEGA:g} wide"


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each link that would have to move."""
    links = [link for name in sorted(case.setup.links) if list_live_others(case, link := case.rig.links[name])]
    users = [user for link in links if (user := _make_user(case.rig, link)) is not None]
    air = [_User(None, user.says or "what else is on the air", user.centre, user.width) for user in case.rig.air]
    earlier = [user for rig in case.job_rigs if rig.file < case.rig.file for user in _list_of_rig(case, rig)]
    later = [user for rig in case.job_rigs if rig.file > case.rig.file for user in _list_of_rig(case, rig)]
    for index, user in enumerate(users):
        others = [*users[index + 1 :], *earlier, *air]
        crowding = [other for other in others if _is_crowded(case, user, other)]
        if crowding:
            yield _report(case, user, crowding, [*(one for one in users if one is not user), *earlier, *later, *air])
    for link in links:
        if link.channel is None and _may_be_crowded(case, link, users, [*earlier, *later, *air]):
            says = f"nobody states the radio channel of {link.place}"
            yield Unknown("radio:crowded", "channel", link.place, says)


def _list_of_rig(case: Case, rig: Rig) -> list[_User]:
    """What another rig of the job sends on, in any of its setups."""
    names = sorted({name for setup in rig.setups.values() for name in setup.links})
    users = [user for name in names if (user := _make_user(rig, rig.links[name])) is not None]
    return [replace(user, link=None, name=f"{user.name} of {case.name_rig(rig)}") for user in users]


def _channels(rig: Rig, link: Link) -> Mapping[str, RadioChannel]:
    """The radio channels of the hub that all radios of the link have."""
    hub, *others = [rig.radio(ref).channels for ref in link.radios]
    return {name: channel for name, channel in hub.items() if all(name in other for other in others if other)}


def _make_user(rig: Rig, link: Link) -> _User | None:
    channel = _channels(rig, link).get(link.channel) if link.channel is not None else None
    if channel is None:
        return None
    return _User(link, link.place, channel.centre, channel.width, _find_network(rig, link, channel))


def _find_network(rig: Rig, link: Link, channel: RadioChannel) -> frozenset[str]:
    assets = {rig.items[ref.item].asset for ref in link.radios} - {None}
    found = {f"asset {asset}" for asset in assets}
    spoken = {name for ref in link.radios for name in rig.radio(ref).speaks}
    carried = {token for name in spoken for token in rig.protocols[name].carries}
    if carried and carried <= _CLOCKS:
        found |= {f"{name} at {channel.centre}" for name in spoken}
    return frozenset(found)


def _is_crowded(case: Case, user: _User, other: _User) -> bool:
    shared = 0.0 if user.network & other.network and other.link is None else compute_overlap(user.span, other.span)
    return shared > case.parameters["share"] * min(user.width, other.width)


def _may_be_crowded(case: Case, link: Link, users: Sequence[_User], air: Sequence[_User]) -> bool:
    options = [_User(link, link.place, one.centre, one.width) for one in _channels(case.rig, link).values()]
    return any(_is_crowded(case, option, other) for option in options for other in (*users, *air))


def _report(case: Case, user: _User, crowding: Sequence[_User], rest: Sequence[_User]) -> Finding:
    worst = max(crowding, key=lambda other: compute_overlap(user.span, other.span))
    shared = compute_overlap(user.span, worst.span)
    assert user.link is not None
    told = say_list([f"{other.name} ({other.told})" for other in crowding])
    return Finding(
        code="radio:crowded",
        grade=Grade.THIN,
        says=(
            f"{user.name} on radio channel {user.link.channel} ({user.told})"
            f" overlaps {told}: {shared / _MEGA:g} MHz are shared."
        ),
        at=user.name,
        cause=user.name,
        also=tuple(other.name for other in crowding if other.link is not None),
        measured=Measured(shared, case.parameters["share"] * min(user.width, worst.width), "Hz"),
        fixes=(_make_fix(case, user, rest),),
    )


def _make_fix(case: Case, user: _User, rest: Sequence[_User]) -> Fix:
    assert user.link is not None
    free = [
        name
        for name, channel in _channels(case.rig, user.link).items()
        if not any(_is_crowded(case, _User(user.link, name, channel.centre, channel.width), other) for other in rest)
    ]
    if not free:
        return Fix(f"No radio channel of {user.name} is free: move the others, or switch off what is not needed.")
    others = f" ({say_list(free[1 : _MOST_TOLD + 1])} are free too)" if len(free) > 2 else ""
    says = f"Move {user.name} to radio channel {free[0]}{others}."
    return Fix(says, (SetChannel(user.link.name, free[0]),))


RULE = Rule(
    code="radio:crowded",
    grades=(Grade.THIN,),
    title="Radio channels that overlap",
    looks_for=(
        "Two links of the rig, a link and what `air:` names, or a link and one of another rig with the same `job:` that"
        " is checked in the same run, whose radio channels overlap by centre and width; between rigs in the later file"
        " by name. Clocks of two rigs on one radio channel are one network and meant."
    ),
    why="Both lose reach, the weaker one first, and only when everybody is on set.",
    put_right="Move one of the two to a radio channel that nobody uses; write down what else is on the air.",
    source="centres and widths of the makers' radio channels; IEEE 802.11 for wireless networks",
    parameters={
        "share": Parameter(0.0, "ratio", "share of the narrower radio channel that may be shared before it counts")
    },
    check=check,
)
