"""What a part leaves to a setting: axes, formats, slots, and the conditions under which something is live."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

When = Mapping[str, tuple[str, ...]]
"""Setting to the values under which a condition holds; all settings must agree."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A fixed list of words, or the one that a setting holds (whose value `none` means none)."""

    words: tuple[str, ...] = ()
    setting: str | None = None

    def resolve(self, value: str | None) -> tuple[str, ...]:
        """The words that hold when the setting has `value`."""
        if self.setting is None:
            return self.words
        return () if value is None or value == "none" else (value,)
