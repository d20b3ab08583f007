"""Hops that do not carry the format that comes, put down to the setting that decides it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint import Case, Fix, FlowArrival, Problem, Trouble, setting_place
from rigmint_signals.setting_fixes import fix_setting

_PICTURE = "picture"


@dataclass(frozen=True, slots=True)
class FormatFault:
    """A problem, the arrival behind it, and the place in front of the hop."""

    problem: Problem
    arrival: FlowArrival
    before: str

    @property
    def cause(self) -> str:
        """The setting that decides the format; where it is fixed, what does not carry it."""
        decides = self.arrival.format_setting
        return setting_place(*decides) if decides is not None else self.problem.by

    @property
    def path(self) -> tuple[str, ...]:
        """From the maker to the place behind the hop."""
        return self.arrival.path


def list_faults(case: Case, trouble: Trouble) -> Iterator[FormatFault]:
    """Each problem of a kind once, at the first place behind the hop. Only the first on a way counts: further on there
    is no picture to judge."""
    for arrival in case.flows(_PICTURE):
        for problem in arrival.problems[:1]:
            if problem.trouble is trouble and problem.at == arrival.place:
                before = [step for step in arrival.path[:-1] if step not in case.rig.leads and ":" not in step]
                yield FormatFault(problem, arrival, before[-1])


def list_fixes(case: Case, fault: FormatFault) -> tuple[Fix, ...]:
    """The format to set, else a converter in front of the hop."""
    decides = fault.arrival.format_setting
    settings = case.find_flow_settings(_PICTURE, fault.problem.at, [decides]) if decides is not None else ()
    fixes = tuple(fix_setting(case, *found) for found in settings[:1])
    return fixes or (Fix(f"Put a converter in front of {fault.problem.by}, or take another output of the camera."),)
