"""Finds settings that give an axis to who is meant to have it: those on which hands depend, tried one by one."""

from __future__ import annotations

from rigmint.rig.rig import Rig, Setup
from rigmint.study.freeing import change_setting, gating_settings
from rigmint.study.hands import AxisHands, Claim, Hands
from rigmint.study.signal_map import SignalMap
from rigmint.study.study_hands import tie_hands


def find_granting_settings(rig: Rig, setup: Setup, hands: Hands, place: str) -> tuple[tuple[str, str, str], ...]:
    """(item, setting, value) that alone bring a control of somebody who is meant to the axis at `place`, keep every
    hand that there is, and bring none to anybody who is not meant."""
    before = {(axis, claim.control) for axis, held in hands.axes.items() for claim in held.claims}
    found = []
    for item in sorted(setup.items - setup.off):
        part = rig.items[item].part
        for name in gating_settings(part):
            for value in part.settings[name].values:
                if value == setup.setting(item, name):
                    continue
                after = tie_hands(SignalMap(rig, change_setting(setup, item, name, value), {}), with_stops=False)
                if _grants(after, place) and _spoils_nothing(after, before):
                    found.append((item, name, value))
    return tuple(found)


def _grants(hands: Hands, place: str) -> bool:
    axis = hands.axes.get(place)
    return axis is not None and any(_is_theirs(axis, claim) for claim in axis.certain)


def _spoils_nothing(after: Hands, before: set[tuple[str, str]]) -> bool:
    holds = {(axis, claim.control): claim for axis, held in after.axes.items() for claim in held.claims}
    return before <= holds.keys() and all(
        _is_theirs(after.axes[hold[0]], claim) for hold, claim in holds.items() if hold not in before
    )


def _is_theirs(axis: AxisHands, claim: Claim) -> bool:
    return claim.person in axis.meant
