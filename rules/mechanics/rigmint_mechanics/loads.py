"""What a head or a carrier carries, in words."""

from __future__ import annotations

from rigmint import Burden, Unknown, say_kilograms, say_list

CAN_HIT = ("crane", "overhead", "cable", "vehicle")
"""What a rig is on where something that comes loose falls on people."""
_MOST_NAMED = 3
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


def list_deciding(load: Burden, excess: float) -> tuple[str, ...]:
    """The things whose place is assumed and which are heavy enough to decide, as `item rides`."""
    return tuple(f"{one.name} rides" for one in load.carried if one.rides_assumed and (one.mass or 0.0) >= excess)
