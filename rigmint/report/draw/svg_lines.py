"""Lines and their flags as SVG."""

from __future__ import annotations

from rigmint.report.draw import sizes
from rigmint.report.draw.elements import element, group, number, path, write
from rigmint.report.draw.grid import LEFT
from rigmint.report.draw.layout import PlacedFlag, PlacedLine
from rigmint.report.draw.marks import draw_marks
from rigmint.report.draw.model import LineKind
from rigmint.report.draw.style import STROKES
from rigmint.report.draw.text import measure

_KEYS = {
    LineKind.LEAD: "lead",
    LineKind.DOCK: "dock",
    LineKind.GEAR: "gear",
    LineKind.LINK: "link",
}


def _name(placed: PlacedLine) -> tuple[str, str]:
    """The kind of a line and its name without it."""
    place = placed.line.place
    return _KEYS[placed.line.kind], place.partition(":")[2] or place


def draw_line(placed: PlacedLine, prefix: str) -> str:
    """A line. It is laid over those before it with a light rim, so that crossings do not look like joints."""
    line = placed.line
    key, name = _name(placed)
    way = "".join(path(stretch) for stretch in placed.stretches)
    parts = [element("path", d=way, class_="rd-halo"), element("path", d=way, class_="rd-ink")]
    if STROKES[line.style].core:
        parts.append(element("path", d=way, class_="rd-core"))
    dot = max(3.2, STROKES[line.style].width * 0.8)
    parts += [element("circle", cx=x, cy=y, r=dot, class_="rd-dot") for x, y in placed.dots]
    ends = " ".join(f"{end.box}.{end.terminal}" for end in line.ends)
    return group(
        parts,
        line.describes,
        id=f"{prefix}-{key}-{name}",
        class_=f"rd-line rd-{line.style}",
        data_ends=ends,
        data_setups=" ".join(line.setups),
        data_class=line.style,
        **{f"data_{key}": name},
    )


def draw_flags(placed: PlacedLine, prefix: str) -> list[str]:
    """The flags on a line's ends."""
    key, name = _name(placed)
    is_air = placed.line.kind is LineKind.LINK
    return [
        group(
            _draw_flag(flag, is_air),
            placed.line.describes,
            id=f"{prefix}-flag-{key}-{name}-{index}",
            class_="rd-flags rd-air" if is_air else "rd-flags",
            data_setups=" ".join(placed.line.setups),
            **{f"data_{key}": name},
        )
        for index, flag in enumerate(placed.flags, start=1)
    ]


def _draw_flag(placed: PlacedFlag, is_air: bool) -> list[str]:
    flag = placed.flag
    x, y = placed.x, placed.y
    width = placed.width - sizes.FLAG_TIP
    points_right = placed.side == LEFT
    body = x if points_right or not placed.is_pointed else x + sizes.FLAG_TIP
    if not placed.is_pointed:
        body = x + (sizes.FLAG_TIP if points_right else 0.0)
    parts = [_outline(placed, body, width, is_air)]
    label = measure(flag.label, sizes.LABEL, bold=True) + 2 * 4
    base = y + sizes.FLAG_HEAD - 4.2
    parts.append(element("rect", x=body, y=y, width=label, height=sizes.FLAG_HEAD, rx=_round(is_air), class_="rd-tape"))
    parts.append(write(flag.label, body + 4, base, sizes.LABEL, "rd-label", bold=True))
    along = body + label
    if flag.figure:
        parts.append(write(flag.figure, along + 4, base, sizes.FIGURE, "rd-figure", bold=True))
        along += measure(flag.figure, sizes.FIGURE, bold=True) + 8
    parts += draw_marks(flag.marks, along + 1, y + sizes.FLAG_HEAD / 2)
    for index, row in enumerate(flag.rows):
        parts.append(write(row, body + 4, y + sizes.FLAG_HEAD + sizes.FLAG_ROW * (index + 1) - 3, sizes.ROW, "rd-row"))
    return parts


def _round(is_air: bool) -> float:
    """Flags of radio links have round corners."""
    return 6.0 if is_air else 0.0


def _outline(placed: PlacedFlag, body: float, width: float, is_air: bool) -> str:
    top, bottom = placed.y, placed.y + placed.height
    left, right = body, body + width
    middle = (top + bottom) / 2
    if not placed.is_pointed:
        rounding = _round(is_air)
        return element("rect", x=left, y=top, width=width, height=placed.height, rx=rounding, class_="rd-flag")
    tip = sizes.FLAG_TIP
    if placed.side == LEFT:
        points = [(left, top), (right, top), (right + tip, middle), (right, bottom), (left, bottom)]
    else:
        points = [(right, top), (left, top), (left - tip, middle), (left, bottom), (right, bottom)]
    listed = " ".join(f"{number(px)},{number(py)}" for px, py in points)
    return element("polygon", points=listed, class_="rd-flag")
