"""`polarity:reversed`: plus arrives where minus belongs."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Blame, Case, Finding, Fix, Grade, Measured, PortVolts, Rule, TakeOutLead, say_list, say_volts

_REVERSED_FROM = -0.3
"""V: what a rail may see without anybody calling it reversed; the defaults of `survives` start here."""
_MARGIN = 0.3


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead in which polarity turns."""
    ports = case.worst_volts.ports
    hurt = [
        (ref, volts.low)
        for ref, volts in ports.items()
        if volts.low is not None
        and volts.low.volts < _REVERSED_FROM - _MARGIN
        and (case.has_electronics(ref) or (case.states_survival(ref) and _is_destroyed(volts, volts.low.volts)))
    ]
    for blame in case.blame_reversed(hurt):
        yield _report(case, blame)


def _report(case: Case, blame: Blame) -> Finding:
    ports = case.worst_volts.ports
    burning = [victim for victim in blame.victims if _is_destroyed(ports[victim.ref], victim.reach.volts)]
    worst = (burning or list(blame.victims))[0]
    place = worst.ref.place
    port = ports[worst.ref]
    low = port.port.survives.low if port.port.survives is not None else _REVERSED_FROM
    others = [victim.ref.place for victim in blame.victims if victim.ref != worst.ref]
    brings = blame.cause if blame.cause in case.rig.leads else f"the feed from {blame.cause}"
    says = f"{place} gets {say_volts(-worst.reach.volts)} the wrong way round through {brings}"
    survived = say_volts(max(0.0, -low), assumed="survives" in port.port.assumed)
    says += f" and survives {survived}." if burning else "; it is protected, but does not switch on."
    if others:
        says += f" The same goes for {say_list(others)}."
    return Finding(
        code="polarity:reversed",
        grade=Grade.BURN if burning else Grade.DEAD,
        says=says,
        at=place,
        cause=blame.cause,
        also=tuple(others),
        path=worst.way.places,
        measured=Measured(worst.reach.volts, low, "V"),
        assumed=case.assumed_of(worst.ref, "survives", "pins") + case.assumed_of_lead(blame.cause),
        fixes=_list_fixes(case, blame.cause, place),
    )


def _list_fixes(case: Case, cause: str, place: str) -> tuple[Fix, ...]:
    if cause not in case.rig.leads:
        return (Fix(f"Meter {cause} against the pin-out of {place} and put the part that is wrong right."),)
    swap = Fix(f"Swap {cause} for a lead soldered for {place}, or have it re-soldered; meter it before it goes in.")
    return (swap, Fix(f"Take out {cause}.", (TakeOutLead(cause),)))


def _is_destroyed(port: PortVolts, volts: float) -> bool:
    survives = port.port.survives
    return volts < (survives.low if survives is not None else _REVERSED_FROM) - _MARGIN


RULE = Rule(
    code="polarity:reversed",
    grades=(Grade.BURN, Grade.DEAD),
    title="A feed arrives the wrong way round",
    looks_for=(
        "A power port at which some source can put its plus on the minus contact and its minus on the plus contact,"
        " by more than 0.3 V below what the port survives. The pins are followed contact by contact, through every"
        " lead as it is soldered."
    ),
    why=(
        "Two-pin connectors are wired both ways round by different makers. A device that gets its feed reversed is"
        " destroyed in milliseconds unless its maker protected the input."
    ),
    put_right=(
        "Use a lead soldered for this pair of devices. Mark a lead that is right for one maker only, and meter the"
        " polarity of each power lead before its first plug-in."
    ),
    source="common practice",
    check=check,
)
