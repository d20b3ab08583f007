"""What a check of part files is given, and what it gives back."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from rigmint.library.document import Path, Value
from rigmint.library.scope import Tokens
from rigmint.rig.connector import Protocol
from rigmint.rig.part import Part
from rigmint.words import Grade


@dataclass(frozen=True, slots=True)
class Hint:
    """One thing that is hardly meant so. `at`: the port, rail or the like, empty for the part itself; `path`: the key
    at which a file would change it; `write`: what to write there. `grade`: None takes the code's own."""

    code: str
    says: str
    write: str
    path: Path
    at: str = ""
    grade: Grade | None = None


@dataclass(frozen=True, slots=True)
class PartView:
    """A part, and its file's tree after `like:`, which tells what is stated from what is assumed."""

    part: Part
    tree: Value
    tokens: Tokens

    def states(self, *path: str | int) -> bool:
        """Whether the file, or what it starts from, writes a key."""
        return self.find(*path) is not None

    def find(self, *path: str | int) -> Value:
        """The value of a key as written; None where it is not there."""
        value = self.tree
        for key in path:
            if isinstance(value, dict) and isinstance(key, str):
                value = value.get(key)
            elif isinstance(value, list) and isinstance(key, int) and key < len(value):
                value = value[key]
            else:
                return None
        return value

    def protocol(self, name: str) -> Protocol:
        """A protocol of the catalogue."""
        return self.tokens.protocols[name]

    def carried_by(self, names: tuple[str, ...]) -> frozenset[str]:
        """The axes and flows that protocols carry."""
        return frozenset[str]().union(*(self.tokens.protocols[name].carries for name in names))

    def protocols_of(self) -> Mapping[str, tuple[str, ...]]:
        """What each port and each radio of the part speaks."""
        part = self.part
        return {name: port.speaks for name, port in part.ports.items()} | {
            name: radio.speaks for name, radio in part.radios.items()
        }


PartCheck: TypeAlias = Callable[[PartView], Iterator[Hint]]
