"""`picture:too-fast`: a format that needs more bits a second than a hop carries."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Grade, Measured, Rule, Trouble
from rigmint_signals.picture_formats import FormatFault, list_faults, list_fixes

_GIGA = 1e9


def check(case: Case) -> Iterator[Finding]:
    """One finding for each format that is too fast for something on its way."""
    for fault in list_faults(case, Trouble.TOO_FAST):
        yield _report(case, fault)


def _report(case: Case, fault: FormatFault) -> Finding:
    problem = fault.problem
    return Finding(
        code="picture:too-fast",
        grade=Grade.DEAD,
        says=(
            f"{problem.format} needs {problem.needed / _GIGA:.4g} Gbit/s; from {fault.before} over {problem.by} to"
            f" {problem.at} the most is {problem.carried / _GIGA:.4g} Gbit/s."
        ),
        at=problem.at,
        cause=fault.cause,
        path=fault.path,
        measured=Measured(problem.needed, problem.carried, "bit/s"),
        fixes=list_fixes(case, fault),
    )


RULE = Rule(
    code="picture:too-fast",
    grades=(Grade.DEAD,),
    title="A picture format too fast for its way",
    looks_for=(
        "A lead, dock or link whose quickest protocol carries fewer bits a second than the format on it needs: total"
        " samples a line, times lines, times frames, times 20 bits."
    ),
    why="A 3 Gbit/s input shows black, or a still, when a camera is set to 2160p.",
    put_right="Set the output to a format that every hop carries, or put a converter in between.",
    source="rasters of SMPTE ST 274 and ST 296, ITU-R BT.709 and BT.601; rates of ST 292-1, 424, 2081-1 and 2082-1",
    check=check,
)
