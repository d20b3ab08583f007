"""Drawings on the sheet, one a layer; setups that look alike share one."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup


@dataclass(frozen=True, slots=True)
class Drawing:
    """A layer as SVG, and the setups that look so."""

    layer: str
    setups: tuple[str, ...]
    svg: Markup
