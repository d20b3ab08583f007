"""Who holds an axis, as the matrix of `owners` shows it: the names, and a mark where they are not as meant."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from rigmint.study.hands import AxisHands, Claim
from rigmint.words import AUTOMATIC, NOBODY, TRIGGER_AXES, Grade

STEPS_BACK = "never"
"""`takes_over` of an automatic control that steps back for any other hand."""


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
    wanted = [person for person in axis.meant if person != NOBODY]
    return (
        (Mark.TWO, _has_two_hands(axis)),
        (Mark.NOBODY, not axis.certain and bool(wanted)),
        (Mark.OTHER, bool(axis.meant) and _has_other(axis, wanted)),
        (Mark.UNSTATED, any(not claim.is_certain for claim in axis.claims)),
    )


def _has_other(axis: AxisHands, wanted: list[str]) -> bool:
    """A trigger within reach of others, such as the button on the camera, is normal."""
    return not _is_trigger(axis) and any(not _is_meant(claim, wanted) for claim in axis.certain)


def _is_trigger(axis: AxisHands) -> bool:
    return axis.place.partition(".")[2] in TRIGGER_AXES


def _has_two_hands(axis: AxisHands) -> bool:
    """Controls count, not persons; one that takes over shares by agreement, and triggers may have several hands."""
    if _is_trigger(axis):
        return False
    acting = [claim for claim in axis.certain if not _steps_back(claim)]
    return len({claim.control for claim in acting if claim.takes_over in (None, STEPS_BACK)}) > 1


def _steps_back(claim: Claim) -> bool:
    return claim.automatic and claim.takes_over == STEPS_BACK


def _is_meant(claim: Claim, wanted: list[str]) -> bool:
    if claim.automatic:
        return AUTOMATIC in wanted or _steps_back(claim)
    return claim.person in wanted
