"""How wide a text gets without a font engine, and how it is cut so that it keeps inside its room.

Widths are the larger of two common sans faces, so that any of the usual ones fits; letters outside ASCII are taken as
wide as the widest of their kind, and the SVG then states the length, so that no face can pass it.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from functools import lru_cache

from rigmint.report.safe import clean

_FIRST, _LAST = 32, 126
_PLAIN_TEXT = (
    "32 41 46 84 64 96 78 28 40 40 50 84 32 37 32 34 64 64 64 64 64 64 64 64 64 64 34 34 84 84 84 56 102 "
    "69 69 73 78 67 62 78 76 30 50 67 56 87 75 79 67 79 73 67 62 74 69 99 69 67 69 40 34 40 84 56 50 62 "
    "64 55 64 62 36 64 64 28 28 58 28 98 64 62 64 64 42 53 40 64 60 82 60 60 53 64 34 64 84"
)
_BOLD_TEXT = (
    "35 46 53 84 70 101 88 31 46 46 53 84 38 42 38 37 70 70 70 70 70 70 70 70 70 70 40 40 84 84 84 62 100 "
    "78 77 74 84 69 69 83 84 38 56 78 64 100 84 86 74 86 78 73 69 82 78 111 78 73 73 46 37 46 84 56 50 68 "
    "72 60 72 68 44 72 72 35 35 67 35 105 72 69 72 72 50 60 48 72 66 93 65 66 59 72 37 72 84"
)
_PLAIN = tuple(int(width) for width in _PLAIN_TEXT.split())
_BOLD = tuple(int(width) for width in _BOLD_TEXT.split())
"""Advance widths of the printing ASCII letters in hundredths of the size: DejaVu Sans and Liberation Sans, the larger
of both."""

_WIDE = {"W": 1.3, "F": 1.05}
_CAPITAL, _SMALL, _OTHER = 0.95, 0.8, 1.2
_MOST_MARKS = 2
"""Marks stacked on a letter: more would grow out of the line."""
ELLIPSIS = "…"


@lru_cache(maxsize=4096)
def measure(text: str, size: float, *, bold: bool = False) -> float:
    """A width that the text does not pass."""
    return sum(_measure_letter(letter, bold) for letter in text) * size


def is_plain(text: str) -> bool:
    """Whether every letter's width is known."""
    return all(_FIRST <= ord(letter) <= _LAST or letter == ELLIPSIS for letter in text)


def _measure_letter(letter: str, bold: bool) -> float:
    code = ord(letter)
    if _FIRST <= code <= _LAST:
        return (_BOLD if bold else _PLAIN)[code - _FIRST] / 100
    if letter == ELLIPSIS:
        return 1.0
    if unicodedata.combining(letter) or unicodedata.category(letter) == "Mn":
        return 0.0
    wide = _WIDE.get(unicodedata.east_asian_width(letter))
    if wide is not None:
        return wide
    category = unicodedata.category(letter)
    return _CAPITAL if category == "Lu" else _SMALL if category == "Ll" else _OTHER


def show_text(text: str) -> str:
    """The text as it is drawn: on one line, nothing hidden in it, nothing stacked out of it."""
    cleaned = " ".join(clean(" ".join(text.split())).split())
    return cleaned if cleaned.isascii() else "".join(_thin_marks(cleaned))


def _thin_marks(text: str) -> Iterator[str]:
    stacked = 0
    for letter in text:
        stacked = stacked + 1 if unicodedata.category(letter) in ("Mn", "Me") else 0
        if stacked <= _MOST_MARKS:
            yield letter


def cut(text: str, room: float, size: float, *, bold: bool = False) -> str:
    """The text, or as much of it as has room, ending in `…`."""
    shown = show_text(text)
    if measure(shown, size, bold=bold) <= room:
        return shown
    left = room - measure(ELLIPSIS, size, bold=bold)
    kept = 0
    for letter in shown:
        left -= _measure_letter(letter, bold) * size
        if left < 0:
            break
        kept += 1
    return shown[:kept].rstrip() + ELLIPSIS


def fold(text: str, room: float, size: float, *, most: int, bold: bool = False) -> list[str]:
    """Lines of the text, broken at spaces; a word that is too long and what is left after `most` lines are cut."""
    lines: list[str] = []
    words = show_text(text).split(" ")
    while words and words != [""]:
        line = words.pop(0)
        if len(lines) == most - 1:
            return [*lines, cut(" ".join([line, *words]), room, size, bold=bold)]
        while words and measure(f"{line} {words[0]}", size, bold=bold) <= room:
            line = f"{line} {words.pop(0)}"
        lines.append(cut(line, room, size, bold=bold))
    return lines
