"""A drawing as SVG. Every element bears the names of the rig file as data, so that a page can light a path in it."""

from __future__ import annotations

from html import escape

from rigmint.report.draw import sizes
from rigmint.report.draw.elements import attributes, element, group, write
from rigmint.report.draw.layout import Layout, PlacedBand
from rigmint.report.draw.model import Sketch
from rigmint.report.draw.style import drawing_style
from rigmint.report.draw.svg_boxes import draw_box
from rigmint.report.draw.svg_foot import draw_foot
from rigmint.report.draw.svg_lines import draw_flags, draw_line
from rigmint.report.draw.text import cut
from rigmint.report.safe import clean

_HEAD = 62.0
_NARROWEST = 640.0
_NAMES = {"all": "Power, control and picture"}


def write_svg(sketch: Sketch, layout: Layout, *, style: bool = True) -> str:
    """The whole SVG, ending in a newline. `style`: with its rules inside, as a file of its own needs them; a page
    that holds several drawings states `drawing_style()` once."""
    width = max(layout.width + 2 * sizes.MARGIN, _NARROWEST)
    across = width - 2 * sizes.MARGIN
    prefix = sketch.layer
    name = _NAMES.get(sketch.layer, sketch.layer.capitalize())
    body = [
        *(_draw_band(band, across) for band in layout.bands),
        group((draw_line(line, prefix) for line in layout.lines), class_="rd-lines"),
        group((draw_box(box, prefix) for box in layout.boxes), class_="rd-items"),
        group((flag for line in layout.lines for flag in draw_flags(line, prefix)), class_="rd-all-flags"),
    ]
    foot, bottom = draw_foot(sketch, sizes.MARGIN, _HEAD + layout.height + 18, across)
    height = bottom + sizes.MARGIN / 2
    head = [
        write(cut(f"{name}: {sketch.title}", across, 22, bold=True), sizes.MARGIN, 32, 22, "rd-head", bold=True),
        write(cut(sketch.says, across, 13), sizes.MARGIN, 51, 13, "rd-lead-in"),
    ]
    root = attributes(
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {width:g} {height:g}",
        width=width,
        height=height,
        class_="rd",
        role="img",
        id=f"{prefix}-drawing",
        data_layer=sketch.layer,
        data_setups=" ".join(sketch.setups),
        aria_labelledby=f"{prefix}-title {prefix}-desc",
    )
    says = f"{len(layout.boxes)} items and {len(layout.lines)} connections, {sketch.says}"
    parts = [
        f"<svg{root}>",
        f'<title id="{prefix}-title">{escape(clean(f"{name}: {sketch.title}"))}</title>',
        f'<desc id="{prefix}-desc">{escape(clean(says))}</desc>',
        f"<style>{drawing_style()}</style>" if style else "",
        element("rect", x=0, y=0, width=width, height=height, class_="rd-paper"),
        group(head, class_="rd-title"),
        group(body, class_="rd-body", transform=f"translate({sizes.MARGIN:g} {_HEAD:g})"),
        group(foot, class_="rd-foot"),
        "</svg>\n",
    ]
    return "\n".join(part for part in parts if part)


def _draw_band(placed: PlacedBand, across: float) -> str:
    band = placed.band
    middle = placed.y + placed.height / 2
    parts = [
        element("path", d=f"M0 {placed.y:g}H{across:g}", class_="rd-rule"),
        write(band.title, 0, middle, 17, "rd-band-name", bold=True),
        write(band.says, 0, middle + 14, sizes.SMALL, "rd-small"),
    ]
    return group(parts, class_="rd-band", data_band=band.key)
