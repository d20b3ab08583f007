"""Misses, false alarms and noise that are known and stay, each with its reason; the run prints them with their counts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tests.seeding.run import Tried


@dataclass(frozen=True, slots=True)
class Remaining:
    """`what`: a harm that is missed, a code that is a false alarm, or `noise`; `kind`: the mistakes that it is about."""

    what: str
    kind: str
    why: str


REMAINING: tuple[Remaining, ...] = ()


def find_reason(what: str, tried: Tried) -> Remaining | None:
    """Why a miss, a false alarm or noise stays; None where no reason is listed."""
    return next((one for one in REMAINING if (one.what, one.kind) == (what, tried.mutant.kind.name)), None)
