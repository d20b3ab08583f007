"""Finds settings that take an unwanted hand off an axis: those that gate its path, tried one by one."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType
from typing import TypeAlias

from rigmint.rig.part import Part
from rigmint.rig.rig import Rig, SettingState, Setup
from rigmint.study.hands import Hands
from rigmint.study.signal_map import SignalMap
from rigmint.study.study_hands import tie_hands

Hold: TypeAlias = frozenset[tuple[str, str]]
"""(axis place, control) pairs."""


def find_freeing_settings(
    rig: Rig, setup: Setup, hands: Hands, place: str, unwanted: str
) -> tuple[tuple[str, str, str], ...]:
    """(item, setting, value) that alone take the control `unwanted` off the axis at `place`, keep every other hand
    where it is, and bring none; those of the control's own item first."""
    claims = [claim for claim in hands.axes[place].claims if claim.control == unwanted]
    on_path = {step.partition(".")[0] for claim in claims for step in claim.path} & rig.items.keys()
    own = unwanted.partition(".")[0]
    before = _list_holds(hands)
    found = []
    for item in sorted(on_path, key=lambda name: (name != own, name)):
        part = rig.items[item].part
        for name in gating_settings(part):
            for value in part.settings[name].values:
                if value == setup.setting(item, name):
                    continue
                changed = SignalMap(rig, change_setting(setup, item, name, value), {})
                after = _list_holds(tie_hands(changed, with_stops=False))
                if (place, unwanted) not in after and _keeps_the_rest(before, after, own):
                    found.append((item, name, value))
    return tuple(found)


def find_parting_leads(rig: Rig, setup: Setup, hands: Hands, place: str, unwanted: str) -> tuple[str, ...]:
    """The leads that, each taken out alone, take the control `unwanted` off the axis at `place`, and leave every other
    hand that is meant, or of which nobody says so, where it is; those nearest to the axis first. None where the axis
    has no such hand: then the lead is not what joins two things that should be apart."""
    claims = [claim for claim in hands.axes[place].claims if claim.control == unwanted]
    on_path = dict.fromkeys(step for claim in claims for step in reversed(claim.path) if step in setup.leads)
    kept = {
        (axis.place, claim.control)
        for axis in hands.axes.values()
        for claim in axis.claims
        if not axis.meant or claim.person in axis.meant
    } - {(place, unwanted)}
    if not any(held == place for held, _ in kept):
        return ()
    found = []
    for label in on_path:
        parted = SignalMap(rig, replace(setup, leads=setup.leads - {label}), {})
        after = _list_holds(tie_hands(parted, with_stops=False))
        if (place, unwanted) not in after and kept <= after:
            found.append(label)
    return tuple(found)


def gating_settings(part: Part) -> tuple[str, ...]:
    """The settings on which hands depend: those named by controls, movers and passes."""
    whens = [control.when for control in part.controls.values()]
    whens += [mover.when for mover in part.moves.values()]
    whens += [one_pass.when for one_pass in part.passes]
    choices = [control.axis for control in part.controls.values()]
    choices += [mover.axis for mover in part.moves.values()]
    choices += [one_pass.axes for one_pass in part.passes if one_pass.axes is not None]
    names = {name for when in whens for name in when}
    names |= {choice.setting for choice in choices if choice.setting is not None}
    return tuple(name for name in part.settings if name in names)


def change_setting(setup: Setup, item: str, name: str, value: str) -> Setup:
    """The setup with one setting changed."""
    settings = {**setup.settings, (item, name): SettingState(value, "setup")}
    return replace(setup, settings=MappingProxyType(settings))


def _list_holds(hands: Hands) -> Hold:
    return frozenset((place, claim.control) for place, axis in hands.axes.items() for claim in axis.claims)


def _keeps_the_rest(before: Hold, after: Hold, own_item: str) -> bool:
    others = {hold for hold in before if hold[1].partition(".")[0] != own_item}
    return others <= after and after <= before
