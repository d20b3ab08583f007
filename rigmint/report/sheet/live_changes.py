"""Live change on the sheet: what comes off and goes on in which order, and what to check after."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ChangeBox:
    """One device: the order in which its leads come off and go on, why, and what to check after."""

    item: str
    setups: tuple[str, ...]
    off: tuple[str, ...]
    on: tuple[str, ...]
    why: tuple[str, ...]
    after: tuple[str, ...]
