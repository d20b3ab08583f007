"""Marks of findings: a shape for each grade, with the finding's number."""

from __future__ import annotations

import math
from collections.abc import Sequence

from rigmint.report.draw.elements import element, group, number, write
from rigmint.report.draw.model import Mark
from rigmint.report.draw.sizes import MARK, MOST_MARKS
from rigmint.words import Grade

_CORNERS = {Grade.HURT: 8, Grade.BURN: 3, Grade.DEAD: 4, Grade.FIGHT: 4, Grade.THIN: 0, Grade.TIDY: 0}
_TURN = {Grade.HURT: math.pi / 8, Grade.BURN: -math.pi / 2, Grade.DEAD: math.pi / 4, Grade.FIGHT: 0.0}
_RADIUS = {Grade.HURT: 7.2, Grade.BURN: 8.2, Grade.DEAD: 8.6, Grade.FIGHT: 7.6, Grade.THIN: 6.2, Grade.TIDY: 5.6}
_DROP = {Grade.BURN: 1.8}
"""A triangle's number sits lower."""


def draw_marks(marks: Sequence[Mark], x: float, y: float) -> list[str]:
    """The marks of an element side by side from `x` on, their middles at `y`; `+` for more than there is room for."""
    parts = [draw_mark(mark, x + MARK * index + MARK / 2, y) for index, mark in enumerate(marks[:MOST_MARKS])]
    if len(marks) > MOST_MARKS:
        parts.append(write("+", x + MARK * MOST_MARKS, y + 4, 11.5, "rd-note rd-strong", bold=True))
    return parts


def draw_mark(mark: Mark, x: float, y: float) -> str:
    """One mark: octagon, triangle, square, diamond, ring, dashed ring from `hurt` to `tidy`. In the legend it has no
    number: 0."""
    grade = mark.grade
    radius = _RADIUS[grade]
    corners = _CORNERS[grade]
    drop = _DROP.get(grade, 0.0)
    if corners:
        steps = [_TURN[grade] + 2 * math.pi * step / corners for step in range(corners)]
        points = [(x + radius * math.cos(step), y + drop + radius * math.sin(step)) for step in steps]
        listed = " ".join(f"{number(px)},{number(py)}" for px, py in points)
        shape = element("polygon", points=listed, class_="rd-shape")
    else:
        shape = element("circle", cx=x, cy=y, r=radius, class_="rd-shape")
    count = write(str(mark.number), x, y + drop + 3.1, 9, "rd-count", bold=True) if mark.number else ""
    title = f"{grade.value}: {mark.says}"
    return group((shape, count), title, class_=f"rd-mark rd-{grade.value}", data_finding=str(mark.number))
