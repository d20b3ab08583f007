"""`polarity:shorted`: plus and minus of one source are joined."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Rule, TakeOutLead


def check(case: Case) -> Iterator[Finding]:
    """One finding for each source that is shorted."""
    for shorted in case.worst_volts.shorts:
        way, cause = case.trace_short(shorted)
        source = shorted.source
        fixes = [Fix(f"Keep {cause} out until its pin-out has been metered against the ports at both ends.")]
        if cause in case.rig.leads:
            fixes.append(Fix(f"Take out {cause}.", (TakeOutLead(cause),)))
        yield Finding(
            code="polarity:shorted",
            grade=Grade.BURN,
            says=(
                f"Plus and minus of {source.item} are joined through {cause}:"
                f" {source.highest:.1f} V meets its own return."
            ),
            at=source.place,
            cause=cause,
            path=way.places,
            assumed=case.assumed_of_lead(cause),
            fixes=tuple(fixes),
        )


RULE = Rule(
    code="polarity:shorted",
    grades=(Grade.BURN,),
    title="Plus and minus of a source are joined",
    looks_for=(
        "A ring of contacts on which a battery's or a supply's plus reaches its own minus: a lead soldered across, or a"
        " reversed feed whose return is also made by another lead, such as the shield of a picture lead."
    ),
    why=(
        "A camera battery gives a hundred amps into a short: the weakest conductor glows, and it may be the shield of"
        " a picture lead or the ground of a camera."
    ),
    put_right="Take out the lead that crosses feed and return, and meter it. Do not rely on the battery's protection.",
    source="common practice",
    check=check,
)
