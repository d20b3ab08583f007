"""How figures and lists are put into words: to 0.1 V, 0.1 A, 5 minutes, since more digits are false precision."""

from __future__ import annotations

import math
from collections.abc import Sequence

from rigmint.rig.lead import Conductor
from rigmint.rig.quantity import UNITS, Quantity

_A_TRIFLE_MORE = 1 + 1e-9


def say_volts(volts: float, *, assumed: bool = False) -> str:
    """`16.8 V`, with `~` before a figure that is assumed."""
    return f"{'~' if assumed else ''}{volts:.1f} V"


def say_amps(amps: float) -> str:
    """`2.5 A`."""
    return f"{amps:.1f} A"


def say_metres(metres: float) -> str:
    """`80 m`."""
    return f"{metres:.0f} m"


def say_minutes(seconds: float) -> str:
    """`45 min`, `2 h 5 min`, to 5 minutes."""
    minutes = 5 * round(seconds / 300)
    hours, rest = divmod(minutes, 60)
    if hours == 0:
        return f"{minutes} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def say_seconds(seconds: float) -> str:
    """`1.4 s`."""
    return f"{seconds:.1f} s"


def say_kilograms(kilograms: float) -> str:
    """`4.6 kg`; under a kilogram `250 g`, to 5 g."""
    return f"{kilograms:.1f} kg" if kilograms >= 0.95 else f"{5 * round(200 * kilograms)} g"


def say_torque(newton_metres: float) -> str:
    """`0.42 N*m`: to two digits, as makers state it. A half goes up, also one that was computed from other units."""
    return f"{newton_metres * _A_TRIFLE_MORE:.2g} N*m"


def say_degrees(radians: float) -> str:
    """`330 deg`."""
    return f"{math.degrees(radians):.0f} deg"


def say_quantity(quantity: Quantity) -> str:
    """`45 min`, `16.9 V`, `120 m`: as the format writes it."""
    if quantity.kind == "duration" and quantity.value >= 300:
        return say_minutes(quantity.value)
    if quantity.kind == "ratio":
        return f"{100 * quantity.value:g} %"
    unit = next((name for name, unit in UNITS[quantity.kind].items() if unit.factor == 1.0 and not unit.offset), "")
    return f"{quantity.value:g} {unit}"


def say_gauge(conductor: Conductor) -> str:
    """`20 AWG` or `0.5 mm2`: by area where both are stated, since the rating goes by that."""
    if conductor.area is not None:
        return f"{1e6 * conductor.area:g} mm2"
    return f"{conductor.gauge or 0.0:g} AWG"


def say_list(words: Sequence[str], *, joint: str = "and", most: int = 4) -> str:
    """`a, b and c`; a long list ends in `and 3 more`."""
    shown = list(words)
    if len(shown) > most:
        shown = [*shown[: most - 1], f"{len(words) - most + 1} more"]
    if len(shown) < 2:
        return "".join(shown)
    return f"{', '.join(shown[:-1])} {joint} {shown[-1]}"
