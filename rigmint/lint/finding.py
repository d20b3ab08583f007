"""What a rule reports."""

from __future__ import annotations

from dataclasses import dataclass, field

from rigmint.lint.changes import Change
from rigmint.words import Grade


@dataclass(frozen=True, slots=True)
class Measured:
    """A value against its limit, both in the SI unit named."""

    value: float
    limit: float | tuple[float, float] | None
    unit: str

    @property
    def excess(self) -> float:
        """How far the value lies from its limit, as a share of it: the larger, the worse."""
        if self.limit is None:
            return 0.0
        ends = self.limit if isinstance(self.limit, tuple) else (self.limit,)
        distance = min(abs(self.value - end) for end in ends)
        return distance / max(abs(ends[-1]), 1e-9)


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
