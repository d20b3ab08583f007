"""`misplug:burns`: a plug that goes into a socket which it destroys."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rigmint import (
    Case,
    Finding,
    Fix,
    Grade,
    Harm,
    HarmKind,
    Hazard,
    Mark,
    Measured,
    Misplug,
    Rule,
    say_list,
    say_volts,
)


def check(case: Case) -> Iterator[Finding]:
    """One finding for each socket that dies of several leads within reach, or lead that several sockets die of."""
    for hazard in case.hazards:
        yield _report(case, hazard)


def _report(case: Case, hazard: Hazard) -> Finding:
    worst = hazard.misplugs[0]
    harm = worst.harms[0]
    victim = worst.port.place
    leads = list(dict.fromkeys(one.mistake.lead or "" for one in hazard.misplugs))
    others = sorted({one.port.place for one in hazard.misplugs} - {victim})
    assumed = case.assumed_of(worst.port, "survives") if harm.limit is not None else ()
    says = _say(worst, harm, _list_alike(hazard, worst), assumed=bool(assumed)) + _say_farther(hazard, worst)
    if hazard.further:
        says += f" The same goes for {say_list(hazard.further)}."
    elif others:
        says += f" It also burns {say_list(others)}."
    further = {one.ref.place for one in worst.harms if one.ref is not None} - {victim}
    return Finding(
        code="misplug:burns",
        grade=Grade.THIN,
        says=says,
        at=victim,
        cause=hazard.place,
        also=tuple(sorted((further | set(others) | set(hazard.further)) - {victim})),
        path=case.trace_misplug(worst),
        measured=Measured(harm.volts, harm.limit, "V"),
        assumed=(*assumed, *(figure for lead in leads for figure in case.assumed_of_lead(lead))),
        fixes=_list_fixes(case, hazard, harm),
    )


def _list_alike(hazard: Hazard, worst: Misplug) -> list[str]:
    """The leads that do what the worst misplug does, by the same socket."""
    into = worst.mistake.into
    return list(dict.fromkeys(one.mistake.lead or "" for one in hazard.misplugs if one.mistake.into == into))


def _say_farther(hazard: Hazard, worst: Misplug) -> str:
    """The leads that burn the same socket by another one that they go into."""
    alike = _list_alike(hazard, worst)
    sockets: dict[str, list[str]] = {}
    for one in hazard.misplugs:
        mistake = one.mistake
        if mistake.lead is not None and mistake.lead not in alike and one.port == worst.port:
            sockets.setdefault(mistake.lead, []).append(mistake.into.place)
    return "".join(f" So does {lead} in {say_list(sorted(set(into)), joint='or')}." for lead, into in sockets.items())


def _say(misplug: Misplug, harm: Harm, leads: Sequence[str], *, assumed: bool) -> str:
    victim, into = misplug.port.place, misplug.mistake.into.place
    named, one = say_list(leads), len(leads) == 1
    fits = f"{named} {'fits' if one else 'fit'} {into}"
    volts = say_volts(abs(harm.volts))
    limit = say_volts(harm.limit, assumed=assumed) if harm.limit is not None else ""
    if harm.kind is HarmKind.OVER and into == victim:
        carries = f"carries {volts} and fits" if one else f"carry up to {volts} and fit"
        return f"{victim} dies above {limit}; {named} {carries}."
    if harm.kind is HarmKind.OVER:
        return f"{fits}, which puts {volts} on {victim}; that dies above {limit}."
    if harm.kind is HarmKind.REVERSED:
        where = "there" if into == victim else f"on {victim}"
        return f"{fits} and {'brings' if one else 'bring'} {volts} the wrong way round {where}."
    if harm.kind is HarmKind.SIGNAL:
        return f"{fits} and {'puts' if one else 'put'} {volts} on `{harm.what}` of {victim}, which survives {limit}."
    if harm.kind is HarmKind.SHORT:
        return f"{fits} and {'joins' if one else 'join'} plus and minus of {harm.what} there."
    if harm.kind is HarmKind.TIED:
        giver, taker = harm.what.split()
        return f"{fits}, and {giver} then pushes into {taker}."
    return f"{fits} and {'pushes' if one else 'push'} {volts} into {victim}, which is an output."


def _list_fixes(case: Case, hazard: Hazard, harm: Harm) -> tuple[Fix, ...]:
    places = (hazard.place, *hazard.further)
    taped = [place for place in places if place in case.rig.leads]
    capped = [place for place in places if place not in case.rig.leads]
    tasks = [f"put red tape on {say_list(taped)}"] if taped else []
    tasks += [f"cap or tape {say_list(capped)}"] if capped else []
    task = say_list(tasks)
    marks = tuple(Mark(place, "red" if place in case.rig.leads else "capped") for place in places)
    leads = {one.mistake.lead for one in hazard.misplugs}
    fixes = [Fix(f"{task[0].upper()}{task[1:]} and write that under `marked:`.", marks)]
    for lead in leads - {hazard.place} if len(leads) == 1 else ():
        fixes.append(Fix(f"Put red tape on {lead} and write that under `marked:`.", (Mark(lead or "", "red"),)))
    if harm.kind in (HarmKind.REVERSED, HarmKind.SHORT):
        lasting = "Keep to one pin-out on this connector, or put a key or another connector on the odd one."
    elif harm.kind is HarmKind.OVER:
        lasting = "Put another connector or a key on what carries more, or feed it through a regulated lead."
    else:
        lasting = "Put another connector or a key on one of the two."
    return (*fixes, Fix(lasting))


RULE = Rule(
    code="misplug:burns",
    grades=(Grade.THIN,),
    title="A plug that fits a socket which it destroys",
    looks_for=(
        "Each end of each lead, moved to every other socket within reach that takes it: on the same stage of the rig,"
        " or both away from it. What was in that socket hangs loose then. It is told of where a port would get more"
        " than it survives, its feed the wrong way round or plus on a signal contact, where a source would be shorted,"
        " or where two sources would push into each other. A mark under `marked:` on the lead, its end or the socket"
        " answers it. `rigmint misplug` lists every misplug, on a bench and swapped, turned and forced plugs too."
    ),
    why=(
        "A rig that is right on paper is plugged by tired people in the dark, and by somebody else on the second day."
        " Where one connector carries several voltages or both polarities, the first wrong socket costs a board."
    ),
    put_right=(
        "Cap a socket that is not in use, put coloured tape on the lead that is dangerous and on its own socket, or"
        " give it another connector, a key or a regulated lead."
    ),
    source="common practice",
    check=check,
)
