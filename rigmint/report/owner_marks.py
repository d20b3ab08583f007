"""Who holds an axis, as the matrix of `owners` shows it: the names, and a mark where they are not as meant."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from rigmint.study.hands import AxisHands, Claim
from rigmint.study.verdict import Verdict, judge_axis
from rigmint.words import AUTOMATIC, NOBODY, Grade


class Mark(Enum):
    """What is not as meant: sign, words for the legend, the grade whose colour it has."""

    TWO = ("!!", "two hands on one axis", Grade.FIGHT)
    NOBODY = ("!", "nobody has it, and somebody is meant to", Grade.DEAD)
    OTHER = ("*", "somebody has it who is not meant to", Grade.FIGHT)
    UNSTATED = ("?", "a further hand if a setting that nobody stated is so; see below", Grade.THIN)

    @property
    def sign(self) -> str:
        """As shown after the names."""
        return self.value[0]

    @property
    def words(self) -> str:
        """As the legend says it."""
        return self.value[1]

    @property
    def grade(self) -> Grade:
        """Whose colour it has."""
        return self.value[2]


@dataclass(frozen=True, slots=True)
class Holding:
    """One cell of the matrix."""

    names: str
    marks: tuple[Mark, ...]


def describe_holding(axis: AxisHands) -> Holding:
    """Who holds an axis in a setup."""
    marks = [mark for mark, holds in _judge(axis) if holds]
    names = list(dict.fromkeys(name_hand(claim) for claim in axis.certain))
    return Holding(" + ".join(names) or _name_none(axis), tuple(marks))


def name_hand(claim: Claim) -> str:
    """The person; an automatic control as such; else by hand at the item."""
    if claim.automatic:
        return f"{AUTOMATIC} at {claim.item}"
    return claim.person or f"by hand at {claim.item}"


def _name_none(axis: AxisHands) -> str:
    return NOBODY if axis.meant else "-"


def _judge(axis: AxisHands) -> tuple[tuple[Mark, bool], ...]:
    """By the same verdict as the rules', on what rests on no unknown setting."""
    judgement = judge_axis(axis, axis.certain)
    return (
        (Mark.TWO, judgement.verdict in (Verdict.MIXED, Verdict.TWO)),
        (Mark.NOBODY, judgement.verdict is Verdict.NOBODY),
        (Mark.OTHER, judgement.verdict is Verdict.UNINTENDED or bool(judgement.unwanted)),
        (Mark.UNSTATED, any(not claim.is_certain for claim in axis.claims)),
    )
