"""Positions in a file, kept beside the model, never in it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Position:
    """Line and column, both from 1."""

    line: int
    column: int


def setting_place(item: str, setting: str) -> str:
    """The place of a setting: `item.set.SETTING`."""
    return f"{item}.set.{setting}"


def end_place(label: str, end: str) -> str:
    """The place of a lead's end: `label:end`."""
    return f"{label}:{end}"
