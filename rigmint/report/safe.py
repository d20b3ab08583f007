"""Makes text that users wrote harmless to a terminal: nothing hidden, nothing that moves the cursor or the eye."""

from __future__ import annotations

import unicodedata

_HARMFUL = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
"""Unicode categories: controls, format marks (bidirectional ones among them), surrogates, private and unassigned
characters, line and paragraph separators."""


def clean(text: str) -> str:
    """The text on one line, with each character that does not print shown as its escape, such as `\\x1b`."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(_show(character) for character in text)


def clean_lines(text: str) -> str:
    """The text with its own lines, each made harmless."""
    return "\n".join(clean(line) for line in text.split("\n"))


def _show(character: str) -> str:
    if unicodedata.category(character) not in _HARMFUL:
        return character
    return character.encode("unicode_escape").decode("ascii")
