"""What a head or a carrier carries, in words."""

from __future__ import annotations

from rigmint import Burden, Carried, Case, Unknown, say_kilograms, say_list

CAN_HIT = ("crane", "overhead", "cable", "vehicle")
"""What a rig is on where something that comes loose falls on people."""
_MOST_NAMED = 3
_MOVABLE = (
    *("battery", "plate", "supply", "breakout", "regulator", "sender", "receiver", "recorder", "converter"),
    *("monitor", "light", "timecode", "accessory"),
)
_WEIGHED_BY = 0.05
"""kg: what is lighter is not named."""


def say_load(load: Burden) -> str:
    """`head carries 5.2 kg (camera 2.3 kg, battery 1.1 kg)`, with `at least` where something has no mass."""
    named = [one for one in load.carried[:_MOST_NAMED] if (one.mass or 0.0) >= _WEIGHED_BY]
    listed = ", ".join(f"{one.name} {say_kilograms(one.mass or 0.0)}" for one in named)
    bound = "at least " if load.unweighed else ""
    return f"{load.carrier} carries {bound}{say_kilograms(load.mass)}{f' ({listed})' if listed else ''}"


def tell_unweighed(code: str, load: Burden, limit: float) -> Unknown:
    """What has no mass on a head or a carrier, in one line."""
    says = (
        f"{load.carrier} carries at least {say_kilograms(load.mass)} against {say_kilograms(limit)}; "
        f"{say_list(load.unweighed)} {'has' if len(load.unweighed) == 1 else 'have'} no mass or no place"
    )
    return Unknown(code, f"mass of {say_list(load.unweighed)}", load.carrier, says)


def can_ride_elsewhere(case: Case, thing: Carried) -> bool:
    """Whether it is of a kind that need not sit by the camera."""
    item = case.rig.items.get(thing.name)
    return item is not None and item.part.kind in _MOVABLE


def list_deciding(case: Case, load: Burden, excess: float) -> tuple[str, ...]:
    """Of a head, the things that may well sit elsewhere, whose place is assumed, and which are heavy enough to decide:
    as `item rides`. A carrier carries all stages alike."""
    if not load.is_head:
        return ()
    movable = [one for one in load.carried if one.rides_assumed and can_ride_elsewhere(case, one)]
    return tuple(f"{one.name} rides" for one in movable if (one.mass or 0.0) >= excess)
