"""Controls that do not reach an axis as the rig is written, one line each, unknown settings included."""

from __future__ import annotations

from rigmint.rig.place import setting_place
from rigmint.study.hands import AxisHands, Claim, Stopped


def find_held_back(axis: AxisHands) -> tuple[Stopped, ...]:
    """What the study found stopped, and each claim that stands only under some value of a setting that nobody stated:
    between it and the axis is that setting."""
    reaching = {claim.control for claim in axis.certain}
    unstated = [
        _describe_unstated(claim, axis.place)
        for claim in axis.claims
        if not claim.is_certain and claim.control not in reaching
    ]
    return tuple(dict.fromkeys((*axis.stopped, *unstated)))


def _describe_unstated(claim: Claim, place: str) -> Stopped:
    names = [f"{item}.{setting}" for item, setting in claim.assumes]
    values = [f"{item}.{setting} at {value}" for (item, setting), value in claim.assumes.items()]
    first = setting_place(*next(iter(claim.assumes)))
    verb = "is" if len(names) == 1 else "are"
    says = f"{' and '.join(names)} {verb} not stated; with {' and '.join(values)} it reaches {place}"
    return Stopped(claim.control, first, says)
