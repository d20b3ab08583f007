"""How large everything is drawn, in units of the drawing (at A4 landscape about 0.6 pt a unit)."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from rigmint.report.draw.model import Box, Flag, Mark, Terminal
from rigmint.report.draw.text import measure

TITLE, SMALL, PORT, LABEL, FIGURE, ROW = 14.0, 10.5, 11.5, 13.0, 12.0, 10.5
"""Sizes of type: a box's title, the lines under it, a port, a flag's label, its figure, its rows."""

MOST_TITLE, MOST_SMALL, MOST_PORT, MOST_FIGURE, MOST_ROW = 140.0, 122.0, 96.0, 104.0, 88.0
"""How wide each gets before it is cut."""

PAD = 7.0
NUB = 7.0
"""How far a port stands out of its box."""
MARK = 15.0
"""Side of a mark, its gap included."""
FLAG_HEAD, FLAG_ROW, FLAG_TIP = 17.0, 12.0, 6.0
"""Height of a flag's first line and of each further one; how far it is pointed."""
FLAG_GAP = 5.0
"""Between a port's nub and its flag."""
JOINT_GAP = 8.0
"""Between the flags of two lines on one side of a box."""
SMALLEST_JOINT = 20.0
LANE_GAP = 10.0
"""Between two lanes, and between a lane and a box."""
BOX_GAP = 13.0
BAND_PAD = 13.0
BAND_ROOM = 74.0
"""At the left, for the words that name a band."""
SMALLEST_BAND = 52.0
GUTTER_PAD = 10.0
MARGIN = 18.0

MOST_MARKS = 3
MOST_LINES = 150
"""Beyond it a drawing is no longer polished, since that takes the square of the number of lines: no sheet holds it."""


def measure_marks(marks: Sequence[Mark]) -> float:
    """Width of the marks of one element, a further `+` included."""
    return MARK * (min(len(marks), MOST_MARKS) + (0.6 if len(marks) > MOST_MARKS else 0.0))


@lru_cache(maxsize=1024)
def measure_flag(flag: Flag) -> tuple[float, float]:
    """Width and height of a flag, its tip included."""
    head = measure(flag.label, LABEL, bold=True) + 2 * 4
    if flag.figure:
        head += min(measure(flag.figure, FIGURE, bold=True), MOST_FIGURE) + 2 * 4
    head += measure_marks(flag.marks) + (2 if flag.marks else 0)
    rows = max((measure(row, ROW) + 2 * 4 for row in flag.rows), default=0.0)
    return max(head, rows) + FLAG_TIP, FLAG_HEAD + (FLAG_ROW * len(flag.rows) + 2 if flag.rows else 0.0)


def measure_joint(flag: Flag | None) -> float:
    """Height that the end of a line takes on the side of a box."""
    return max(SMALLEST_JOINT, (measure_flag(flag)[1] if flag is not None else 0.0) + JOINT_GAP)


def measure_terminal(terminal: Terminal) -> float:
    """Width of a port's name with its tape and marks."""
    name = measure(terminal.says, PORT)
    tape = measure(terminal.tape, SMALL) + 6 if terminal.tape else 0.0
    return name + tape + measure_marks(terminal.marks)


def measure_head(box: Box) -> tuple[float, float]:
    """Width and height of a box's title with the lines under it."""
    title = measure(box.title, TITLE, bold=True) + measure_marks(box.marks)
    width = max([title, *(measure(line, SMALL) for line in box.lines)])
    return width + 2 * PAD, 6 + TITLE * 1.15 + (SMALL * 1.2) * len(box.lines) + 3
