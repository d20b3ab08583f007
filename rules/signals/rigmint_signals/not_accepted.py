"""`picture:not-accepted`: a format that a sender, converter or screen does not take."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Grade, Rule, Trouble, say_list
from rigmint_signals.picture_formats import FormatFault, list_faults, list_fixes


def check(case: Case) -> Iterator[Finding]:
    """One finding for each format that something on its way does not take."""
    for fault in list_faults(case, Trouble.NOT_ACCEPTED):
        yield _report(case, fault)


def _report(case: Case, fault: FormatFault) -> Finding:
    problem = fault.problem
    return Finding(
        code="picture:not-accepted",
        grade=Grade.DEAD,
        says=f"{problem.format} arrives at {fault.before}; {problem.by} takes only {say_list(problem.accepted)} there.",
        at=fault.before,
        cause=fault.cause,
        path=fault.path,
        fixes=list_fixes(case, fault),
    )


RULE = Rule(
    code="picture:not-accepted",
    grades=(Grade.DEAD,),
    title="A picture format that is not taken",
    looks_for="A device on the way of a picture that lists the formats it takes, and gets another one.",
    why="Encoders and older screens take a short list of formats. Off it they show nothing, at any rate of bits.",
    put_right="Set the camera or the converter to a format that every hop takes.",
    source="the makers' lists",
    check=check,
)
