"""`current:short`: a fault that nothing interrupts, and fuses inside devices."""

from __future__ import annotations

import math
from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Point, Rule, ShortCurrent, Unknown, say_amps


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each lead that a short would melt, and for each fuse inside that a peak would blow."""
    for short in case.short_currents:
        trips = short.source.cell.trips
        if trips is None:
            yield Unknown("current:short", "trips", short.source.place, f"{short.source.place} does not state `trips`")
        elif math.isinf(trips) and not short.fused and short.amps > short.melts:
            yield _report_melt(short)
    yield from _list_blown_fuses(case)


def _report_melt(short: ShortCurrent) -> Finding:
    return Finding(
        code="current:short",
        grade=Grade.HURT,
        says=(
            f"A short at the far end of {short.label} draws about {say_amps(short.amps)} from {short.source.item},"
            f" which does not trip; {short.label} melts from about {say_amps(short.melts)}."
        ),
        at=short.label,
        cause=short.label,
        measured=Measured(short.amps, short.melts, "A"),
        fixes=(Fix(f"Put a fuse into {short.label} close to {short.source.item}, rated for the conductor."),),
    )


def _list_blown_fuses(case: Case) -> Iterator[Finding]:
    point = case.power.points[Point.CHANGE]
    for use in case.list_inner_fuses(Point.CHANGE) if point.solved else ():
        if use.amps > use.limit:
            yield Finding(
                code="current:short",
                grade=Grade.BURN,
                says=(
                    f"The fuse of {say_amps(use.limit)} inside {use.item} carries {say_amps(use.amps)} at peak: it"
                    " blows, and changing it is a bench repair."
                ),
                at=use.item,
                cause=use.item,
                measured=Measured(use.amps, use.limit, "A"),
                fixes=(Fix(f"Take a load off {use.item}: feed the heaviest one elsewhere."),),
            )


RULE = Rule(
    code="current:short",
    grades=(Grade.HURT, Grade.BURN),
    title="A short that nothing interrupts",
    looks_for=(
        "A lead that a source without protection could melt, by the current into a short at its far end against what"
        " melts its thinnest conductor; and a fuse inside a device that the peak at the battery change would blow."
    ),
    why="A chafed lead on a vehicle battery glows until it parts. A fuse inside a device takes it out for the day.",
    put_right="Fuse the lead at the source, for the conductor. Spread the load so that inner fuses hold.",
    source="melting current of copper wire: W. H. Preece, 1884 (from memory)",
    caution="Burns and fire: leads from vehicle batteries are fused at the battery, by qualified people.",
    check=check,
)
