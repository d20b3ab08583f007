"""Boxes and their ports as SVG."""

from __future__ import annotations

from rigmint.report.draw import sizes
from rigmint.report.draw.elements import element, group, path, write
from rigmint.report.draw.grid import LEFT
from rigmint.report.draw.layout import PlacedBox, PlacedPort
from rigmint.report.draw.marks import draw_marks
from rigmint.report.draw.model import Shape
from rigmint.report.draw.text import measure


def draw_box(placed: PlacedBox, prefix: str) -> str:
    """A box with its title, the lines below it and its ports."""
    box = placed.box
    x, y = placed.x, placed.y
    parts = [
        element("rect", x=x, y=y, width=placed.width, height=placed.height, class_="rd-box"),
        write(box.title, x + sizes.PAD, y + 6 + sizes.TITLE * 0.85, sizes.TITLE, "rd-name", bold=True),
    ]
    marks_at = x + placed.width - sizes.PAD / 2 - sizes.measure_marks(box.marks)
    parts += draw_marks(box.marks, marks_at, y + 6 + sizes.TITLE * 0.5)
    line_y = y + 6 + sizes.TITLE * 1.15
    for line in box.lines:
        line_y += sizes.SMALL * 1.2
        parts.append(write(line, x + sizes.PAD, line_y - 2, sizes.SMALL, "rd-small"))
    parts += [_draw_port(port, prefix) for port in placed.ports]
    key = "end" if box.is_loose else "item"
    ident = f"{prefix}-{key}-{box.key.replace(':', '-')}"
    class_ = "rd-item rd-loose" if box.is_loose else "rd-item"
    setups = " ".join(box.setups)
    return group(parts, box.describes, id=ident, class_=class_, data_setups=setups, **{f"data_{key}": box.key})


def _draw_port(port: PlacedPort, prefix: str) -> str:
    terminal = port.terminal
    parts = [_draw_nub(port)]
    text_y = port.y + sizes.PORT * 0.36
    inwards = 1 if port.side == LEFT else -1
    x = port.x + inwards * 6
    cap = ""
    if terminal.tape:
        width = measure(terminal.tape, sizes.SMALL) + 4
    name = measure(terminal.says, sizes.PORT)
    parts.append(write(terminal.says, x, text_y, sizes.PORT, "rd-says", end=port.side != LEFT))
    x += inwards * (name + 3)
    if terminal.tape:
        left = x if port.side == LEFT else x - width
        cap = element("rect", x=left, y=port.y - 7, width=width, height=14.0, class_="rd-cap")
        cap += write(terminal.tape, left + 2, port.y + 4, sizes.SMALL, "rd-small")
        x += inwards * (width + 3)
    marks = sizes.measure_marks(terminal.marks)
    parts.append(cap)
    parts += draw_marks(terminal.marks, x if port.side == LEFT else x - marks, port.y)
    ident = f"{prefix}-port-{terminal.place.replace('.', '-').replace(':', '-')}"
    return group(parts, terminal.title, id=ident, class_=f"rd-port rd-{terminal.shape.value}", data_port=terminal.place)


def _draw_nub(port: PlacedPort) -> str:
    left, right = sorted((port.x, port.outer))
    top = port.y - port.height / 2
    if port.terminal.shape is Shape.RADIO:
        middle = (left + right) / 2
        way = [(port.x, top), (port.outer, port.y), (port.x, top + port.height)]
        return element("path", d=path(way) + "Z", class_="rd-nub") + element(
            "circle", cx=middle, cy=port.y, r=1.2, class_="rd-eye"
        )
    if port.terminal.shape in (Shape.GEAR, Shape.LOOSE):
        rounding = port.height / 2 if port.terminal.shape is Shape.LOOSE else 3.5
        return element("rect", x=left, y=top, width=right - left, height=port.height, rx=rounding / 2, class_="rd-nub")
    return element("rect", x=left, y=top, width=right - left, height=port.height, class_="rd-nub")
