"""A value before and after a change, in the setups in which it moved so."""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import dataclass
from typing import Generic, TypeVar

Key = TypeVar("Key", bound=Hashable)
Value = TypeVar("Value", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Moved(Generic[Key, Value]):
    """What it is about, its value before and after (None: it is not there), and the setups that agree in both."""

    key: Key
    before: Value | None
    after: Value | None
    setups: tuple[str, ...]


def gather_setups(found: Iterable[tuple[str, Key, Value | None, Value | None]]) -> tuple[Moved[Key, Value], ...]:
    """One record for all setups in which a key moves from one value to one other, in the order of first sight."""
    groups: dict[tuple[Key, Value | None, Value | None], list[str]] = {}
    for setup, key, before, after in found:
        groups.setdefault((key, before, after), []).append(setup)
    return tuple(Moved(*group, tuple(setups)) for group, setups in groups.items())
