"""`follow:reachable`: one press, or a power cycle, from following."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rigmint import Case, Claim, Finding, Fix, FollowState, Grade, Item, Rule, SetSetting, setting_place
from rigmint_follow.joint_fix import find_winding, offer_joint_fix
from rigmint_follow.remote import find_remote_axes, list_heads


def check(case: Case) -> Iterator[Finding]:
    """One finding for each setting or control that leaves follow mode within reach."""
    for head in list_heads(case):
        remote = find_remote_axes(case, head)
        following = case.following(head)
        for state in following.in_cycle:
            if state.axis in remote:
                yield from _judge_cycle(case, head, state, following.in_cycle, remote)
        for state in following.after_power_cycle:
            if state.axis in remote:
                yield _report_power_cycle(case, head, state, remote[state.axis])


def _judge_cycle(
    case: Case, head: Item, state: FollowState, cycle: tuple[FollowState, ...], remote: Mapping[str, Claim]
) -> Iterator[Finding]:
    presses = _list_presses(case, head)
    elsewhere = [claim for claim in presses if claim.item != head.name]
    could_be_harmless = all(other.setting is not None for other in cycle if other.axis in remote)
    if elsewhere:
        yield _report_press(case, head, state, elsewhere[0], remote[state.axis])
    elif presses and could_be_harmless:
        yield _report_press(case, head, state, presses[0], remote[state.axis])


def _list_presses(case: Case, head: Item) -> list[Claim]:
    axis = case.hands.axes.get(f"{head.name}.mode")
    return list(axis.certain) if axis is not None else []


def _report_press(case: Case, head: Item, state: FollowState, claim: Claim, operated: Claim) -> Finding:
    fixes: tuple[Fix, ...]
    if state.setting is not None:
        change = SetSetting(head.name, state.setting, "off", case.setup.name)
        fixes = (Fix(f"Set {head.name}.{state.setting} to off, so that no mode of the cycle follows.", (change,)),)
        cause = setting_place(head.name, state.setting)
    else:
        freeing = case.find_freeing_settings(f"{head.name}.mode", claim.control)
        cause = setting_place(*freeing[0][:2]) if freeing else claim.item
        fixes = tuple(
            Fix(
                f"Set {item}.{name} to {value}: it then no longer changes the mode.",
                (SetSetting(item, name, value, case.setup.name),),
            )
            for item, name, value in freeing[:1]
        ) or (Fix(f"Tape over {claim.control}, or take the mode {state.mode} out of the cycle on {head.name}."),)
    return Finding(
        code="follow:reachable",
        grade=Grade.THIN,
        says=(
            f"One press on {claim.control} puts {head.name} into {state.mode}, in which {state.axis} follows while"
            " it is operated remotely."
        ),
        at=f"{head.name}.{state.axis}",
        cause=cause,
        path=claim.path,
        fixes=_offer_jointly(case, head, state, operated) or fixes,
    )


def _offer_jointly(case: Case, head: Item, state: FollowState, operated: Claim) -> tuple[Fix, ...]:
    """The remedy of `windup:lead`, where leads wind up on the joint unless it follows: one for both."""
    tails = find_winding(case, head, state.axis)
    return offer_joint_fix(case, tails, operated) if tails is not None else ()


def _report_power_cycle(case: Case, head: Item, state: FollowState, operated: Claim) -> Finding:
    follow = head.part.follow
    setting = state.setting or (follow.mode.setting if follow is not None else None)
    forgetting = [
        name
        for name in (setting, follow.mode.setting if follow is not None else None)
        if name is not None and head.part.settings[name].forgets
    ]
    cause = setting_place(head.name, forgetting[0]) if forgetting else head.name
    named = f"{head.name}.{forgetting[0]}" if forgetting else head.name
    return Finding(
        code="follow:reachable",
        grade=Grade.THIN,
        says=(
            f"{named} is forgotten at power-off: after that {head.name}.{state.axis} follows in {state.mode} while"
            " it is operated remotely."
        ),
        at=f"{head.name}.{state.axis}",
        cause=cause,
        fixes=_offer_jointly(case, head, state, operated)
        or (Fix(f"Set {named} again after each change of the head's battery; write it on the head."),),
    )


RULE = Rule(
    code="follow:reachable",
    grades=(Grade.THIN,),
    title="Follow mode is one press away",
    looks_for=(
        "A mode in which a remotely operated axis follows, in the cycle that a control on another device steps"
        " through; the head's own button only where the cycle could be made harmless; and what a power cycle brings"
        " back."
    ),
    why="A button brushed in a bag or at the wheels sets the head free in the middle of a take.",
    put_right="Make every mode of the cycle harmless, or take the mode button off the remote device.",
    source="common practice",
    check=check,
)
