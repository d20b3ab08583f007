"""`radio:crowded`: radio channels that overlap, between the rig's links and with what else is on the air."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from rigmint import (
    Case,
    Finding,
    Fix,
    Grade,
    Link,
    Measured,
    Parameter,
    RadioChannel,
    Rule,
    SetChannel,
    Unknown,
    compute_overlap,
    say_list,
)
from rigmint_signals.hops import list_live_others

_MEGA = 1e6
_MOST_TOLD = 3


@dataclass(frozen=True, slots=True)
class _User:
    """Somebody on the air: a link of the rig (None: somebody else), by name, with centre and width in Hz."""

    link: Link | None
    name: str
    centre: float
    width: float

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
    users = [user for link in links if (user := _make_user(case, link)) is not None]
    air = [_User(None, user.says or "what else is on the air", user.centre, user.width) for user in case.rig.air]
    for index, user in enumerate(users):
        others = [*users[index + 1 :], *air]
        crowding = [other for other in others if _is_crowded(case, user, other)]
        if crowding:
            yield _report(case, user, crowding, [*(one for one in users if one is not user), *air])
    for link in links:
        if link.channel is None and _may_be_crowded(case, link, users, air):
            says = f"nobody states the radio channel of {link.place}"
            yield Unknown("radio:crowded", "channel", link.place, says)


def _channels(case: Case, link: Link) -> Mapping[str, RadioChannel]:
    """The radio channels of the hub that all radios of the link have."""
    hub, *others = [case.rig.items[ref.item].part.radios[ref.port].channels for ref in link.radios]
    return {name: channel for name, channel in hub.items() if all(name in other for other in others if other)}


def _make_user(case: Case, link: Link) -> _User | None:
    channel = _channels(case, link).get(link.channel) if link.channel is not None else None
    return _User(link, link.place, channel.centre, channel.width) if channel is not None else None


def _is_crowded(case: Case, user: _User, other: _User) -> bool:
    shared = compute_overlap(user.span, other.span)
    return shared > case.parameters["share"] * min(user.width, other.width)


def _may_be_crowded(case: Case, link: Link, users: Sequence[_User], air: Sequence[_User]) -> bool:
    options = [_User(link, link.place, one.centre, one.width) for one in _channels(case, link).values()]
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
        for name, channel in _channels(case, user.link).items()
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
        "Two links of the rig, or a link and what `air:` names, whose radio channels overlap by centre and width."
    ),
    why="Both lose reach, the weaker one first, and only when everybody is on set.",
    put_right="Move one of the two to a radio channel that nobody uses; write down what else is on the air.",
    source="centres and widths of the makers' radio channels; IEEE 802.11 for wireless networks",
    parameters={
        "share": Parameter(0.0, "ratio", "share of the narrower radio channel that may be shared before it counts")
    },
    check=check,
)
