"""Judges who has one axis, for one set of claims that hold together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from rigmint.rig.device import SignalKind
from rigmint.study.hands import AxisHands, Claim
from rigmint.words import AUTOMATIC, NOBODY, TRIGGER_AXES

_STEPS_BACK = "never"


class Verdict(Enum):
    """What is wrong with an axis, as the problem of a code; worst first."""

    MIXED = "mixed"
    TWO = "two"
    UNINTENDED = "unintended"
    NOBODY = "nobody"
    FINE = "fine"

    @property
    def rank(self) -> int:
        """0 for the worst, rising to `fine`."""
        return list(Verdict).index(self)


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict, and the claims that nobody meant or that are one too many."""

    verdict: Verdict
    unwanted: tuple[Claim, ...]
    contenders: tuple[Claim, ...]


def judge_axis(axis: AxisHands, claims: Sequence[Claim]) -> Judgement:
    """The verdict on an axis under these claims."""
    name = axis.place.partition(".")[2]
    if name in TRIGGER_AXES:
        return _judge_trigger(axis, claims)
    acting = _list_acting(axis, claims)
    plain = tuple(claim for claim in acting if claim.takes_over is None)
    if len({claim.control for claim in plain}) > 1:
        kinds = {claim.arrives for claim in plain}
        is_mixed = {SignalKind.ABSOLUTE, SignalKind.RATE} <= kinds
        unwanted = tuple(claim for claim in plain if not is_meant(axis, claim))
        return Judgement(Verdict.MIXED if is_mixed else Verdict.TWO, unwanted, plain)
    wanted = [claim for claim in claims if is_meant(axis, claim)]
    # Where nobody is meant to have the axis, there is no hand for which an automatic control would step back.
    acting = tuple(claims) if NOBODY in axis.meant and not acting else acting
    unwanted = tuple(claim for claim in acting if not is_meant(axis, claim))
    if axis.meant and unwanted and not wanted:
        return Judgement(Verdict.UNINTENDED, unwanted, acting)
    return _judge_absence(axis, wanted, acting)


def is_meant(axis: AxisHands, claim: Claim) -> bool:
    """Whether the rig means this claim to be there; without a statement anybody is meant."""
    if not axis.meant:
        return True
    if AUTOMATIC in axis.meant and claim.automatic:
        return True
    return claim.person is not None and claim.person in axis.meant


def is_operated_remotely(axis: AxisHands, claims: Sequence[Claim]) -> bool:
    """Whether somebody who is meant to has the axis from another item than the one that moves it."""
    own = axis.place.partition(".")[0]
    return any(
        claim.arrives is not SignalKind.FOLLOW and claim.item != own and is_meant(axis, claim) for claim in claims
    )


def _list_acting(axis: AxisHands, claims: Sequence[Claim]) -> tuple[Claim, ...]:
    """The claims that would act at once: without those that step back, and without follow on an axis that has another
    hand: of a remote one the follow rules speak, and a head's own stick is built to work on top of it."""
    acting = tuple(claim for claim in claims if claim.takes_over != _STEPS_BACK)
    own = axis.place.partition(".")[0]
    has_own = any(claim.item == own and claim.arrives is not SignalKind.FOLLOW for claim in acting)
    if has_own or is_operated_remotely(axis, claims):
        return tuple(claim for claim in acting if claim.arrives is not SignalKind.FOLLOW)
    return acting


def _judge_trigger(axis: AxisHands, claims: Sequence[Claim]) -> Judgement:
    """Several hands on a trigger are normal; only that nobody has it counts."""
    wanted = [claim for claim in claims if is_meant(axis, claim)]
    return _judge_absence(axis, wanted, tuple(claims))


def _judge_absence(axis: AxisHands, wanted: Sequence[Claim], contenders: tuple[Claim, ...]) -> Judgement:
    is_due = bool(axis.meant) and NOBODY not in axis.meant
    if is_due and not wanted:
        return Judgement(Verdict.NOBODY, (), contenders)
    return Judgement(Verdict.FINE, (), contenders)
