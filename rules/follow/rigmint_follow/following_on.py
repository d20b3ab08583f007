"""`follow:on`: an axis follows the carrier while somebody operates it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rigmint import (
    Case,
    Choice,
    Claim,
    Finding,
    Fix,
    FollowState,
    Grade,
    Item,
    JointTails,
    Rule,
    SetSetting,
    say_list,
    setting_place,
)
from rigmint_follow.joint_fix import find_winding, offer_follow, offer_joint_fix
from rigmint_follow.remote import find_remote_axes, list_heads

_MOST_MODES = 2


def check(case: Case) -> Iterator[Finding]:
    """One finding for each setting that makes remotely operated axes follow."""
    for head in list_heads(case):
        remote = find_remote_axes(case, head)
        for state in case.following(head).set_mode:
            if state.axis in remote and not state.assumes:
                yield _report(case, head, state, remote)


def _report(case: Case, head: Item, state: FollowState, remote: Mapping[str, Claim]) -> Finding:
    claim = remote[state.axis]
    follow = head.part.follow
    setting = state.setting or (follow.mode.setting if follow is not None else None)
    cause = setting_place(head.name, setting) if setting is not None else head.name
    whose = claim.person or claim.control
    tails = find_winding(case, head, state.axis)
    fixes = offer_joint_fix(case, tails, claim) if tails is not None else ()
    if tails is None or offer_follow(case, tails, claim) is None:
        fixes = (*_list_fixes(case, head, state, remote), *fixes)
    return Finding(
        code="follow:on",
        grade=Grade.FIGHT,
        says=(
            f"{head.name}.{state.axis} follows whoever carries it in the mode {state.mode}, while {whose} operates it"
            f" from {claim.control}.{_say_winding(tails)}"
        ),
        at=f"{head.name}.{state.axis}",
        cause=cause,
        path=claim.path,
        fixes=fixes,
    )


def _say_winding(tails: JointTails | None) -> str:
    if tails is None:
        return ""
    wind = "winds" if len(tails.leads) == 1 else "wind"
    return f" Off, {say_list(tails.leads)} {wind} up across that joint, which is endless and has no slip ring."


def _list_fixes(case: Case, head: Item, state: FollowState, remote: Mapping[str, Claim]) -> tuple[Fix, ...]:
    """The axis's own switch, where the mode has one; else another mode, with the switches that it needs, in which no
    axis that is operated remotely follows: first those in which most else stays as it is."""
    if state.setting is not None:
        change = SetSetting(head.name, state.setting, "off", case.setup.name)
        return (Fix(f"Set {head.name}.{state.setting} to off.", (change,)),)
    follow = head.part.follow
    mode = follow.mode.setting if follow is not None else None
    if follow is None or mode is None:
        return (Fix(f"Switch follow mode of {head.name}.{state.axis} off on the head itself."),)
    held = {axis for axis in follow.modes[state.mode] if axis not in remote}
    found = []
    for index, (name, axes) in enumerate(follow.modes.items()):
        switches = _list_switches(case, head, axes, remote)
        if name != state.mode and switches is not None:
            lost = len(held - axes.keys())
            found.append((lost, len(switches), index, name, switches))
    chosen = [[(mode, name), *((one, "off") for one in switches)] for *_, name, switches in sorted(found)]
    fixes = tuple(_make_fix(case, head, state.axis, values) for values in chosen[:_MOST_MODES])
    return fixes or (Fix(f"Set {head.name} to a mode in which {state.axis} does not follow."),)


def _list_switches(
    case: Case, head: Item, axes: Mapping[str, Choice], remote: Mapping[str, Claim]
) -> tuple[str, ...] | None:
    """The settings that must go off so that no remote axis follows in a mode; None where the mode fixes one."""
    switches = []
    for axis in remote:
        choice = axes.get(axis)
        if choice is None or choice.words == ("off",):
            continue
        setting = choice.setting
        if setting is None or "off" not in head.part.settings[setting].values:
            return None
        if case.setup.setting(head.name, setting) != "off":
            switches.append(setting)
    return tuple(switches)


def _make_fix(case: Case, head: Item, axis: str, values: list[tuple[str, str]]) -> Fix:
    changes = tuple(SetSetting(head.name, setting, value, case.setup.name) for setting, value in values)
    told = say_list([f"{head.name}.{setting} to {value}" for setting, value in values])
    return Fix(f"Set {told}, in which {axis} does not follow.", changes)


RULE = Rule(
    code="follow:on",
    grades=(Grade.FIGHT,),
    title="A remotely operated axis follows the carrier",
    looks_for="An axis of a head that somebody operates from another device while its follow mode is on.",
    why="The head turns with the carrier's body under the operator's hands: the frame drifts off in every turn.",
    put_right=(
        "Switch follow mode off on each axis that is operated remotely. Where its leads would then wind up, name who"
        " carries the head under `who` beside the operator, or make an end to the turning."
    ),
    source="common practice",
    check=check,
)
