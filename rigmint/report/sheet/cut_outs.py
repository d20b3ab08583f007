"""Lead labels on the sheet, to cut out."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CutOut:
    """One end of a lead: two lines, and the colour of its tape as a word."""

    first: str
    second: str
    tape: str
