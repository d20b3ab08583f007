"""`drive:slow`: the motor takes long from end to end."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Parameter, RingDrive, Rule, Unknown, exceeds, say_seconds
from rigmint_mechanics.figures import find_missing, list_drives, say_teeth
from rigmint_mechanics.gears import SLOWEST, suggest_gear

_FOCUS = "focus"


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each ring that its motor takes too long to turn."""
    for drive in list_drives(case):
        limit = case.parameters["focus" if drive.ring.name == _FOCUS else "others"]
        missing = find_missing("drive:slow", drive, ("turn", "teeth"), ("speed", "teeth"))
        if missing is not None:
            yield missing
        elif drive.seconds is not None and exceeds(drive.seconds, limit):
            yield _report(drive, drive.seconds, limit)


def _report(drive: RingDrive, seconds: float, limit: float) -> Finding:
    return Finding(
        code="drive:slow",
        grade=Grade.THIN,
        says=(
            f"{drive.motor} takes {say_seconds(seconds)} to turn {drive.place} from end to end through"
            f" {say_teeth(drive)}; more than {say_seconds(limit)} is slow."
        ),
        at=drive.place,
        cause=drive.motor,
        measured=Measured(seconds, limit, "s"),
        fixes=(*suggest_gear(drive), Fix(f"Fit a quicker motor to {drive.place}.")),
    )


RULE = Rule(
    code="drive:slow",
    grades=(Grade.THIN,),
    title="The motor is slow on this ring",
    looks_for="A ring whose turn, times the ratio of the teeth, takes its motor long at full speed.",
    why="Focus comes after the actor does.",
    put_right="Fit a larger gear or a quicker motor.",
    source="t = turn z2 / (z1 speed); how long is long: common practice",
    parameters={
        "focus": Parameter(SLOWEST, "duration", "s from end to end that focus may take"),
        "others": Parameter(2.0 * SLOWEST, "duration", "s from end to end that iris and zoom may take"),
    },
    check=check,
)
