"""Judges who has one axis, for one set of claims that hold together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import product

from rigmint import AUTOMATIC, NOBODY, TRIGGER_AXES, AxisHands, Case, Claim, SignalKind

_STEPS_BACK = "never"
_MOST_COMBINATIONS = 4096


class Verdict(Enum):
    """What is wrong with an axis, as the problem of a code."""

    FINE = "fine"
    MIXED = "mixed"
    TWO = "two"
    UNINTENDED = "unintended"
    NOBODY = "nobody"


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict, and the claims that nobody meant or that are one too many."""

    verdict: Verdict
    unwanted: tuple[Claim, ...]
    contenders: tuple[Claim, ...]


def judge_axis(axis: AxisHands, claims: Sequence[Claim]) -> Judgement:
    """The verdict on an axis under these claims."""
    name = axis.place.partition(".")[2]
    if name in TRIGGER_AXES or name == "stop":
        return _judge_trigger(axis, claims)
    contenders = _contend(axis, claims)
    controls = {claim.control for claim in contenders}
    unwanted = tuple(claim for claim in contenders if not is_meant(axis, claim))
    if len(controls) > 1:
        kinds = {claim.arrives for claim in contenders}
        is_mixed = {SignalKind.ABSOLUTE, SignalKind.RATE} <= kinds
        return Judgement(Verdict.MIXED if is_mixed else Verdict.TWO, unwanted, contenders)
    wanted = [claim for claim in claims if is_meant(axis, claim)]
    if axis.meant and unwanted and not wanted:
        return Judgement(Verdict.UNINTENDED, unwanted, contenders)
    return _judge_absence(axis, wanted, contenders)


def list_combinations(case: Case, claims: Sequence[Claim]) -> Iterator[dict[tuple[str, str], str]]:
    """Every combination of the unknown settings on which claims rest; one that is empty where they rest on none."""
    keys = sorted({key for claim in claims for key in claim.assumes})
    domains = [case.rig.items[item].part.settings[name].values for item, name in keys]
    size = 1
    for domain in domains:
        size *= len(domain)
    if size > _MOST_COMBINATIONS:
        return
    for values in product(*domains):
        yield dict(zip(keys, values, strict=True))


def hold_under(claims: Sequence[Claim], values: Mapping[tuple[str, str], str]) -> list[Claim]:
    """The claims that stand when unknown settings have these values."""
    return [claim for claim in claims if claim.assumes.items() <= values.items()]


def judge_everywhere(case: Case, axis: AxisHands) -> list[tuple[dict[tuple[str, str], str], Judgement]]:
    """The judgement under each combination of unknown settings."""
    return [
        (values, judge_axis(axis, hold_under(axis.claims, values))) for values in list_combinations(case, axis.claims)
    ]


def find_certain(case: Case, verdict: Verdict) -> Iterator[tuple[AxisHands, Judgement]]:
    """The axes on which a verdict holds whatever the unknown settings are."""
    for axis in case.hands.axes.values():
        judged = judge_everywhere(case, axis)
        if judged and all(judgement.verdict is verdict for _, judgement in judged):
            yield axis, judged[0][1]


def is_meant(axis: AxisHands, claim: Claim) -> bool:
    """Whether the rig means this claim to be there; without a statement anybody is meant."""
    if not axis.meant:
        return True
    if AUTOMATIC in axis.meant and claim.automatic:
        return True
    return claim.person is not None and claim.person in axis.meant


def _contend(axis: AxisHands, claims: Sequence[Claim]) -> tuple[Claim, ...]:
    """The claims that would act at once: without those that step back, those that take over by agreement, and follow
    on an axis that somebody operates remotely, of which the follow rules speak."""
    acting = [claim for claim in claims if claim.takes_over != _STEPS_BACK]
    if is_operated_remotely(axis, claims):
        acting = [claim for claim in acting if claim.arrives is not SignalKind.FOLLOW]
    sharing = [claim for claim in acting if claim.takes_over is not None]
    plain = [claim for claim in acting if claim.takes_over is None]
    return tuple(plain) if sharing and plain else tuple(acting)


def is_operated_remotely(axis: AxisHands, claims: Sequence[Claim]) -> bool:
    """Whether somebody who is meant to has the axis from another item than the one that moves it."""
    own = axis.place.partition(".")[0]
    return any(
        claim.arrives is not SignalKind.FOLLOW and claim.item != own and is_meant(axis, claim) for claim in claims
    )


def _judge_trigger(axis: AxisHands, claims: Sequence[Claim]) -> Judgement:
    """Several hands on a trigger are normal; only that nobody has it counts."""
    wanted = [claim for claim in claims if is_meant(axis, claim)]
    return _judge_absence(axis, wanted, tuple(claims))


def _judge_absence(axis: AxisHands, wanted: Sequence[Claim], contenders: tuple[Claim, ...]) -> Judgement:
    is_due = bool(axis.meant) and NOBODY not in axis.meant
    if is_due and not wanted:
        return Judgement(Verdict.NOBODY, (), contenders)
    return Judgement(Verdict.FINE, (), contenders)
