"""Misses, false alarms and noise that are known and stay, each with its reason; the run prints them with their counts."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tests.seeding.run import Tried


@dataclass(frozen=True, slots=True)
class Remaining:
    """`what`: a harm that is missed, a code that is a false alarm, or `noise`; `kind` and `says`: the mistakes that it is
    about, by kind and by a pattern that stands in their words."""

    what: str
    kind: str
    says: str
    why: str


REMAINING: tuple[Remaining, ...] = (
    Remaining(
        what="picture",
        kind="a device left in the case",
        says=r"^cam\w* is left",
        why="a setup that leaves out every camera says itself that there is no picture; picture:nobody is silent there",
    ),
)


def find_reason(what: str, tried: Tried) -> Remaining | None:
    """Why a miss, a false alarm or noise stays; None where no reason is listed."""
    mutant = tried.mutant
    listed = [one for one in REMAINING if (one.what, one.kind) == (what, mutant.kind.name)]
    return next((one for one in listed if re.search(one.says, mutant.says)), None)
