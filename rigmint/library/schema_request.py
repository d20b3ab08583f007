"""What passes between rigmint and the process that checks a house's schemas: JSON, a line each way."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from rigmint.library.document import Path


@dataclass(frozen=True, slots=True)
class SchemaFault:
    """What makes a schema useless: at a place in it, or, where it is no JSON, at a line."""

    code: str
    says: str
    path: Path = ()
    line: int | None = None
    column: int = 1

    def as_json(self) -> dict[str, Any]:
        """A mapping for JSON."""
        return asdict(self)

    @classmethod
    def from_json(cls, value: dict[str, Any]) -> SchemaFault:
        """The fault again."""
        return cls(**{**value, "path": tuple(value["path"])})
