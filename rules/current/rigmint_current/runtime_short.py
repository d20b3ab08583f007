"""`runtime:short`: a battery does not last as long as the job asks, or all of them not as long as the day."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, DayPacks, Finding, Fix, Grade, Measured, PackSpares, Parameter, Point, Rule, say_minutes


def check(case: Case) -> Iterator[Finding]:
    """One finding for each battery that is too short, and one for each kind of which the day takes more."""
    wanted = case.setup.needs.runtime or case.parameters["at_least"]
    for item in case.runtime.seconds if wanted > 0 else ():
        lasts = case.own_seconds(item)
        if lasts is not None and lasts < wanted:
            yield _report(case, item, lasts, wanted)
    for packs in case.short_packs if _is_sound(case) else ():
        yield _report_day(case, packs)


def _report(case: Case, item: str, seconds: float, wanted: float) -> Finding:
    failed = case.runtime.failed
    why = f", until {failed.place} leaves its window" if failed is not None and case.ends_runtime(item) else ""
    return Finding(
        code="runtime:short",
        grade=Grade.THIN,
        says=f"{item} lasts about {say_minutes(seconds)}{why}; the job asks for {say_minutes(wanted)}.",
        at=item,
        cause=item,
        measured=Measured(seconds, wanted, "s"),
        assumed=_list_assumed(case, item),
        fixes=(Fix(f"Fly a larger battery than {item}, or plan a change before {say_minutes(seconds)}."),),
    )


def _is_sound(case: Case) -> bool:
    """Whether runtimes mean anything: of a circuit that collapses, or has a short, worse is said."""
    typical = case.power.points[Point.TYPICAL]
    return typical.solved and not typical.collapsed and not case.worst_volts.shorts


def _report_day(case: Case, packs: DayPacks) -> Finding:
    day = case.setup.needs.day or 0.0
    first = next(iter(packs.items))
    place = f"also.{packs.entries[0]}" if packs.entries else first
    part = packs.parts[0]
    name = part.name if len(packs.parts) == 1 else f"packs that fit {first}"
    own = [index for index in packs.entries if case.rig.spares[index].part.id == part.id]
    index = own[0] if own else None
    count = packs.missing + (case.rig.spares[index].count if index is not None else 0)
    return Finding(
        code="runtime:short",
        grade=Grade.THIN,
        says=(
            f"{packs.there} × {name} ({len(packs.items)} on the rig, {packs.spares} in the case) last"
            f"{'' if packs.there > 1 else 's'} about"
            f" {say_minutes(packs.lasts)} of a day of {say_minutes(day)}: {packs.needed} full ones are needed without a"
            " charger."
        ),
        at=place,
        cause=place,
        also=tuple(item for item in packs.items if item != place),
        measured=Measured(packs.lasts, day, "s"),
        assumed=tuple(figure for item in packs.items for figure in _list_assumed(case, item)),
        fixes=(
            Fix(f"Pack {packs.missing} × {part.name} more.", (PackSpares(part.id, count, "day", index),)),
            Fix("Bring a charger, a part of kind `supply` with bays that take them, under `also:`."),
        ),
    )


def _list_assumed(case: Case, item: str) -> tuple[str, ...]:
    return tuple(
        f"{item}.{cell.name} {figure}"
        for cell in case.rig.items[item].part.cells.values()
        for figure in ("nominal", "resistance")
        if figure in cell.assumed
    )


RULE = Rule(
    code="runtime:short",
    grades=(Grade.THIN,),
    title="The battery does not last",
    looks_for=(
        "A battery that comes to its change, or a device that leaves its window, sooner than `needs: runtime` or the"
        " library asks; at typical load, aged, and cold where the job is below -5 degC. Where `needs: day` is stated,"
        " fewer packs on the rig and under `also:` than the day takes, with those of the job's other rigs in the same"
        " run, and no charger that takes them."
    ),
    why="The change comes in the middle of a take.",
    put_right="A larger battery, a second one, a planned change; for the day more packs or a charger in the case.",
    source="discharge curve of lithium-ion cells: common practice",
    parameters={"at_least": Parameter(0.0, "duration", "s that each battery must last where the rig does not say")},
    check=check,
)
