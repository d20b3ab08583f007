"""A small bar that shows where in its window a port sits, and the words for one that sits outside."""

from __future__ import annotations

from rigmint.report.style import Style
from rigmint.rig.electric import Window

WIDE = 14
NARROW = 10
"""The widest words need 10 columns."""

_REVERSED_BELOW = -0.3
"""V: under it a port is fed the wrong way round, not merely too low."""


def draw_bar(volts: float, window: Window, width: int, style: Style) -> str:
    """`[---o------]` in `width` columns; `o too low` and the like for a port that sits outside."""
    outside = name_outside(volts, window)
    dot, line, left, right = ("o", "-", "[", "]") if style.is_ascii else ("●", "─", "├", "┤")
    if outside == "too high":
        return f"{outside} {dot}".rjust(width)
    if outside:
        return f"{dot} {outside}".ljust(width)
    steps = width - 3
    span = window.high - window.low
    step = round((volts - window.low) / span * steps) if span > 0 else 0
    return f"{left}{line * step}{dot}{line * (steps - step)}{right}"


def name_outside(volts: float, window: Window) -> str:
    """`too low`, `too high`, `reversed`, or nothing inside the window."""
    if window.holds(volts):
        return ""
    if volts > window.high:
        return "too high"
    return "reversed" if volts < _REVERSED_BELOW else "too low"
