"""`runtime:short`: a battery does not last as long as the job asks."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Parameter, Rule, say_minutes


def check(case: Case) -> Iterator[Finding]:
    """One finding for each battery that is too short."""
    wanted = case.setup.needs.runtime or case.parameters["at_least"]
    if wanted <= 0:
        return
    for item, lasts in case.own_runtimes.items():
        if lasts is not None and lasts < wanted:
            yield _report(case, item, lasts, wanted)


def _report(case: Case, item: str, seconds: float, wanted: float) -> Finding:
    failed = case.runtime.failed
    why = f", until {failed.place} leaves its window" if failed is not None and case.failing_battery == item else ""
    return Finding(
        code="runtime:short",
        grade=Grade.THIN,
        says=f"{item} lasts about {say_minutes(seconds)}{why}; the job asks for {say_minutes(wanted)}.",
        at=item,
        cause=item,
        measured=Measured(seconds, wanted, "s"),
        assumed=tuple(
            f"{item}.{cell.name} {figure}"
            for cell in case.rig.items[item].part.cells.values()
            for figure in ("nominal", "resistance")
            if figure in cell.assumed
        ),
        fixes=(Fix(f"Fly a larger battery than {item}, or plan a change before {say_minutes(seconds)}."),),
    )


RULE = Rule(
    code="runtime:short",
    grades=(Grade.THIN,),
    title="The battery does not last",
    looks_for=(
        "A battery that comes to its change, or a device that leaves its window, sooner than `needs: runtime` or the"
        " library asks; at typical load, aged, and cold where the job is below -5 degC."
    ),
    why="The change comes in the middle of a take.",
    put_right="A larger battery, a second one, or a planned change.",
    source="discharge curve of lithium-ion cells: common practice",
    parameters={"at_least": Parameter(0.0, "duration", "s that each battery must last where the rig does not say")},
    check=check,
)
