"""`polarity:shorted`: plus and minus of one source are joined."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Rule, TakeOutLead, Way, say_volts


def check(case: Case) -> Iterator[Finding]:
    """One finding for each source that is shorted."""
    for shorted in case.worst_volts.shorts:
        ring, cause = case.trace_short(shorted)
        source = shorted.source
        fixes = [Fix(f"Keep {cause} out until its pin-out has been metered against the ports at both ends.")]
        if cause in case.rig.leads:
            fixes.append(Fix(f"Take out {cause}.", (TakeOutLead(cause),)))
        yield Finding(
            code="polarity:shorted",
            grade=Grade.BURN,
            says=(
                f"Plus and minus of {source.item} are joined: {_say_crossing(case, ring, cause)}, and"
                f" {say_volts(source.highest)} meets its own return."
            ),
            at=source.place,
            cause=cause,
            path=ring.places,
            assumed=case.assumed_of_lead(cause),
            fixes=tuple(fixes),
        )


def _say_crossing(case: Case, ring: Way, cause: str) -> str:
    """Which contacts the lead joins on the ring: `P1 takes contact 2 of plate.out_1 to contact 1 of camera.dc_in`."""
    ends = [pin for pin in (case.network.pins[number] for number in ring.pins) if pin.is_lead and pin.owner == cause]
    if cause not in case.rig.leads or len(ends) < 2:
        return f"the ring closes at {cause}"
    plugged = case.rig.leads[cause].plugged
    near, far = (f"contact {pin.contact} of {plugged[pin.group].place}" for pin in (ends[0], ends[-1]))
    return f"{cause} takes {near} to {far}"


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
