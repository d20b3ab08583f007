"""A wheel with hard stops that drives a ring by speed, in one sentence of `owners`."""

from __future__ import annotations

import math

from rigmint.study.dial_speed import DialSpeed, Speed


def describe_wheel(dial: DialSpeed) -> str:
    """How much of the ring the wheel covers at the speed that is set, and the lowest speed that covers it."""
    turn = f"{math.degrees(dial.turn):.0f} deg of wheel"
    if dial.setting is None:
        return f"{turn}: no part states how far a turn of it takes the ring"
    name = f"{dial.item}.{dial.setting}"
    if dial.value is None:
        return f"{turn} at a {name} that nobody stated; {_say_lowest(dial)}"
    if dial.now is None:
        return f"{turn} at {name} {dial.value}, of which no speed is stated; {_say_lowest(dial)}"
    told = f"{turn} at {name} {dial.value} cover {100 * dial.now.coverage:.0f} % of the ring"
    if dial.now == dial.lowest:
        return f"{told}{_say_rest(dial.now)}; a lower speed does not cover it"
    rest = _say_rest(dial.now) if dial.now.covers else ""
    return f"{told}{rest}; {_say_lowest(dial)}"


def _say_lowest(dial: DialSpeed) -> str:
    if dial.lowest is None:
        return "no speed covers it"
    return f"{dial.lowest.value} is the lowest that covers it{_say_rest(dial.lowest)}"


def _say_rest(speed: Speed) -> str:
    steps = f", {math.radians(speed.steps):.3g} motor steps a degree" if speed.steps is not None else ""
    return f", {math.degrees(speed.leftover):.0f} deg left over{steps}"
