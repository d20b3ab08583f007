"""What stands below a drawing: what its strokes and shapes mean, the findings by number, sentences."""

from __future__ import annotations

from collections.abc import Callable

from rigmint.report.draw.elements import element, group, path, write
from rigmint.report.draw.marks import draw_mark
from rigmint.report.draw.model import LineKind, Mark, Note, Sketch
from rigmint.report.draw.style import STROKES
from rigmint.report.draw.text import fold, measure
from rigmint.words import Grade

_SIZE = 11.5
_STEP = 17.0
_MOST_LINES = 6
_Draw = Callable[[float, float], str]
"""Draws a sample at (left, middle), 30 wide."""


def draw_foot(sketch: Sketch, x: float, y: float, width: float) -> tuple[list[str], float]:
    """The foot from (x, y) on, and where it ends."""
    parts, y = _draw_legend(sketch, x, y, width)
    for note in sketch.notes:
        drawn, y = _draw_note(note, sketch, x, y, width)
        parts += drawn
    for remark in sketch.remarks:
        for line in fold(remark, width, _SIZE, most=_MOST_LINES):
            parts.append(write(line, x, y + 12, _SIZE, "rd-note"))
            y += _STEP
    return parts, y


def _draw_note(note: Note, sketch: Sketch, x: float, y: float, width: float) -> tuple[list[str], float]:
    head = f"{note.mark.grade.value}  {note.code}"
    if len(note.setups) < len(sketch.setups):
        head += f"  (in {', '.join(note.setups)})"
    head = fold(head, width - 24, _SIZE, most=1, bold=True)[0]
    parts = [
        draw_mark(note.mark, x + 8, y + 9),
        write(head, x + 22, y + 13, _SIZE, "rd-note rd-strong", bold=True),
    ]
    y += _STEP
    for line in fold(note.mark.says, width - 24, _SIZE, most=_MOST_LINES):
        parts.append(write(line, x + 22, y + 11, _SIZE, "rd-note"))
        y += _STEP - 2
    return [group(parts, class_="rd-finding", data_finding=str(note.mark.number))], y + 3


def _draw_legend(sketch: Sketch, x: float, y: float, width: float) -> tuple[list[str], float]:
    styles = {line.style for line in sketch.lines}
    entries: list[tuple[_Draw, str]] = [
        (_draw_sample(name), stroke.says) for name, stroke in STROKES.items() if name in styles
    ]
    if any(line.kind is LineKind.LEAD for line in sketch.lines):
        entries.append((_draw_arrow, "flag points where it goes"))
    shapes = {terminal.shape.value for box in sketch.boxes for terminal in box.terminals}
    entries += [(_draw_nub(name), name) for name in ("socket", "plug") if name in shapes]
    grades = {note.mark.grade for note in sketch.notes}
    entries += [(_draw_grade(grade), f"{grade.value}: {grade.meaning}") for grade in Grade if grade in grades]
    parts: list[str] = []
    across = x
    for draw, says in entries:
        room = 40 + measure(says, _SIZE) + 18
        if across > x and across + room > x + width:
            across, y = x, y + _STEP
        parts.append(draw(across, y + 8))
        parts.append(write(says, across + 38, y + 12, _SIZE, "rd-note"))
        across += room
    return [group(parts, class_="rd-legend")], y + _STEP + 6 if entries else y


def _draw_sample(style: str) -> _Draw:
    def draw(x: float, y: float) -> str:
        way = path([(x, y), (x + 30, y)])
        parts = [element("path", d=way, class_="rd-ink")]
        if STROKES[style].core:
            parts.append(element("path", d=way, class_="rd-core"))
        return group(parts, class_=f"rd-line rd-{style}")

    return draw


def _draw_arrow(x: float, y: float) -> str:
    points = f"{x:g},{y - 6:g} {x + 22:g},{y - 6:g} {x + 28:g},{y:g} {x + 22:g},{y + 6:g} {x:g},{y + 6:g}"
    return element("polygon", points=points, class_="rd-flag")


def _draw_nub(shape: str) -> _Draw:
    def draw(x: float, y: float) -> str:
        nub = element("rect", x=x + 18, y=y - 6, width=7.0, height=12.0, class_="rd-nub")
        return group([nub], class_=f"rd-port rd-{shape}")

    return draw


def _draw_grade(grade: Grade) -> _Draw:
    def draw(x: float, y: float) -> str:
        return draw_mark(Mark(0, grade, grade.meaning), x + 20, y)

    return draw
