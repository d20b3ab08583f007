"""If this fails: one line a lead, source or link."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FailureRow:
    """What fails, what goes with it, what stays, and the place that lights up."""

    what: str
    goes: str
    stays: str
    lights: str


@dataclass(frozen=True, slots=True)
class Failures:
    """One setup."""

    setup: str
    rows: tuple[FailureRow, ...]
