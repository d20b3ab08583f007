"""Words and causes that the owner rules share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigmint import (
    NOBODY,
    AxisHands,
    Case,
    Claim,
    Fix,
    Measured,
    SetSetting,
    SignalKind,
    TakeOutLead,
    say_list,
    setting_place,
)

_MOST_FIXES = 2


@dataclass(frozen=True, slots=True)
class Remedy:
    """What an unwanted hand is put down to, and how it is taken off."""

    cause: str
    fixes: tuple[Fix, ...]


def say_hand(claim: Claim) -> str:
    """`first_ac on hand.knob (absolute)`, or `by hand at camera.button (trigger)`."""
    if claim.arrives is SignalKind.FOLLOW:
        return f"{claim.person or 'whoever carries it'} by follow mode of {claim.control}"
    whose = f"{claim.person} on {claim.control}" if claim.person is not None else f"by hand at {claim.control}"
    return f"{whose} ({claim.arrives})"


def say_hands(claims: Sequence[Claim]) -> str:
    """All hands, each once."""
    return say_list(list(dict.fromkeys(say_hand(claim) for claim in claims)))


def say_meant(axis: AxisHands) -> str:
    """`first_ac is meant to have it`."""
    if not axis.meant:
        return "the rig does not say who is meant"
    if axis.meant == (NOBODY,):
        return "nobody is meant to have it"
    return f"{say_list(axis.meant, joint='or')} is meant to have it"


def find_remedy(case: Case, axis: AxisHands, candidates: Sequence[Claim]) -> Remedy:
    """The setting that takes one of the candidates off, else the link or the lead by which it comes."""
    for claim in candidates:
        if claim.arrives is SignalKind.FOLLOW:
            continue
        freeing = case.find_freeing_settings(axis.place, claim.control)
        if freeing:
            item, setting, _ = freeing[0]
            fixes = tuple(_make_setting_fix(case, *one) for one in freeing[:_MOST_FIXES])
            return Remedy(setting_place(item, setting), fixes)
    claim = candidates[0]
    for step in claim.path:
        if step.startswith("link:"):
            name = step.removeprefix("link:")
            return Remedy(step, (Fix(f"Take {claim.item} out of the link {name}."),))
    for step in claim.path:
        if step in case.rig.leads:
            return Remedy(step, (Fix(f"Take out {step}.", (TakeOutLead(step),)),))
    return Remedy(claim.item, (Fix(f"Switch {claim.control} off, or leave {claim.item} in the case."),))


def _make_setting_fix(case: Case, item: str, setting: str, value: str) -> Fix:
    change = SetSetting(item, setting, value, case.setup.name)
    return Fix(f"Set {item}.{setting} to {value}: the other hands stay.", (change,))


def longest_path(claims: Sequence[Claim]) -> tuple[str, ...]:
    """The path of the claim that is shown."""
    return claims[0].path if claims else ()


def count_hands(claims: Sequence[Claim]) -> Measured:
    """Hands on the axis against one."""
    return Measured(float(len({claim.control for claim in claims})), 1.0, "hands")
