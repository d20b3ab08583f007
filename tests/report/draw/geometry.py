"""Reads a drawing's SVG back and says what is wrong with its geometry, by what is drawn and not by the layout's records."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise

_NS = "{http://www.w3.org/2000/svg}"
_POINT = re.compile(r"(-?[\d.]+) (-?[\d.]+)")
_NEAR = 0.2
_LOOKS_ONE = 3.0
"""Lines nearer than that look like one."""


@dataclass(frozen=True)
class Rect:
    name: str
    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Rect) -> bool:
        return (
            self.left < other.right - _NEAR
            and other.left < self.right - _NEAR
            and self.top < other.bottom - _NEAR
            and other.top < self.bottom - _NEAR
        )

    def touches(self, x: float, y: float) -> bool:
        return self.left - _NEAR <= x <= self.right + _NEAR and self.top - _NEAR <= y <= self.bottom + _NEAR


@dataclass(frozen=True)
class Segment:
    line: str
    x1: float
    y1: float
    x2: float
    y2: float


@dataclass(frozen=True)
class Drawing:
    boxes: dict[str, Rect]
    ports: dict[str, Rect]
    flags: list[Rect]
    segments: list[Segment]
    ends: dict[str, list[tuple[str, str]]]
    """Line to (box, terminal) of each end."""
    points: dict[str, set[tuple[float, float]]]
    """Line to the points at which its stretches begin and end."""


def read_drawing(svg: str) -> Drawing:
    root = ET.fromstring(svg)
    boxes, ports, flags, segments, ends, points = {}, {}, [], [], {}, {}
    for group in root.iter(f"{_NS}g"):
        classes = group.get("class", "").split()
        if "rd-item" in classes:
            name = group.get("data-item") or group.get("data-end") or ""
            boxes[name] = _read_rect(name, next(_find(group, "rect", "rd-box")))
        elif "rd-port" in classes and group.get("data-port"):
            nubs = [one for one in group.iter() if one.get("class") == "rd-nub"]
            ports[group.get("data-port") or ""] = _read_shape(group.get("data-port") or "", nubs[0])
        elif "rd-flags" in classes:
            shape = next(one for one in group if one.get("class") == "rd-flag")
            flags.append(_read_shape(group.get("id") or "", shape))
        elif "rd-line" in classes and group.get("data-ends"):
            name = group.get("id") or ""
            ends[name] = [tuple(end.rsplit(".", 1)) for end in (group.get("data-ends") or "").split()]
            way = next(_find(group, "path", "rd-ink")).get("d") or ""
            points[name] = set()
            for stretch in way.split("M")[1:]:
                listed = [(float(x), float(y)) for x, y in _POINT.findall(stretch)]
                points[name] |= {listed[0], listed[-1]}
                for (x1, y1), (x2, y2) in pairwise(listed):
                    segments.append(Segment(name, min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)))
    return Drawing(boxes, ports, flags, segments, ends, points)


def _find(group: ET.Element, tag: str, class_: str) -> Iterator[ET.Element]:
    return (one for one in group.iter(f"{_NS}{tag}") if one.get("class") == class_)


def _read_rect(name: str, rect: ET.Element) -> Rect:
    x, y, width, height = (float(rect.get(key) or 0) for key in ("x", "y", "width", "height"))
    return Rect(name, x, y, x + width, y + height)


def _read_shape(name: str, shape: ET.Element) -> Rect:
    if shape.tag == f"{_NS}rect":
        return _read_rect(name, shape)
    text = shape.get("points") or (shape.get("d") or "").replace("M", "").replace("Z", "").replace("L", " ").replace(
        " ", ","
    )
    numbers = [float(one) for one in re.split(r"[ ,]+", text.strip()) if one]
    xs, ys = numbers[0::2], numbers[1::2]
    return Rect(name, min(xs), min(ys), max(xs), max(ys))


def list_faults(svg: str) -> list[str]:
    """Every fault of the geometry, in words."""
    drawing = read_drawing(svg)
    return [
        *_list_overlaps(drawing),
        *_list_loose_ends(drawing),
        *_list_slanted(drawing),
        *_list_through(drawing),
        *_list_shared(drawing),
    ]


def _list_overlaps(drawing: Drawing) -> Iterator[str]:
    boxes = list(drawing.boxes.values())
    for one, two in combinations(boxes, 2):
        if one.overlaps(two):
            yield f"boxes {one.name} and {two.name} overlap"
    for one, two in combinations(drawing.flags, 2):
        if one.overlaps(two):
            yield f"flags {one.name} and {two.name} overlap"
    for flag in drawing.flags:
        for other in (*boxes, *drawing.ports.values()):
            if flag.overlaps(other):
                yield f"flag {flag.name} lies on {other.name}"
    for one, two in combinations(drawing.ports.values(), 2):
        if one.overlaps(two):
            yield f"ports {one.name} and {two.name} overlap"


def _list_loose_ends(drawing: Drawing) -> Iterator[str]:
    for line, ends in drawing.ends.items():
        free = set(drawing.points[line])
        for box, terminal in ends:
            place = box if box not in drawing.boxes or ":" in box else f"{box}.{terminal}"
            port = drawing.ports[place]
            met = [
                point for point in sorted(free) if port.touches(*point) and _is_on_rim(port, drawing.boxes[box], *point)
            ]
            if not met:
                yield f"{line} does not end on {place}"
            else:
                free.discard(met[0])


def _is_on_rim(port: Rect, box: Rect, x: float, y: float) -> bool:
    """Whether a point is on the side of a port that looks away from its box."""
    outer = port.left if port.left < box.left else port.right
    return abs(x - outer) <= _NEAR and port.top < y < port.bottom


def _list_slanted(drawing: Drawing) -> Iterator[str]:
    for one in drawing.segments:
        if one.x1 != one.x2 and one.y1 != one.y2:
            yield f"{one.line} is not at right angles"


def _list_through(drawing: Drawing) -> Iterator[str]:
    for one in drawing.segments:
        way = Rect(one.line, one.x1 - _NEAR * 2, one.y1 - _NEAR * 2, one.x2 + _NEAR * 2, one.y2 + _NEAR * 2)
        for box in drawing.boxes.values():
            if way.overlaps(Rect(box.name, box.left + 0.5, box.top + 0.5, box.right - 0.5, box.bottom - 0.5)):
                yield f"{one.line} passes through {box.name}"
        for flag in drawing.flags:
            owner = re.sub(r"-flag-(.*)-\d+$", r"-\1", flag.name)
            if owner != one.line and way.overlaps(flag):
                yield f"{one.line} passes under {flag.name}"


def _list_shared(drawing: Drawing) -> Iterator[str]:
    """Two lines on top of each other, or so near that they look like one."""
    for a, b in combinations(drawing.segments, 2):
        if a.line == b.line:
            continue
        along_x, along_y = min(a.x2, b.x2) - max(a.x1, b.x1), min(a.y2, b.y2) - max(a.y1, b.y1)
        if a.y1 == a.y2 and b.y1 == b.y2 and abs(a.y1 - b.y1) < _LOOKS_ONE and along_x > 0:
            yield f"{a.line} and {b.line} share a level stretch at {a.y1}"
        if a.x1 == a.x2 and b.x1 == b.x2 and abs(a.x1 - b.x1) < _LOOKS_ONE and along_y > -_LOOKS_ONE:
            yield f"{a.line} and {b.line} share an upright stretch at {a.x1}"


def count_crossings(svg: str) -> int:
    """Points at which lines of different leads cross."""
    drawing = read_drawing(svg)
    level = [one for one in drawing.segments if one.y1 == one.y2]
    upright = [one for one in drawing.segments if one.x1 == one.x2]
    return sum(a.line != b.line and a.x1 < b.x1 < a.x2 and b.y1 < a.y1 < b.y2 for a in level for b in upright)
