"""SVG elements as text: numbers short, text and attributes escaped, nothing hidden in them."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from rigmint.report.draw.text import is_plain, measure
from rigmint.report.safe import clean


def number(value: float) -> str:
    """To a tenth, without a decimal that says nothing."""
    return f"{round(value, 1) + 0.0:.1f}".removesuffix(".0")


def attributes(**values: str | float) -> str:
    """` name="value"` for each; `_` stands for `-`, a trailing one is left out."""
    parts = []
    for name, value in values.items():
        text = number(value) if isinstance(value, (int, float)) else escape(clean(value), quote=True)
        parts.append(f' {name.rstrip("_").replace("_", "-")}="{text}"')
    return "".join(parts)


def element(tag: str, content: str = "", **values: str | float) -> str:
    """An element with its attributes; `content` is SVG already."""
    if not content:
        return f"<{tag}{attributes(**values)}/>"
    return f"<{tag}{attributes(**values)}>{content}</{tag}>"


def group(parts: Iterable[str], title: str = "", **values: str | float) -> str:
    """A `g`; its title is what a pointer shows and a reader speaks."""
    told = f"<title>{escape(clean(title))}</title>" if title else ""
    return f"<g{attributes(**values)}>{told}{''.join(parts)}</g>"


def write(text: str, x: float, y: float, size: float, class_: str, *, bold: bool = False, end: bool = False) -> str:
    """One line of text from `x` on, or up to it. Where a letter's width is not known, the length is stated."""
    values: dict[str, str | float] = {"x": x, "y": y, "class": class_}
    if end:
        values["text_anchor"] = "end"
    if text and not is_plain(text):
        values |= {"textLength": max(measure(text, size, bold=bold), 1.0), "lengthAdjust": "spacingAndGlyphs"}
    return f"<text{attributes(**values)}>{escape(clean(text))}</text>"


def path(points: Iterable[tuple[float, float]]) -> str:
    """The `d` of a way along points."""
    parts = [f"{number(x)} {number(y)}" for x, y in points]
    return "M" + "L".join(parts)
