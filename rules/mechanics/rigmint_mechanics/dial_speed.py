"""`drive:dial-speed`: a wheel that runs out before the ring does."""

from __future__ import annotations

import math
from collections.abc import Iterator

from rigmint import (
    AxisHands,
    Case,
    DialSpeed,
    Finding,
    Fix,
    Grade,
    Measured,
    Rule,
    SetSetting,
    Speed,
    Unknown,
    is_meant,
    say_degrees,
    setting_place,
)

_CODE = "drive:dial-speed"


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each dial speed at which the wheel of who is meant to have the ring does not cover it."""
    for dial in case.dial_speeds:
        axis = case.hands.axes[dial.place]
        if not is_meant(axis, dial.claim) or dial.claim.automatic or _is_spare(axis, dial):
            continue
        if dial.now is not None:
            if not dial.now.covers:
                yield _report(case, dial, dial.now)
        elif not dial.speeds or any(not speed.covers for speed in dial.speeds):
            yield _tell_unknown(dial)


def _is_spare(axis: AxisHands, dial: DialSpeed) -> bool:
    """Whether it takes over from another hand that is meant to have the ring: a spare need not cover it."""
    others = [one for one in axis.certain if one.control != dial.claim.control and is_meant(axis, one)]
    return dial.claim.takes_over is not None and bool(others)


def _tell_unknown(dial: DialSpeed) -> Unknown:
    what = f"how far {dial.claim.control} takes {dial.place}"
    if dial.setting is None:
        return Unknown(_CODE, "speeds", dial.item, f"{what} hangs on a dial speed, which {dial.item} does not state")
    place = setting_place(dial.item, dial.setting)
    if dial.value is None:
        return Unknown(_CODE, dial.setting, place, f"{what} hangs on {place}, which nobody wrote down")
    return Unknown(_CODE, f"speeds.{dial.value}", dial.item, f"{what} at {dial.value} is not stated by {dial.item}")


def _report(case: Case, dial: DialSpeed, now: Speed) -> Finding:
    setting = dial.setting or ""
    return Finding(
        code=_CODE,
        grade=Grade.THIN,
        says=(
            f"{dial.claim.control} ends after {say_degrees(dial.turn)}, and at {dial.item}.{setting} {now.value} that"
            f" takes {dial.place} through {100 * now.coverage:.0f} % of its turn."
        ),
        at=dial.place,
        cause=setting_place(dial.item, setting),
        path=dial.claim.path,
        measured=Measured(now.coverage, 1.0, "ring lengths"),
        fixes=(_find_fix(case, dial),),
    )


def _find_fix(case: Case, dial: DialSpeed) -> Fix:
    lowest = dial.lowest
    if lowest is None:
        return Fix(f"No speed of {dial.item} covers {dial.place}: use a wheel that acts by position, or without stops.")
    change = SetSetting(dial.item, dial.setting or "", lowest.value, case.setup.name)
    steps = lowest.steps
    fine = f", {math.radians(steps):.3g} motor steps to a degree of wheel" if steps is not None else ""
    return Fix(
        f"Set {dial.item}.{dial.setting} to {lowest.value}, the lowest that covers the ring: it leaves"
        f" {say_degrees(lowest.leftover)} of wheel over{fine}.",
        (change,),
    )


RULE = Rule(
    code=_CODE,
    grades=(Grade.THIN,),
    title="The wheel ends before the ring does",
    looks_for=(
        "A wheel with hard stops that drives a lens ring by speed, at a dial speed at which its whole turn does not"
        " take the ring from end to end."
    ),
    why="The operator comes to the end of the wheel in the middle of a pull, with the ring half way.",
    put_right="Set the lowest dial speed that covers the ring: a higher one only makes the wheel coarser.",
    source="coverage = ring lengths a turn x turn of the wheel / 360 deg; the setting's speeds by the part file",
    check=check,
)
