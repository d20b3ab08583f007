"""The project's shared vocabulary: grades, axes, flows and the names that other modules agree on."""

from __future__ import annotations

import re
from enum import StrEnum


class Grade(StrEnum):
    """How bad a finding is, worst first."""

    HURT = "hurt"
    BURN = "burn"
    DEAD = "dead"
    FIGHT = "fight"
    THIN = "thin"
    TIDY = "tidy"

    @property
    def rank(self) -> int:
        """0 for the worst grade, rising towards the mildest."""
        return _RANKS[self]

    def is_at_least(self, other: Grade) -> bool:
        """Whether this grade is as bad as `other`, or worse."""
        return self.rank <= other.rank

    @property
    def meaning(self) -> str:
        """The grade in words."""
        return _MEANINGS[self]


_RANKS = {grade: rank for rank, grade in enumerate(Grade)}
_MEANINGS = {
    Grade.HURT: "somebody can be injured",
    Grade.BURN: "a device can be destroyed",
    Grade.DEAD: "something needed will not work",
    Grade.FIGHT: "two inputs act on one axis, or the wrong person holds it",
    Grade.THIN: "it works, with too little margin, or one slip away from worse",
    Grade.TIDY: "housekeeping",
}

CODE_PATTERN = re.compile(r"[a-z]+(-[a-z]+)*:[a-z]+(-[a-z]+)*")

LENS_AXES = ("focus", "iris", "zoom")
HEAD_AXES = ("pan", "tilt", "roll")
TRIGGER_AXES = ("record", "mode", "stop")
AXES = (*LENS_AXES, *HEAD_AXES, *TRIGGER_AXES)
FLOWS = ("picture", "range", "timecode", "sync", "tally")

NOBODY = "nobody"
AUTOMATIC = "automatic"

CAUTIONS = (
    "No fault found is no proof: meter the polarity and voltage of each power lead before it is first plugged in.",
    "Follow the makers' manuals. Lithium batteries, overhead and vehicle rigs, moving heads and radio"
    " transmitters fall under local codes and qualified people.",
)
