"""`owner:nobody`: an axis that nobody who is meant to can move."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rigmint import AxisHands, Case, Finding, Fix, Grade, Rule, SetSetting, Stopped, say_list
from rigmint_owner.verdict import Verdict, find_certain


def check(case: Case) -> Iterator[Finding]:
    """One finding for each thing in the way."""
    for axis, _ in find_certain(case, Verdict.NOBODY):
        yield _report(case, axis, case.nearest_misses(axis.place))


def _report(case: Case, axis: AxisHands, misses: Sequence[Stopped]) -> Finding:
    meant = say_list(axis.meant, joint="or")
    theirs = [miss for miss in misses if case.setup.holder(miss.control.partition(".")[0]) in axis.meant]
    nearest = next(iter([*theirs, *misses]), None)
    says = f"{meant} is meant to have {axis.place}, and no control of theirs reaches it"
    if nearest is None:
        return Finding(
            code="owner:nobody",
            grade=Grade.DEAD,
            says=f"{says}.",
            at=axis.place,
            cause=axis.place.partition(".")[0],
            fixes=(Fix(f"Give {meant} a control that reaches {axis.place}, or write down who has it."),),
        )
    return Finding(
        code="owner:nobody",
        grade=Grade.DEAD,
        says=f"{says}: {nearest.control} would, but {nearest.says}.",
        at=axis.place,
        cause=_find_cause(case, nearest.by),
        path=(nearest.control, nearest.by),
        fixes=(_find_fix(case, axis, nearest),),
    )


def _find_cause(case: Case, place: str) -> str:
    """A lead, setting, link or item: a port counts as its item."""
    if place in case.rig.leads or ".set." in place or place.startswith("link:"):
        return place
    return place.partition(".")[0].partition(":")[0]


def _find_fix(case: Case, axis: AxisHands, miss: Stopped) -> Fix:
    name = axis.place.partition(".")[2]
    if ".set." in miss.by:
        item, _, setting = miss.by.partition(".set.")
        values = case.rig.items[item].part.settings[setting].values
        wanted = name if name in values else "on" if "on" in values else None
        if wanted is not None:
            change = SetSetting(item, setting, wanted, case.setup.name)
            return Fix(f"Set {item}.{setting} to {wanted}.", (change,))
        return Fix(f"Set {item}.{setting} so that {miss.control} reaches {axis.place}.")
    return Fix(f"Clear what is in the way: {miss.says}.")


RULE = Rule(
    code="owner:nobody",
    grades=(Grade.DEAD,),
    title="Nobody has an axis",
    looks_for=(
        "An axis, ring or record for which `who:` names somebody, none of whose controls reaches it; with the nearest"
        " miss: the setting, lead, protocol or missing wire that is in the way."
    ),
    why="It is found out when the first AC reaches for it.",
    put_right="Plug the lead, pair the link or set the setting that is named; or write down that nobody has it.",
    source="common practice",
    check=check,
)
