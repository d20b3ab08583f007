"""The one remedy that `follow` and `windup` offer together: what locks a head to its operator lets its tails wind up,
and what unwinds them is follow mode."""

from __future__ import annotations

import re

from rigmint import Case, Choice, Claim, Fix, Item, JointTails, NameWho, SetSetting, say_list

_CARRIED = ("hand", None)
"""What a rig is on where somebody carries the head, or may."""
_NUMBER = re.compile(r"-?\d+(\.\d+)?")


def find_winding(case: Case, head: Item, axis: str) -> JointTails | None:
    """The tails of a joint that wind up on it unless it follows; None where there are none."""
    return next((one for one in case.tails if one.winds and (one.head, one.name) == (head.name, axis)), None)


def offer_joint_fix(case: Case, tails: JointTails, claim: Claim) -> tuple[Fix, ...]:
    """Follow mode with a wide dead band and by agreement, where the head is carried and can follow; then what makes an
    end to the turning. `claim`: the hand that turns the joint."""
    follow = offer_follow(case, tails, claim)
    leads = say_list(tails.leads, most=3)
    does, way = ("ends", "its") if len(tails.leads) == 1 else ("end", "their")
    stop = Fix(
        f"Give {tails.place} a stop and state its `travel`; or take {leads} through a slip"
        f" ring, or let what {'it' if len(tails.leads) == 1 else 'they'} {does} at ride on {way} own side of the joint."
    )
    stated = _ask_where(case, tails)
    return tuple(fix for fix in (follow, stop, stated) if fix is not None)


def _ask_where(case: Case, tails: JointTails) -> Fix | None:
    """Where nothing but its kind says on which side an item rides, it may well sit on the other."""
    if not tails.assumed:
        return None
    told = [f"{item} on {case.rig.items[item].rides}" for item in tails.assumed]
    return Fix(f"Write `rides:` where it is not so: nothing but the kind puts {say_list(told)}.")


def offer_follow(case: Case, tails: JointTails, claim: Claim) -> Fix | None:
    """None where nobody else carries the head, its modes cannot do it for this axis alone, or `who` does not mean the
    hand that turns it."""
    head, axis, operator = case.rig.items[tails.head], tails.name, claim.person
    carrier = case.find_carrier(head)
    hands = case.hands.axes.get(tails.place)
    if carrier is None or hands is None or operator is None or case.setup.on not in _CARRIED:
        return None
    is_own = claim.item == head.name
    if (hands.meant and operator not in hands.meant) or (carrier == operator and not is_own):
        return None
    settings = _switch_follow_on(case, head, axis)
    if settings is None:
        return None
    settings += _widen_dead_band(case, head, axis)
    told = [f"set {one.item}.{one.setting} to {one.value}" for one in settings]
    names: tuple[NameWho, ...] = ()
    if carrier != operator and carrier not in hands.meant:
        names = (NameWho(hands.place, hands.name, carrier, operator, case.setup.name),)
        told.append(f"name {carrier} for it beside {operator} under `who`")
    if not told:
        return None
    says = f"Let {hands.place} follow within a wide dead band, which unwinds its leads: {say_list(told)}."
    return Fix(says, (*settings, *names))


def _switch_follow_on(case: Case, head: Item, axis: str) -> tuple[SetSetting, ...] | None:
    """What makes this axis and no other follow; empty where it does already."""
    follow = head.part.follow
    if follow is None or any(state.axis != axis for state in case.following(head).set_mode):
        return None
    if any(state.axis == axis for state in case.following(head).set_mode):
        return ()
    mode = _find_value(case, head, follow.mode)
    switch = follow.modes.get(mode, {}).get(axis) if mode is not None else None
    if switch is not None and switch.setting is not None:
        return (SetSetting(head.name, switch.setting, "on", case.setup.name),)
    for name, axes in follow.modes.items():
        alone = [other for other, choice in axes.items() if _find_value(case, head, choice) != "off"] == [axis]
        if alone and axes[axis].words == ("on",) and follow.mode.setting is not None:
            return (SetSetting(head.name, follow.mode.setting, name, case.setup.name),)
    return None


def _find_value(case: Case, head: Item, choice: Choice) -> str | None:
    if choice.setting is not None:
        return case.setup.setting(head.name, choice.setting)
    return choice.words[0] if choice.words else None


def _widen_dead_band(case: Case, head: Item, axis: str) -> tuple[SetSetting, ...]:
    """The widest dead band that the head has, where it can be set."""
    band = head.part.follow.dead_band.get(axis) if head.part.follow is not None else None
    if band is None or band.setting is None:
        return ()
    values = {
        value: float(match[0]) for value in head.part.settings[band.setting].values if (match := _NUMBER.match(value))
    }
    widest = max(values, key=lambda value: values[value], default=None)
    if widest is None or widest == case.setup.setting(head.name, band.setting):
        return ()
    return (SetSetting(head.name, band.setting, widest, case.setup.name),)
