"""`current:short`: a fault that nothing interrupts, and fuses inside devices."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence

from rigmint import Case, Finding, Fix, Grade, Measured, Point, Rule, ShortCurrent, Unknown, say_amps, say_list


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each source that melts leads into a short, and for each fuse inside that a peak would blow."""
    melting: dict[str, list[ShortCurrent]] = defaultdict(list)
    for short in case.short_currents:
        trips = short.source.cell.trips
        if trips is None:
            yield Unknown("current:short", "trips", short.source.place, f"{short.source.place} does not state `trips`")
        elif math.isinf(trips) and not short.fused and short.amps > short.melts:
            melting[short.source.place].append(short)
    for shorts in melting.values():
        yield _report_melt(sorted(shorts, key=lambda one: -one.amps))  # the lead nearest to the source first
    yield from _list_blown_fuses(case)


def _report_melt(shorts: Sequence[ShortCurrent]) -> Finding:
    first, *others = shorts
    source = first.source.item
    says = (
        f"A short at the far end of {first.label} draws about {say_amps(first.amps)} from {source}, which does not"
        f" trip; {first.label} melts from about {say_amps(first.melts)}."
    )
    fix = f"Put a fuse into {first.label} close to {source}, rated for the conductor."
    if others:
        says += f" The same goes for {say_list([short.label for short in others])}."
        fix = f"Put a fuse close to {source}, rated for the thinnest conductor behind it, or one into each lead."
    return Finding(
        code="current:short",
        grade=Grade.HURT,
        says=says,
        at=first.label,
        cause=first.label,
        also=tuple(short.label for short in others),
        measured=Measured(first.amps, first.melts, "A"),
        fixes=(Fix(fix),),
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
