"""Faults of files: what could not be read, where, in the format's words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches

from rigmint.rig.place import Position


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One fault of a file. `file` is a path as given, with `/`."""

    file: str
    line: int
    column: int
    code: str
    says: str


@dataclass(slots=True)
class FaultList:
    """Gathers the faults of one reading, each once."""

    found: list[Fault] = field(default_factory=list)

    def add(self, file: str, position: Position, code: str, says: str) -> None:
        """Record a fault, unless the same one is there already."""
        fault = Fault(file, position.line, position.column, code, says)
        if fault not in self.found:
            self.found.append(fault)

    def in_order(self) -> tuple[Fault, ...]:
        """All faults by file and position."""
        return tuple(sorted(self.found))


def suggest(word: str, known: Iterable[str]) -> str:
    """`: did you mean `X`?` for the nearest known name, or nothing."""
    near = find_nearest(word, known)
    return f": did you mean `{near}`?" if near else ""


def find_nearest(word: str, known: Iterable[str]) -> str | None:
    """The nearest known name, or None where none is near."""
    names = {name.casefold(): name for name in known}
    folded = word.casefold()
    if folded in names:
        return names[folded]
    near = get_close_matches(folded, names, n=1, cutoff=0.6)
    return names[near[0]] if near else None
