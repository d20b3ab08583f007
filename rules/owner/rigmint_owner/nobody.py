"""`owner:nobody`: an axis that nobody who is meant to can move."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rigmint import (
    AxisHands,
    Case,
    Finding,
    Fix,
    Grade,
    JoinLink,
    PortRef,
    Rule,
    SetSetting,
    Stopped,
    SwitchOn,
    Verdict,
    say_list,
    setting_place,
)
from rigmint_owner.verdict import find_certain


def check(case: Case) -> Iterator[Finding]:
    """One finding for each thing in the way."""
    for axis, _ in find_certain(case, Verdict.NOBODY):
        misses = case.nearest_misses(axis.place)
        nearest = _find_nearest(case, axis, misses)
        is_far = nearest is None or nearest.control.partition(".")[0] == axis.place.partition(".")[0]
        yield (_report_follow(case, axis) if is_far else None) or _report(case, axis, nearest)


def _report_follow(case: Case, axis: AxisHands) -> Finding | None:
    """A head that is meant for whoever holds it, and stands in a mode in which the axis does not follow."""
    item, _, name = axis.place.partition(".")
    follow = case.rig.items[item].part.follow
    holder = case.setup.holder(item)
    if follow is None or follow.mode.setting is None or holder is None or holder not in axis.meant:
        return None
    following = [mode for mode, axes in follow.modes.items() if name in axes and "on" in axes[name].words]
    mode = case.setup.setting(item, follow.mode.setting)
    if not following or mode in following:
        return None
    change = SetSetting(item, follow.mode.setting, following[0], case.setup.name)
    place = setting_place(item, follow.mode.setting)
    return Finding(
        code="owner:nobody",
        grade=Grade.DEAD,
        says=(
            f"{holder} is meant to have {axis.place}, holds {item} and has no other control of it: {name} does not"
            f" follow while {item}.{follow.mode.setting} is {mode}."
        ),
        at=axis.place,
        cause=place,
        path=(item, place),
        fixes=(Fix(f"Set {item}.{follow.mode.setting} to {following[0]}.", (change,)),),
    )


def _report(case: Case, axis: AxisHands, nearest: Stopped | None) -> Finding:
    meant = say_list(axis.meant, joint="or")
    if nearest is None:
        return Finding(
            code="owner:nobody",
            grade=Grade.DEAD,
            says=f"{meant} is meant to have {axis.place}, and no control of theirs reaches it.",
            at=axis.place,
            cause=axis.place.partition(".")[0],
            fixes=(Fix(f"Give {meant} a control that reaches {axis.place}, or write down who has it."),),
        )
    return Finding(
        code="owner:nobody",
        grade=Grade.DEAD,
        says=f"{meant} is meant to have {axis.place}: {nearest.control} would reach it, but {nearest.says}.",
        at=axis.place,
        cause=_find_cause(case, nearest.by),
        path=(nearest.control, nearest.by),
        fixes=(_find_fix(case, axis, nearest),),
    )


def _find_nearest(case: Case, axis: AxisHands, misses: Sequence[Stopped]) -> Stopped | None:
    """What stops a control of somebody who is meant, else one in nobody's crew that they could pick up; what stops
    somebody else's, or a control on the rig itself, is as it should be."""
    holders = [(case.setup.holder(miss.control.partition(".")[0]), miss) for miss in misses]
    theirs = [miss for holder, miss in holders if holder in axis.meant]
    loose = [miss for holder, miss in holders if holder is None and _is_away(case, miss)]
    return next(iter([*theirs, *loose]), None)


def _is_away(case: Case, miss: Stopped) -> bool:
    return case.rig.items[miss.control.partition(".")[0]].rides == "away"


def _find_cause(case: Case, place: str) -> str:
    """A lead, setting, link or item: a port counts as its item."""
    if place in case.rig.leads or ".set." in place or place.startswith("link:"):
        return place
    return place.partition(".")[0].partition(":")[0]


def _find_fix(case: Case, axis: AxisHands, miss: Stopped) -> Fix:
    name = axis.place.partition(".")[2]
    granting = sorted(case.find_granting_settings(axis.place), key=lambda one: setting_place(*one[:2]) != miss.by)
    if granting:
        item, setting, value = granting[0]
        return Fix(f"Set {item}.{setting} to {value}.", (SetSetting(item, setting, value, case.setup.name),))
    if ".set." in miss.by:
        item, _, setting = miss.by.partition(".set.")
        return Fix(f"Set {item}.{setting} so that {miss.control} reaches {axis.place}.")
    if miss.by in case.rig.leads:
        return Fix(f"Swap {miss.by} for a lead that carries {name}.")
    if miss.by.startswith("link:"):
        return Fix(f"Pair {miss.control.partition('.')[0]} with a radio that speaks the same and carries {name}.")
    item, _, end = miss.by.partition(".")
    if item in case.setup.off:
        return Fix(f"Leave {item} on in this setup.", (SwitchOn(item),))
    if end in case.rig.items[item].part.radios:
        return Fix(f"Pair {item} under `links:`.", _join_link(case, PortRef(item, end)))
    if end and not _is_plugged(case, PortRef(item, end)):
        return Fix(f"Plug a lead that carries {name} into {miss.by}.")
    return Fix(f"Give {miss.control} another way to {axis.place}, or write down who has it.")


def _join_link(case: Case, ref: PortRef) -> tuple[JoinLink, ...]:
    """Into the only link that is there whose hub speaks what the radio speaks."""
    names = [name for name in sorted(case.setup.links) if case.could_join(case.rig.links[name], ref)]
    return (JoinLink(names[0], ref.place),) if len(names) == 1 else ()


def _is_plugged(case: Case, ref: PortRef) -> bool:
    return any(ref in case.rig.leads[label].plugged.values() for label in case.setup.leads)


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
