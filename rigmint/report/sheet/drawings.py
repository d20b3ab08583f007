"""Drawings on the sheet, one a layer, with what is there in any of the setups shown."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rigmint.lint.results import ReportedFinding
from rigmint.report.draw.drawing import draw_layer
from rigmint.report.draw.marks import draw_mark
from rigmint.report.draw.model import Mark
from rigmint.rig.rig import Rig
from rigmint.study.layers import Layer
from rigmint.study.uses import Uses
from rigmint.words import Grade

if TYPE_CHECKING:
    from markupsafe import Markup

_MARK_SIZE = 18


@dataclass(frozen=True, slots=True)
class Drawing:
    """A layer as SVG."""

    layer: str
    svg: Markup


def gather_drawings(rig: Rig, uses: Mapping[str, Uses], findings: Sequence[ReportedFinding]) -> tuple[Drawing, ...]:
    """Every layer that the rig has; their common style is stated once for the page."""
    from markupsafe import Markup

    there = {layer for one in uses.values() for use in one.by_place.values() for layer in use.layers}
    return tuple(
        Drawing(layer.value, Markup(draw_layer(rig, uses, findings, layer, style=False)))
        for layer in Layer
        if layer in there
    )


def draw_grade_marks() -> Mapping[str, Markup]:
    """Grade to the mark that the drawings give it, to stand in a line of text."""
    from markupsafe import Markup

    box = f'<svg class="rd mark" viewBox="0 0 {_MARK_SIZE} {_MARK_SIZE}" aria-hidden="true">'
    half = _MARK_SIZE / 2
    return {grade.value: Markup(box + draw_mark(Mark(0, grade, ""), half, half) + "</svg>") for grade in Grade}
