"""`ground:two-earths`: two earthed devices joined by another lead."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Rule, say_list, say_volts

_BURNS_FROM = 1.0


def check(case: Case) -> Iterator[Finding]:
    """One finding for the loop."""
    loop = case.earth_loop()
    if loop is None:
        return
    first, *others = loop.items
    signals = [label for label in loop.leads if not case.carries_power(label)]
    lead = next(iter([*signals, *loop.leads]), None)
    joined = f"joined by {lead} too" if lead is not None else "docked to each other too"
    yield Finding(
        code="ground:two-earths",
        grade=Grade.BURN if loop.volts > _BURNS_FROM else Grade.THIN,
        says=(
            f"{say_list(loop.items)} are each tied to earth and {joined}: {say_volts(loop.volts)} lie between their"
            " grounds before earth joins them."
        ),
        at=first,
        cause=lead or first,
        also=tuple(others),
        measured=Measured(loop.volts, _BURNS_FROM, "V", low_is_bad=False),
        fixes=(Fix(f"Supply both from one outlet, or isolate the signal in {lead or 'between'}."),),
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
