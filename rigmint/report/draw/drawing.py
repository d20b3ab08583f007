"""One drawing from a rig, what is known of its leads, and its findings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rigmint.lint.results import ReportedFinding
from rigmint.report.draw.layout import lay_out
from rigmint.report.draw.sketch import sketch_layer
from rigmint.report.draw.svg import write_svg
from rigmint.rig.rig import Rig
from rigmint.study.layers import Layer
from rigmint.study.uses import Uses


def draw_layer(
    rig: Rig,
    uses: Mapping[str, Uses],
    findings: Sequence[ReportedFinding],
    layer: Layer | None,
    *,
    style: bool = True,
) -> str:
    """The SVG of a layer (None: all) in the setups that `uses` names, ending in a newline.

    `style`: with its rules inside; a page that holds several drawings states `style.drawing_style()` once instead.
    """
    sketch = sketch_layer(rig, uses, findings, layer)
    return write_svg(sketch, lay_out(sketch), style=style)
