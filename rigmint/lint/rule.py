"""A rule: what it looks for, why, how to put it right, from where it is known, and one function."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeAlias

from rigmint.lint.finding import Finding, Unknown
from rigmint.words import CODE_PATTERN, Grade

if TYPE_CHECKING:
    from rigmint.lint.case import Case

Check: TypeAlias = "Callable[[Case], Iterable[Finding | Unknown]]"


class BadRule(ValueError):
    """A rule whose declaration is not whole."""


@dataclass(frozen=True, slots=True)
class Parameter:
    """A figure of a rule that a library may set: a default in SI, the kind of quantity (None: a bare number)."""

    default: float
    kind: str | None
    says: str


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule. `grades`: worst first; the first is what the code is known for. Raises BadRule when not whole."""

    code: str
    grades: tuple[Grade, ...]
    title: str
    looks_for: str
    why: str
    put_right: str
    source: str
    check: Check
    parameters: Mapping[str, Parameter] = field(default_factory=dict)
    caution: str | None = None

    def __post_init__(self) -> None:
        """Refuse a declaration that `explain` could not print."""
        if CODE_PATTERN.fullmatch(self.code) is None:
            msg = f"`{self.code}` is no code: `family:problem` in plain lower-case words joined by `-`"
            raise BadRule(msg)
        empty = [
            name
            for name in ("title", "looks_for", "why", "put_right", "source")
            if not str(getattr(self, name)).strip()
        ]
        if empty or not self.grades:
            msg = f"{self.code} must state {', '.join(empty or ['grades'])}"
            raise BadRule(msg)
        if list(self.grades) != sorted(self.grades, key=lambda grade: grade.rank):
            msg = f"{self.code} must list its grades worst first"
            raise BadRule(msg)
        if Grade.HURT in self.grades and not self.caution:
            msg = f"{self.code} can concern injury: it must carry a caution"
            raise BadRule(msg)

    @property
    def family(self) -> str:
        """The first word of the code."""
        return self.code.partition(":")[0]
