"""`voltage:above-window`: more volts than a device works on, though it survives them."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Blame, Case, Finding, Fix, Grade, Measured, PortRef, PortVolts, Role, Rule, say_volts
from rigmint_voltage.causes import find_guess, fix_outlet, list_highest, say_guess


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead or source that lifts ports out of their window."""
    lasting = case.nominal_volts.ports

    def is_above(ref: PortRef, volts: float) -> bool:
        port = case.port(ref)
        is_survived = port.survives is None or volts <= port.survives.high
        return port.works is not None and volts > port.works.high and is_survived

    hurt = [
        (ref, reach)
        for ref, reach in list_highest(case, is_above)
        if case.port(ref).role is not Role.OUT and case.has_electronics(ref)
    ]
    for blame in case.blame_over(hurt, is_above):
        yield _report(case, blame, {ref for ref, _ in hurt if _lasts(lasting[ref])})


def _lasts(nominal: PortVolts) -> bool:
    works = nominal.port.works
    return works is not None and nominal.high is not None and nominal.high.volts > works.high


def _report(case: Case, blame: Blame, lasting: set[PortRef]) -> Finding:
    worst = next((victim for victim in blame.victims if victim.ref in lasting), blame.victims[0])
    guess = find_guess(case, worst.way)
    grade = Grade.DEAD if worst.ref in lasting and guess is None else Grade.THIN
    works = case.port(worst.ref).works
    top = works.high if works is not None else 0.0
    assumed = case.assumed_of(worst.ref, "works")
    brings = f"through {blame.cause}" if blame.cause in case.rig.leads else f"from {blame.cause}"
    lasts = "for as long as it lasts" if worst.ref in lasting else "while the source is fresh"
    unsure = ""
    if guess is not None:
        unsure = say_guess(guess)
        assumed += (f"{guess} blocks",)
    return Finding(
        code="voltage:above-window",
        grade=grade,
        says=(
            f"{worst.ref.place} works up to {say_volts(top, assumed=bool(assumed))} and can get"
            f" {say_volts(worst.reach.volts)} {brings}, {lasts}.{unsure}"
        ),
        at=worst.ref.place,
        cause=blame.cause,
        also=tuple(victim.ref.place for victim in blame.victims if victim.ref != worst.ref),
        path=worst.way.places,
        measured=Measured(worst.reach.volts, top, "V"),
        assumed=assumed + case.assumed_of_lead(blame.cause),
        fixes=(
            *fix_outlet(case, blame.cause, worst.ref),
            Fix(f"Feed {worst.ref.place} through a regulator, or from a source that stays within its window."),
        ),
    )


RULE = Rule(
    code="voltage:above-window",
    grades=(Grade.DEAD, Grade.THIN),
    title="More volts than a device works on",
    looks_for=(
        "A power input that can get more volts than the top of its working window, yet no more than it survives: dead"
        " where the source's nominal volts are above it, thin where only a fresh battery is."
    ),
    why="Devices shut down or refuse to start above their window; some do so only with a fresh battery.",
    put_right="Use a regulated feed or another source.",
    source="the maker's window; common practice where none is stated",
    check=check,
)
