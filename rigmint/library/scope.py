"""What every builder needs: where faults go, and checks of names against what is declared."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, TypeVar

from rigmint.library.document import Document, Path
from rigmint.library.faults import FaultList, suggest
from rigmint.rig.choice import Choice, When
from rigmint.rig.connector import Connector, Protocol
from rigmint.words import AXES, FLOWS

K = TypeVar("K")
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Tokens:
    """What the catalogue declares by name."""

    connectors: Mapping[str, Connector]
    protocols: Mapping[str, Protocol]

    @property
    def carried(self) -> frozenset[str]:
        """Every axis and flow that exists: the fixed ones and those that a protocol declares."""
        return frozenset(AXES).union(FLOWS, *(protocol.carries for protocol in self.protocols.values()))

    @property
    def flows(self) -> frozenset[str]:
        """Every flow."""
        return self.carried - frozenset(AXES)


@dataclass(frozen=True, slots=True)
class Scope:
    """One document while it is built."""

    document: Document
    faults: FaultList
    tokens: Tokens

    def fault(self, path: Path, code: str, says: str) -> None:
        """Record a fault at a path, in the file that wrote it."""
        file, position = self.document.locate(path)
        self.faults.add(file, position, code, says)

    def knows(self, path: Path, word: str, known: Collection[str], what: str) -> bool:
        """Whether a name is declared; records `file:unknown-name` where it is not."""
        if word in known:
            return True
        self.fault(path, "file:unknown-name", f"there is no {what} `{word}`{suggest(word, known)}")
        return False

    def connector(self, path: Path, name: str) -> Connector | None:
        """The connector of a name."""
        if self.knows(path, name, self.tokens.connectors, "connector"):
            return self.tokens.connectors[name]
        return None

    def protocols(self, path: Path, names: Sequence[str | None]) -> tuple[str, ...]:
        """The names that are protocols; the others are recorded."""
        known = self.tokens.protocols
        return tuple(name for index, name in numbered(names) if self.knows((*path, index), name, known, "protocol"))


def freeze(mapping: Mapping[K, T]) -> Mapping[K, T]:
    """A read-only view."""
    return MappingProxyType(dict(mapping))


def numbered(entries: Sequence[T | None] | None) -> Iterator[tuple[int, T]]:
    """Index and entry of a decoded list, without the entries that the schema refused."""
    return ((index, entry) for index, entry in enumerate(entries or ()) if entry is not None)


def as_tuple(value: Any) -> tuple[str, ...]:
    """A single word or a list of words as a tuple; nothing as an empty one."""
    if value is None:
        return ()
    if isinstance(value, (list, tuple)):
        return tuple(str(item) for item in value if item is not None)
    return (str(value),)


def read_choice(value: Any) -> Choice:
    """A word, a list of words or `{setting: NAME}`."""
    if isinstance(value, Mapping):
        return Choice(setting=str(value["setting"]))
    return Choice(words=as_tuple(value))


def read_when(value: Mapping[str, Any] | None) -> When:
    """Setting to the values under which it holds."""
    return freeze({name: as_tuple(values) for name, values in (value or {}).items()})
