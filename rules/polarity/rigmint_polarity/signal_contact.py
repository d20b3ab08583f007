"""`polarity:signal`: a feed on a signal contact."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Rule, TakeOutLead, say_volts


def check(case: Case) -> Iterator[Finding]:
    """One finding for each signal contact that a feed reaches."""
    for signal in case.worst_volts.signals:
        victim = case.blame_last_lead(signal.ref, signal.reach)
        fixes = [Fix(f"Use a lead for {signal.ref.place} that does not join a feed to `{signal.signal}`.")]
        if victim.cause in case.rig.leads:
            fixes.append(Fix(f"Take out {victim.cause}.", (TakeOutLead(victim.cause),)))
        volts = signal.reach.volts
        limit = say_volts(signal.limit, assumed=signal.limit_assumed)
        yield Finding(
            code="polarity:signal",
            grade=Grade.BURN,
            says=(
                f"{victim.cause} puts {say_volts(volts)} on `{signal.signal}` of {signal.ref.place}, a signal contact"
                f" that survives {limit}."
            ),
            at=signal.ref.place,
            cause=victim.cause,
            path=victim.way.places,
            measured=Measured(volts, signal.limit, "V"),
            assumed=(f"{signal.ref.place} survives of {signal.signal}",) if signal.limit_assumed else (),
            fixes=tuple(fixes),
        )


RULE = Rule(
    code="polarity:signal",
    grades=(Grade.BURN,),
    title="A feed reaches a signal contact",
    looks_for=(
        "A contact that a part uses for a signal, joined to the plus of a source by a lead, where the volts pass what"
        " the contact survives (3.6 V where the part does not say)."
    ),
    why="Inputs for triggers, buses and timecode sit behind a few milliamps of protection. Battery volts end them.",
    put_right="Use the lead that is made for the port; compare the pin-outs of both ends before using one by shape.",
    source="common practice",
    check=check,
)
