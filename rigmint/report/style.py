"""How a text looks: its width, and whether grade words are coloured."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.words import Grade

MAX_WIDTH = 100
MIN_WIDTH = 40
UNREAD = "unread"

_RESET = "\x1b[0m"
_COLOURS = {
    Grade.HURT: "\x1b[1;31m",
    Grade.BURN: "\x1b[1;31m",
    Grade.DEAD: "\x1b[31m",
    Grade.FIGHT: "\x1b[31m",
    Grade.THIN: "\x1b[33m",
    Grade.TIDY: "\x1b[36m",
    UNREAD: "\x1b[1;35m",
}


@dataclass(frozen=True, slots=True)
class Style:
    """Width in columns, whether to colour, and whether to draw with ASCII characters alone."""

    width: int = MAX_WIDTH
    colour: bool = False
    is_ascii: bool = True

    def paint(self, text: str, word: str) -> str:
        """`text` in the colour of a grade or of `unread`; as it is where there is to be no colour."""
        colour = _COLOURS.get(word)
        if not self.colour or colour is None or not text:
            return text
        return f"{colour}{text}{_RESET}"


def bound_width(columns: int) -> int:
    """The width to wrap at in a terminal of that many columns: never over 100, never so narrow that nothing fits."""
    return max(MIN_WIDTH, min(MAX_WIDTH, columns))
