"""`voltage:over`: more volts than a port survives."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Blame, Case, Finding, Fix, Grade, Measured, PortRef, Rule, TakeOutLead, Unknown, say_list, say_volts
from rigmint_voltage.causes import find_guess, fix_outlet, fix_spare, list_highest, say_guess


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each lead or source that brings too many volts."""
    yield from _list_unknown_sources(case)

    def is_destroyed(ref: PortRef, volts: float) -> bool:
        survives = case.port(ref).survives
        return survives is not None and volts > survives.high

    hurt = [
        (ref, reach)
        for ref, reach in list_highest(case, is_destroyed)
        if case.has_electronics(ref) or case.states_survival(ref)
    ]
    for blame in case.blame_over(hurt, is_destroyed):
        yield _report(case, blame)


def _list_unknown_sources(case: Case) -> Iterator[Unknown]:
    """Batteries and supplies whose part states no cell: what they give is not known, and nothing behind them judged."""
    for item in case.items:
        if item.part.kind in ("battery", "supply") and not item.part.cells:
            says = f"{item.part.id} states no `cells`, so that nothing fed by {item.name} was judged"
            yield Unknown("voltage:over", "cells", item.name, says)


def _report(case: Case, blame: Blame) -> Finding:
    first, *others = sorted(blame.victims, key=lambda victim: victim.way.guessed)  # what is certain speaks
    survives = case.port(first.ref).survives
    limit = survives.high if survives is not None else 0.0
    assumed = case.assumed_of(first.ref, "survives")
    is_lead = blame.cause in case.rig.leads
    brings = f"lead {blame.cause}" if is_lead else blame.cause
    says = (
        f"{first.ref.place} is destroyed above {say_volts(limit, assumed=bool(assumed))};"
        f" {brings} can put {say_volts(first.reach.volts)} on it."
    )
    if others:
        says += f" It also reaches {say_list([victim.ref.place for victim in others])}."
    guess = find_guess(case, first.way)
    if guess is not None:
        says += say_guess(guess)
        assumed += (f"{guess} blocks",)
    return Finding(
        code="voltage:over",
        grade=Grade.BURN if guess is None else Grade.THIN,
        says=says,
        at=first.ref.place,
        cause=blame.cause,
        also=tuple(victim.ref.place for victim in others),
        path=first.way.places,
        measured=Measured(first.reach.volts, limit, "V"),
        assumed=assumed + case.assumed_of_lead(blame.cause),
        fixes=_list_fixes(case, blame),
    )


def _list_fixes(case: Case, blame: Blame) -> tuple[Fix, ...]:
    first = blame.victims[0]
    if blame.cause not in case.rig.leads:
        return (Fix(f"Use a source whose fullest volts {first.ref.place} survives, or feed it through a regulator."),)
    take_out = Fix(f"Take out {blame.cause}.", (TakeOutLead(blame.cause),))
    if case.is_spare(blame.cause):
        return (fix_spare(case, blame.cause),)
    works = case.port(first.ref).works
    wanted = f"a regulated lead that gives {say_volts((works.low + works.high) / 2)}" if works else "a regulated lead"
    regulated = Fix(f"Feed {first.ref.place} through {wanted}, or from a source in its window.")
    return (*fix_outlet(case, blame.cause, first.ref), regulated, take_out)


RULE = Rule(
    code="voltage:over",
    grades=(Grade.BURN, Grade.THIN),
    title="More volts than a port survives",
    looks_for=(
        "A port on which some source, at its fullest, can put more volts than the top of what it survives: through"
        " leads, switches that can be closed, forward diodes, regulators (backwards too, unless they block), and the"
        " bodies of devices that are off. Thin where it would have to pass a regulator backwards of which nobody states"
        " whether it blocks."
    ),
    why=(
        "A raw battery tap on a universal connector, or a feed that comes round through a shared bus, destroys the"
        " device at the moment of plugging, before anything is switched on. A USB Type-C socket expects 4.75 to 5.5 V"
        " unless both ends have negotiated more."
    ),
    put_right=(
        "Feed the device from a source in its window or through a regulated lead; where it is fed twice, take the"
        " wrong feed out."
    ),
    source="USB Power Delivery (IEC 62680-1-2), vSafe5V 4.75 to 5.5 V, for USB sockets; else the maker's limit",
    check=check,
)
