"""What a rule reports."""

from __future__ import annotations

from dataclasses import dataclass, field

from rigmint.lint.changes import Change
from rigmint.words import Grade


@dataclass(frozen=True, slots=True)
class Measured:
    """A value against its limit, both in the SI unit named. `low_is_bad`: whether less is worse, for a rule that speaks
    before the limit is reached; None: the side of the limit on which the value lies is the bad one."""

    value: float
    limit: float | tuple[float, float] | None
    unit: str
    low_is_bad: bool | None = None

    @property
    def gets_worse_downwards(self) -> bool:
        """Whether a smaller value would be worse."""
        if self.low_is_bad is not None:
            return self.low_is_bad
        if self.limit is None:
            return False
        low, high = self.limit if isinstance(self.limit, tuple) else (self.limit, self.limit)
        return self.value < (low + high) / 2

    @property
    def excess(self) -> float:
        """How far the value lies beyond its limit, as a share of it: the larger, the worse. Below 0 before the limit
        is reached."""
        if self.limit is None:
            return 0.0
        low, high = self.limit if isinstance(self.limit, tuple) else (self.limit, self.limit)
        distance = low - self.value if self.gets_worse_downwards else self.value - high
        return distance / max(abs(high), 1e-9)


@dataclass(frozen=True, slots=True)
class Fix:
    """A remedy in words, and where it is an edit of the rig file, the changes that make it."""

    says: str
    changes: tuple[Change, ...] = ()


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault of a rig in one setup.

    `at` is where it shows, `cause` what the rig file would change; both are places. `also` are further victims of the
    same cause, `path` the chain from a source or a control. `assumed` names the figures without a statement on which
    it rests. `island` is the number of the island on which it is, by which findings about the circuit know each other.
    """

    code: str
    grade: Grade
    says: str
    at: str
    cause: str
    also: tuple[str, ...] = ()
    path: tuple[str, ...] = ()
    measured: Measured | None = None
    assumed: tuple[str, ...] = ()
    fixes: tuple[Fix, ...] = field(default=())
    island: int | None = None


@dataclass(frozen=True, slots=True)
class Unknown:
    """What a rule could not judge, and the figure that it needs."""

    code: str
    needs: str
    at: str
    says: str


@dataclass(frozen=True, slots=True)
class MergedFinding:
    """A finding and the setups in which it holds, in the rig's order."""

    finding: Finding
    setups: tuple[str, ...]
