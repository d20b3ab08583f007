"""A parsed file: plain values, and beside them where each stands and how a scalar was written."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from rigmint.rig.place import Position

Scalar: TypeAlias = str | int | float | bool | None
Value: TypeAlias = "Scalar | dict[str, Value] | list[Value]"
Path: TypeAlias = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Span:
    """Where a node's text lies: character offsets, end excluded, and the position of its start."""

    start: int
    end: int
    position: Position


@dataclass(slots=True)
class Marks:
    """Side tables of one file, by path."""

    keys: dict[Path, Span] = field(default_factory=dict)
    """The key of a mapping entry."""
    values: dict[Path, Span] = field(default_factory=dict)
    raw: dict[Path, str] = field(default_factory=dict)
    """Source text of plain scalars that are not text: `2.10`, `true`."""


@dataclass(frozen=True, slots=True)
class Document:
    """One file, or one entry of a file that lists several parts. `base` is what it starts from by `like:`; `text` is
    what was read, without a byte order mark."""

    file: str
    tree: Value
    marks: Marks
    prefix: Path = ()
    base: Document | None = None
    text: str = ""

    def owns(self, path: Path) -> bool:
        """Whether this very file writes the path."""
        full = self.prefix + path
        return full in self.marks.keys or full in self.marks.values

    def position(self, path: Path) -> Position:
        """Where a path stands in this file; the nearest thing that holds it where it is inherited or absent."""
        full = self.prefix + path
        while True:
            span = self.marks.keys.get(full) or self.marks.values.get(full)
            if span is not None:
                return span.position
            if not full:
                return Position(1, 1)
            full = full[:-1]

    def locate(self, path: Path) -> tuple[str, Position]:
        """File and position of a path, in the file that wrote it: this one, or what it starts from. Where neither
        did, of the nearest thing that holds it."""
        while path and not self.has(path):
            path = path[:-1]
        if self.base is None or self.owns(path):
            return self.file, self.position(path)
        return self.base.locate(path)

    def has(self, path: Path) -> bool:
        """Whether this file or what it starts from writes the path."""
        return self.owns(path) or (self.base is not None and self.base.has(path))

    def raw(self, path: Path, value: Value) -> str:
        """The source text of a scalar."""
        if isinstance(value, str):
            return value
        text = self.marks.raw.get(self.prefix + path)
        if text is None and self.base is not None:
            return self.base.raw(path, value)
        return text if text is not None else str(value)

    def as_mapping(self) -> Mapping[str, Value]:
        """The tree as a mapping; an empty one where it is something else."""
        return self.tree if isinstance(self.tree, dict) else {}
