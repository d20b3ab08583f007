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
    Remaining(
        what="no-return",
        kind="break a minus conductor",
        says=r"^P3: a\.1 to b\.1",
        why="the way back is the ground of a lead that joins data only, in ports that can feed: it counts as a return, since"
        " a return by signal is told by the port and not by the lead in it",
    ),
)


def find_reason(what: str, tried: Tried) -> Remaining | None:
    """Why a miss, a false alarm or noise stays; None where no reason is listed."""
    mutant = tried.mutant
    listed = [one for one in REMAINING if (one.what, one.kind) == (what, mutant.kind.name)]
    return next((one for one in listed if re.search(one.says, mutant.says)), None)
