"""`current:inrush`: plugging a lead trips its source."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Rule, Surge, say_amps


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead whose plugging would trip its source."""
    tripping = case.list_tripping_surges()
    for surge in tripping:
        # Of a trunk and a lead behind it that trips alone, the lead speaks.
        if not any(other.items < surge.items for other in tripping):
            yield _report(surge, surge.source.cell.trips or 0.0)


def _report(surge: Surge, trips: float) -> Finding:
    assumed = (f"{surge.source.place} trips",) if "trips" in surge.source.cell.assumed else ()
    return Finding(
        code="current:inrush",
        grade=Grade.THIN,
        says=(
            f"Plugging {surge.label} draws up to {say_amps(surge.amps)} from {surge.source.item} for a moment, which"
            f" trips at {'~' if assumed else ''}{say_amps(trips)}: what hangs on it goes off."
        ),
        at=surge.source.place,
        cause=surge.label,
        measured=Measured(surge.amps, trips, "A"),
        assumed=assumed,
        fixes=(Fix(f"Plug {surge.label} before the battery, or what hangs on it one after the other."),),
    )


RULE = Rule(
    code="current:inrush",
    grades=(Grade.THIN,),
    title="Plugging trips the source",
    looks_for=(
        "A lead behind which the starting currents of all devices, on top of what the source gives already, pass the"
        " current at which the source trips."
    ),
    why="Input capacitors draw many times the running current for milliseconds; a smart battery calls it a short.",
    put_right="Plug devices one after the other, the heaviest first, or before the battery.",
    source="common practice",
    check=check,
)
