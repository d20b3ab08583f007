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
    LeaveLink,
    Measured,
    SetSetting,
    SignalKind,
    TakeOutLead,
    say_list,
    setting_place,
)

_IDLE_VALUES = ("none", "off")


@dataclass(frozen=True, slots=True)
class Remedy:
    """What an unwanted hand is put down to, how it is taken off, and the path by which it comes."""

    cause: str
    fixes: tuple[Fix, ...]
    path: tuple[str, ...]


def say_hand(claim: Claim) -> str:
    """`first_ac on hand.knob (absolute)`, `somebody on desk.wheel (rate)`, `finder.assist by itself (absolute)`."""
    if claim.arrives is SignalKind.FOLLOW:
        return f"{claim.person or 'whoever carries it'} by follow mode of {claim.control}"
    if claim.automatic:
        return f"{claim.control} by itself ({claim.arrives})"
    return f"{claim.person or 'somebody'} on {claim.control} ({claim.arrives})"


def say_hands(claims: Sequence[Claim]) -> str:
    """All hands, each once."""
    return say_list(list(dict.fromkeys(say_hand(claim) for claim in claims)))


def say_meant(axis: AxisHands) -> str:
    """`first_ac is meant to have it`, as the start of a sentence."""
    if not axis.meant:
        return "The rig does not say who is meant to have it"
    if axis.meant == (NOBODY,):
        return "Nobody is meant to have it"
    return f"{say_list(axis.meant, joint='or')} is meant to have it"


def find_remedy(case: Case, axis: AxisHands, candidates: Sequence[Claim], *, all_go: bool) -> Remedy:
    """The settings that take the candidates off (one of them, or all where `all_go`), else the lead that parts one from
    the axis and leaves the others, else the link or the lead by which the first of them comes."""
    freeing = [(claim, found[0]) for claim in candidates if (found := _list_freeing(case, axis, claim))]
    if freeing:
        claim, (item, setting, _) = freeing[0]
        chosen = [one for _, one in freeing] if all_go else [freeing[0][1]]
        return Remedy(setting_place(item, setting), (_make_setting_fix(case, chosen),), claim.path)
    for claim in candidates:
        parting = () if claim.arrives is SignalKind.FOLLOW else case.find_parting_leads(axis.place, claim.control)
        if parting:
            fix = Fix(f"Take out {parting[0]}: the other hands stay.", (TakeOutLead(parting[0]),))
            return Remedy(parting[0], (fix,), claim.path)
    claim = candidates[0]
    for step in claim.path:
        if step.startswith("link:"):
            return Remedy(step, (_leave_link(case, claim, step.removeprefix("link:")),), claim.path)
    for step in claim.path:
        if step in case.rig.leads:
            return Remedy(step, (Fix(f"Take out {step}.", (TakeOutLead(step),)),), claim.path)
    fix = Fix(f"Switch {claim.control} off, or leave {claim.item} in the case.")
    return Remedy(claim.item, (fix,), claim.path)


def _leave_link(case: Case, claim: Claim, name: str) -> Fix:
    """Out of the link with the radio by which the claim comes, or with all of it where that is the hub's."""
    radios = [ref.place for ref in case.rig.links[name].radios[1:]]
    on_path = [step for step in claim.path if step in radios]
    changes = tuple(LeaveLink(name, place) for place in on_path[:1])
    leaving = on_path[0].partition(".")[0] if on_path else claim.item
    return Fix(f"Take {leaving} out of the link {name}.", changes)


def _list_freeing(case: Case, axis: AxisHands, claim: Claim) -> list[tuple[str, str, str]]:
    """One value a setting: none or off where that helps. A motor is not set to another axis to be rid of a hand."""
    if claim.arrives is SignalKind.FOLLOW:
        return []
    mover = claim.mover.partition(".")[0]
    best: dict[tuple[str, str], str] = {}
    for item, setting, value in case.find_freeing_settings(axis.place, claim.control):
        if item == mover != claim.item:
            continue
        if (item, setting) not in best or value in _IDLE_VALUES:
            best[item, setting] = value
    return [(item, setting, value) for (item, setting), value in best.items()]


def _make_setting_fix(case: Case, chosen: Sequence[tuple[str, str, str]]) -> Fix:
    changes = tuple(SetSetting(item, setting, value, case.setup.name) for item, setting, value in dict.fromkeys(chosen))
    told = say_list([f"{one.item}.{one.setting} to {one.value}" for one in changes])
    return Fix(f"Set {told}: the other hands stay.", changes)


def count_hands(claims: Sequence[Claim]) -> Measured:
    """Hands on the axis against one."""
    return Measured(float(len({claim.control for claim in claims})), 1.0, "hands")
