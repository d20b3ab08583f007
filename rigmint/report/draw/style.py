"""How a drawing looks: strokes that tell classes apart without colour, type, and colours for paper."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.report.draw import sizes
from rigmint.words import Grade


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line: its width, the width of the light core inside it, its dashes, its colour, and what it stands for."""

    width: float
    core: float
    dashes: str
    colour: str
    says: str


STROKES = {
    "five": Stroke(2.8, 0.0, "", "#1d5b9e", "five-volt class, up to 6 V"),
    "eight": Stroke(3.6, 0.0, "", "#23704a", "eight-volt class, up to 10 V"),
    "twelve": Stroke(4.8, 0.0, "", "#8a5a00", "twelve-volt class, up to 20 V"),
    "twenty_four": Stroke(6.0, 1.4, "", "#a3271f", "twenty-four-volt class, up to 36 V"),
    "forty_eight": Stroke(7.5, 3.0, "", "#8c2f6b", "forty-eight-volt class, up to 60 V"),
    "high": Stroke(8.0, 0.0, "", "#5a0d0d", "over 60 V"),
    "unfed": Stroke(2.2, 0.0, "2 3", "#444444", "power lead without volts"),
    "control": Stroke(1.3, 0.0, "", "#4a3a7d", "control"),
    "picture": Stroke(4.2, 2.0, "", "#0c5f5c", "picture, timecode, sync"),
    "other": Stroke(1.5, 0.0, "6 2 1 2", "#444444", "lead of which nothing is known"),
    "dock": Stroke(9.0, 6.4, "", "#222222", "docked, no lead"),
    "gear": Stroke(4.4, 0.0, "0.1 7", "#222222", "motor on a ring"),
    "link": Stroke(1.8, 0.0, "9 5", "#222222", "radio"),
}
"""In the order of the legend."""

MARK_COLOURS = {
    Grade.HURT: "#8b0000",
    Grade.BURN: "#b3261e",
    Grade.DEAD: "#3b3b3b",
    Grade.FIGHT: "#5a3a8e",
    Grade.THIN: "#8a5a00",
    Grade.TIDY: "#555555",
}

_TYPE = "font-family:'Liberation Sans',Arial,Helvetica,'DejaVu Sans',sans-serif"


def drawing_style() -> str:
    """The rules for a drawing, each for a class that starts with `rd-`, so that they may stand in a page of other
    things too."""
    rules = [
        ".rd{background:#fff;max-width:100%;height:auto}",
        f".rd text{{{_TYPE};fill:#111}}",
        f".rd-name{{font-size:{sizes.TITLE}px;font-weight:bold}}",
        f".rd-small{{font-size:{sizes.SMALL}px}}",
        f".rd-says{{font-size:{sizes.PORT}px}}",
        f".rd .rd-label{{font-size:{sizes.LABEL}px;font-weight:bold;fill:#fff}}",
        ".rd .rd-air .rd-label{fill:#111}",
        f".rd-figure{{font-size:{sizes.FIGURE}px;font-weight:bold}}",
        f".rd-row{{font-size:{sizes.ROW}px}}",
        ".rd .rd-count{font-size:9px;font-weight:bold;fill:#fff;text-anchor:middle}",
        ".rd .rd-thin .rd-count,.rd .rd-tidy .rd-count{fill:#111}",
        ".rd-head{font-size:22px;font-weight:bold}.rd-lead-in{font-size:13px}",
        ".rd-band-name{font-size:17px;font-weight:bold}.rd-note{font-size:11.5px}.rd-strong{font-weight:bold}",
        ".rd-paper{fill:#fff}.rd-rule{stroke:#999;stroke-width:1;stroke-dasharray:1 4;fill:none}",
        ".rd-box{fill:#fff;stroke:#111;stroke-width:1.5}.rd-loose .rd-box{stroke-dasharray:3 3}",
        ".rd-nub{fill:#fff;stroke:#111;stroke-width:1.3}.rd-plug .rd-nub{fill:#111}",
        ".rd-mate .rd-nub,.rd-gear .rd-nub{fill:#999}",
        ".rd-flag{fill:#fff;stroke:#111;stroke-width:1.1}.rd-tape{fill:#111}.rd-air .rd-tape{fill:#fff;stroke:#111}",
        ".rd-cap{fill:#fff;stroke:#111;stroke-width:.8;stroke-dasharray:2 1.5}",
        ".rd-line path{fill:none;stroke-linejoin:round}.rd-halo{stroke:#fff}.rd-core{stroke:#fff}",
        ".rd-gear .rd-ink{stroke-linecap:round}",
    ]
    for name, stroke in STROKES.items():
        dashes = f";stroke-dasharray:{stroke.dashes}" if stroke.dashes else ""
        rules.append(f".rd-{name} .rd-ink{{stroke:{stroke.colour};stroke-width:{number(stroke.width)}{dashes}}}")
        rules.append(f".rd-{name} .rd-halo{{stroke-width:{number(stroke.width + 5)}}}")
        if stroke.core:
            rules.append(f".rd-{name} .rd-core{{stroke-width:{number(stroke.core)}}}")
        rules.append(f".rd-{name} .rd-dot{{fill:{stroke.colour}}}")
    for grade, colour in MARK_COLOURS.items():
        fill = colour if grade.is_at_least(Grade.FIGHT) else "#fff"
        rules.append(f".rd-{grade.value} .rd-shape{{fill:{fill};stroke:{colour};stroke-width:1.4}}")
    rules.append(".rd-tidy .rd-shape{stroke-dasharray:2 1.5}")
    return "\n".join(rules)


def number(value: float) -> str:
    """Without a decimal that says nothing."""
    return f"{value:g}"
