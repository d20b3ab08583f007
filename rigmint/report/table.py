"""A plain table of wrapped cells: no rules, no boxes, and several tables one below the other where one is too wide."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigmint.report.layout import wrap
from rigmint.report.safe import clean
from rigmint.report.style import Style

_GAP = "  "
_NARROWEST = 14


@dataclass(frozen=True, slots=True)
class Cell:
    """Text, and the grade word whose colour it has."""

    text: str
    word: str = ""


def lay_table(heads: Sequence[Cell], rows: Sequence[Sequence[Cell]], style: Style) -> list[str]:
    """Lines of the table. The first column is repeated wherever the others do not fit beside each other."""
    first = _widest([heads[0], *(row[0] for row in rows)])
    room = style.width - first
    words = [word for row in (heads, *rows) for cell in row[1:] for word in clean(cell.text).split()]
    narrowest = max(_NARROWEST, *(len(word) for word in words))
    most = max(1, room // (narrowest + len(_GAP)))
    lines: list[str] = []
    for start in range(1, max(len(heads), 2), most):
        columns = [0, *range(start, min(start + most, len(heads)))]
        shown = [[row[column] for column in columns] for row in (heads, *rows)]
        lines += [""] if lines else []
        lines += _lay_columns(shown, first, room, style)
    return lines


def _lay_columns(rows: Sequence[Sequence[Cell]], first: int, room: int, style: Style) -> list[str]:
    others = len(rows[0]) - 1
    widest = [_widest([row[column] for row in rows]) for column in range(1, others + 1)]
    share = max(1, room // others - len(_GAP)) if others else 0
    fits = sum(widest) + others * len(_GAP) <= room
    widths = [first, *(width if fits else min(width, share) for width in widest)]
    lines = []
    for row in rows:
        cells = [wrap(cell.text, width) or [""] for cell, width in zip(row, widths, strict=True)]
        for index in range(max(len(cell) for cell in cells)):
            parts = [
                _pad(lines_of[index] if index < len(lines_of) else "", width, cell.word, style)
                for lines_of, width, cell in zip(cells, widths, row, strict=True)
            ]
            lines.append(_GAP.join(parts).rstrip())
    return lines


def _pad(text: str, width: int, word: str, style: Style) -> str:
    return style.paint(text, word) + " " * (width - len(text))


def _widest(cells: Sequence[Cell]) -> int:
    return max(len(clean(cell.text)) for cell in cells)
