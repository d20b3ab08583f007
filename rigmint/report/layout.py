"""Lines of text: wrapped sentences, chains, a head line with its place on the right, lists cut short."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from rigmint.report.safe import clean

INDENT = 7
PLACE_COLUMN = 53
_GAP = 3


def wrap(text: str, width: int, indent: int = 0, hanging: int | None = None) -> list[str]:
    """Lines of one paragraph, cleaned; `hanging` indents all lines but the first. Names are never broken."""
    return textwrap.wrap(
        clean(text),
        width=width,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent if hanging is None else hanging),
        break_long_words=False,
        break_on_hyphens=False,
    )


def wrap_paragraphs(text: str, width: int, indent: int) -> list[str]:
    """Lines of a text of several paragraphs; a paragraph that is itself indented, an example, stays as written."""
    lines: list[str] = []
    for paragraph in text.strip("\n").split("\n\n"):
        if lines:
            lines.append("")
        written = paragraph.split("\n")
        if written[0].startswith("  "):
            lines += [(" " * indent + clean(line)).rstrip() for line in written]
        else:
            lines += wrap(" ".join(written), width, indent)
    return lines


def wrap_chain(places: Sequence[str], width: int, indent: int) -> list[str]:
    """A path as `a > b > c`, broken before an arrow."""
    lines: list[str] = []
    line = ""
    for place in places:
        name = clean(place)
        longer = f"{line} > {name}" if line else " " * indent + name
        if line and len(longer) > width:
            lines.append(line)
            longer = f"{' ' * (indent + 2)}> {name}"
        line = longer
    return [*lines, line] if line else []


def lay_head(left: str, place: str, width: int, indent: int) -> list[str]:
    """`left` and, in a column of its own, `place`; the place goes below where both do not fit on a line."""
    if not place:
        return [left]
    shown = clean(place)
    column = min(PLACE_COLUMN, width - len(shown))
    if column < len(left) + _GAP:
        return [left, *wrap(place, width, indent)]
    return [f"{left:<{column}}{shown}"]


def count(number: int, noun: str) -> str:
    """`1 lead`, `2 leads`."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def show_tenths(value: float) -> str:
    """To one decimal, without a minus before zero."""
    return f"{round(value, 1) + 0.0:.1f}"


def list_some(words: Sequence[str], most: int) -> str:
    """`a, b, c`, or the first `most` and how many more."""
    if len(words) <= most:
        return ", ".join(words)
    return f"{', '.join(words[:most])} and {len(words) - most} more"
