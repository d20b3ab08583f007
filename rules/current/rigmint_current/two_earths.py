"""`ground:two-earths`: two earthed devices joined by another lead."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Rule, say_list, say_volts

_BURNS_FROM = 1.0


def check(case: Case) -> Iterator[Finding]:
    """One finding for the loop."""
    items, volts = case.earth_difference()
    if not items:
        return
    grade = Grade.BURN if volts > _BURNS_FROM else Grade.THIN
    yield Finding(
        code="ground:two-earths",
        grade=grade,
        says=(
            f"{say_list(items)} are each tied to earth and joined by the rig's own leads too:"
            f" {say_volts(volts)} lie between their grounds before earth joins them."
        ),
        at=items[0],
        cause=items[0],
        also=items[1:],
        measured=Measured(volts, _BURNS_FROM, "V"),
        fixes=(Fix("Supply both from one outlet, or isolate the signal between them."),),
    )


RULE = Rule(
    code="ground:two-earths",
    grades=(Grade.BURN, Grade.THIN),
    title="Two earths in one loop",
    looks_for="Two devices whose metal is tied to earth and that a lead of the rig joins as well.",
    why="Earths differ between outlets: hum at best, at worst amps through a picture lead.",
    put_right="One outlet for all, or an isolator in the signal.",
    source="common practice",
    check=check,
)
