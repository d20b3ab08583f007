"""`follow:on`: an axis follows the carrier while somebody operates it."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import (
    Case,
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


def check(case: Case) -> Iterator[Finding]:
    """One finding for each setting that makes remotely operated axes follow."""
    for head in list_heads(case):
        remote = find_remote_axes(case, head)
        for state in case.following(head).set_mode:
            if state.axis in remote and not state.assumes:
                yield _report(case, head, state, remote[state.axis])


def _report(case: Case, head: Item, state: FollowState, claim: Claim) -> Finding:
    follow = head.part.follow
    setting = state.setting or (follow.mode.setting if follow is not None else None)
    cause = setting_place(head.name, setting) if setting is not None else head.name
    whose = claim.person or claim.control
    tails = find_winding(case, head, state.axis)
    fixes = offer_joint_fix(case, tails, claim) if tails is not None else ()
    if tails is None or offer_follow(case, tails, claim) is None:
        fixes = (_find_fix(case, head, state), *fixes)
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


def _find_fix(case: Case, head: Item, state: FollowState) -> Fix:
    if state.setting is not None:
        change = SetSetting(head.name, state.setting, "off", case.setup.name)
        return Fix(f"Set {head.name}.{state.setting} to off.", (change,))
    follow = head.part.follow
    mode = follow.mode.setting if follow is not None else None
    if follow is None or mode is None:
        return Fix(f"Switch follow mode of {head.name}.{state.axis} off.")
    harmless = next((name for name, axes in follow.modes.items() if state.axis not in axes), None)
    if harmless is None:
        return Fix(f"Set {head.name} to a mode in which {state.axis} does not follow.")
    change = SetSetting(head.name, mode, harmless, case.setup.name)
    return Fix(f"Set {head.name}.{mode} to {harmless}, in which {state.axis} does not follow.", (change,))


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
