"""How long a result holds: until a file changes or, where somebody signed for a finding until a day, that day."""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from dataclasses import dataclass

from rigmint.library.faults import Fault
from rigmint.rig.rig import Acceptance

_PASSING = frozenset(
    {"file:unreadable", "file:too-big", "file:no-library", "rule:crashed", "study:failed", "library:unsaid"}
)
"""Faults that may be gone though nothing that was read has changed: a file that is there again, memory that is free."""


@dataclass(frozen=True, slots=True)
class Days:
    """The days, as ISO dates, on which acceptances stand as they do today: after the one, up to the other."""

    after: str | None = None
    until: str | None = None

    def meet(self, other: Days) -> Days:
        """The days that both hold."""
        after = max((one for one in (self.after, other.after) if one is not None), default=None)
        until = min((one for one in (self.until, other.until) if one is not None), default=None)
        return Days(after, until)

    def hold(self, today: str) -> bool:
        """Whether a day is one of them."""
        return (self.after is None or self.after < today) and (self.until is None or today <= self.until)


ALL_DAYS = Days()


def find_days(entries: Iterable[Acceptance], today: datetime.date) -> Days:
    """The days until the first of the entries runs out, and since the last one did."""
    ends = [datetime.date.fromisoformat(entry.until) for entry in entries if entry.until is not None]
    after = max((end for end in ends if end < today), default=None)
    until = min((end for end in ends if end >= today), default=None)
    return Days(after.isoformat() if after else None, until.isoformat() if until else None)


def is_lasting(faults: Iterable[Fault], schemas: Iterable[str] = ()) -> bool:
    """Whether faults lie in what was read and nowhere else. `schemas`: the house's, as reports show them: what is held
    against one of them while a rig is checked is that it took too long."""
    doubtful = set(schemas)
    return not any(
        fault.code in _PASSING or fault.code.startswith("pack:") or fault.file in doubtful for fault in faults
    )
