"""Where everything goes: the places of boxes, ports, flags and the ways of the lines, as plain coordinates."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from rigmint.report.draw import sizes
from rigmint.report.draw.columns import assign_columns, place_followers
from rigmint.report.draw.fit import fit_columns, measure_flags
from rigmint.report.draw.grid import LEFT, RIGHT, Grid, Joint, Slot, build_grid, list_spare
from rigmint.report.draw.gutters import LANE, assign_lanes
from rigmint.report.draw.heights import set_heights
from rigmint.report.draw.model import Band, Box, Flag, Line, Sketch, Terminal
from rigmint.report.draw.order import order_columns

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class PlacedPort:
    """A terminal: `x` is the edge of its box, `outer` how far its nub stands out, `y` its middle."""

    terminal: Terminal
    side: int
    x: float
    outer: float
    y: float
    height: float
    is_used: bool


@dataclass(frozen=True, slots=True)
class PlacedBox:
    """A box and its ports."""

    box: Box
    x: float
    y: float
    width: float
    height: float
    ports: tuple[PlacedPort, ...]


@dataclass(frozen=True, slots=True)
class PlacedFlag:
    """A flag on an end of a line; `side`: of the box on which it hangs."""

    flag: Flag
    x: float
    y: float
    width: float
    height: float
    side: int
    is_pointed: bool


@dataclass(frozen=True, slots=True)
class PlacedLine:
    """A line: stretches that are drawn one after the other, dots where it branches, its flags, its ends in order."""

    line: Line
    stretches: tuple[tuple[Point, ...], ...]
    dots: tuple[Point, ...]
    flags: tuple[PlacedFlag, ...]
    ends: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class PlacedBand:
    """A band from edge to edge."""

    band: Band
    y: float
    height: float


@dataclass(frozen=True, slots=True)
class Layout:
    """Everything placed; `width` and `height` hold it, head and foot not counted."""

    boxes: tuple[PlacedBox, ...]
    lines: tuple[PlacedLine, ...]
    bands: tuple[PlacedBand, ...]
    width: float
    height: float


def lay_out(sketch: Sketch) -> Layout:
    """The places; the same for the same sketch."""
    grid = build_grid(sketch, fit_columns(sketch, choose_columns(sketch.boxes, sketch.lines)))
    order_columns(grid)
    bounds = set_heights(grid, 0.0)
    lanes = [assign_lanes(grid, gutter) for gutter in range(len(grid.groups))]
    spans, width = _set_widths(grid, lanes)
    boxes = tuple(_place_box(grid.boxes[box.key]) for box in sketch.boxes)
    lines = tuple(_Router(grid, lanes, spans, index).place() for index in range(len(sketch.lines)))
    bands = tuple(PlacedBand(band, top, bottom - top) for band, (top, bottom) in zip(sketch.bands, bounds, strict=True))
    return Layout(boxes, lines, bands, width, bounds[-1][1] if bounds else 0.0)


def choose_columns(boxes: Sequence[Box], lines: Sequence[Line]) -> dict[str, int]:
    """Column of each box, by the direction of what goes over the lines that pull; others go to their neighbours."""
    arcs = [arc for line in lines if line.pull for arc in _list_arcs(line)]
    pulled = {name for one, two, _ in arcs for name in (one, two)}
    names = [box.key for box in boxes if box.key in pulled]
    columns = assign_columns(names, arcs)
    follows: dict[str, list[str]] = {box.key: [] for box in boxes if box.key not in pulled}
    for line in lines:
        for end in line.ends:
            if end.box in follows:
                follows[end.box] += [other.box for other in line.ends if other.box != end.box]
    place_followers(columns, follows)
    return columns


def _list_arcs(line: Line) -> list[tuple[str, str, int]]:
    arriving = [end for end in line.ends if end.arrives]
    leaving = [end for end in line.ends if not end.arrives]
    if not arriving or not leaving:  # both ways, or nobody knows: as it is written
        leaving, arriving = [line.ends[0]], list(line.ends[1:])
    return [(one.box, two.box, line.pull) for one in leaving for two in arriving if one.box != two.box]


@dataclass(frozen=True, slots=True)
class _Gutter:
    """From the right edge of one column to the left edge of the next; lanes start at `lanes`."""

    left: float
    right: float
    lanes: float


def _set_widths(grid: Grid, lanes: Sequence[tuple[dict[int, int], int]]) -> tuple[list[_Gutter], float]:
    x = sizes.BAND_ROOM
    spans = []
    for number in range(len(grid.groups)):
        room = [measure_flags(grid, number, side) for side in (RIGHT, LEFT)]
        start = x + room[0] + (LANE if lanes[number][1] else 0.0)
        end = start + LANE * lanes[number][1] + room[1]
        if number in (0, len(grid.groups) - 1) and not grid.groups[number]:
            end = x
        spans.append(_Gutter(x, end, start))
        x = end
        if number < len(grid.columns):
            column = grid.columns[number]
            width = float(round(max((slot.width for slot in column), default=0.0)))
            for slot in column:
                slot.x, slot.width = x, width
            x += width
    return spans, x


def _place_box(slot: Slot) -> PlacedBox:
    if slot.box is None:
        msg = "a lane is no box"
        raise ValueError(msg)
    terminals = {terminal.name: terminal for terminal in slot.box.terminals}
    ports = []
    for side in (LEFT, RIGHT):
        groups: dict[str, list[Joint]] = {}
        for joint in slot.sides[side]:
            groups.setdefault(joint.terminal, []).append(joint)
        for name, joints in groups.items():
            top = min(joint.y for joint in joints) - 7
            bottom = max(joint.y for joint in joints) + 7
            x = slot.x + (slot.width if side == RIGHT else 0.0)
            outer = x + (sizes.NUB if side == RIGHT else -sizes.NUB)
            ports.append(PlacedPort(terminals[name], side, x, outer, (top + bottom) / 2, bottom - top, True))
    bottom = slot.y + slot.height - 4
    for index, name in enumerate(reversed(list_spare(slot))):
        y = bottom - 20.0 * index - 10
        ports.append(PlacedPort(terminals[name], LEFT, slot.x, slot.x - sizes.NUB, y, 14.0, False))
    return PlacedBox(slot.box, slot.x, slot.y, slot.width, slot.height, tuple(ports))


class _Router:
    """The way of one line: in each gutter level stretches to its lane, and the lane between them."""

    def __init__(
        self, grid: Grid, lanes: Sequence[tuple[dict[int, int], int]], spans: Sequence[_Gutter], index: int
    ) -> None:
        self._grid = grid
        self._lanes = lanes
        self._spans = spans
        self._index = index
        self._line = grid.lines[index]
        self._ends: dict[int, Point] = {}
        self._flags: list[PlacedFlag] = []
        self._pieces: list[tuple[Point, Point]] = []

    def place(self) -> PlacedLine:
        """The line with its flags."""
        for gutter, group in enumerate(self._grid.groups):
            if self._index in group:
                self._cross(gutter, group[self._index])
        ends = tuple(self._ends[number] for number in range(len(self._line.ends)))
        stretches, dots = join_pieces(self._pieces, ends)
        return PlacedLine(self._line, stretches, dots, tuple(self._flags), ends)

    def _cross(self, gutter: int, joints: Sequence[Joint]) -> None:
        lane = self._lanes[gutter][0].get(self._index)
        starts = [(self._start(joint), joint) for joint in joints]
        for start, joint in starts:
            self._hang_flag(start, joint)
        if lane is None:
            (one, _), (two, _) = starts
            self._pieces.append((min(one, two), max(one, two)))
            return
        x = self._spans[gutter].lanes + LANE * lane
        heights = sorted({start[1] for start, _ in starts})
        self._pieces += [((x, top), (x, bottom)) for top, bottom in pairwise(heights)]
        self._pieces += [((x, y), (start, y)) for (start, y), _ in starts]

    def _start(self, joint: Joint) -> Point:
        """Where the line leaves the column: a port's nub, or the edge of a lane, which is drawn to its middle."""
        slot = joint.slot
        if joint.end is None:
            return slot.x + slot.width / 2, joint.y
        edge = slot.x + slot.width + sizes.NUB if joint.side == RIGHT else slot.x - sizes.NUB
        self._ends[joint.end] = (edge, joint.y)
        return edge, joint.y

    def _hang_flag(self, start: Point, joint: Joint) -> None:
        if joint.end is None:
            return
        end = self._line.ends[joint.end]
        if end.flag is None:
            return
        width, height = sizes.measure_flag(end.flag)
        x, y = start
        left = x + sizes.FLAG_GAP if joint.side == RIGHT else x - sizes.FLAG_GAP - width
        self._flags.append(PlacedFlag(end.flag, left, y - height / 2, width, height, joint.side, end.arrives))


def join_pieces(
    pieces: Sequence[tuple[Point, Point]], ends: Sequence[Point]
) -> tuple[tuple[tuple[Point, ...], ...], tuple[Point, ...]]:
    """Stretches as long as possible from straight pieces, and the points at which the line branches."""
    touching: dict[Point, list[Point]] = {}
    for one, two in pieces:
        if one != two:
            touching.setdefault(one, []).append(two)
            touching.setdefault(two, []).append(one)
    dots = tuple(sorted(point for point, others in touching.items() if len(others) > 2))
    stops = {*dots, *ends}
    used: set[frozenset[Point]] = set()
    stretches = []
    for start in [*ends, *dots]:
        for following in sorted(touching.get(start, ())):
            if frozenset((start, following)) in used:
                continue
            way = [start, following]
            used.add(frozenset(way))
            while way[-1] not in stops:
                onward = next(point for point in touching[way[-1]] if point != way[-2])
                used.add(frozenset((way[-1], onward)))
                way.append(onward)
            stretches.append(tuple(_straighten(way)))
    return tuple(stretches), dots


def _straighten(way: Sequence[Point]) -> list[Point]:
    """The way without points that lie on a straight stretch."""
    kept = [way[0]]
    for index in range(1, len(way) - 1):
        (x0, y0), (x1, y1), (x2, y2) = kept[-1], way[index], way[index + 1]
        if not (x0 == x1 == x2 or y0 == y1 == y2):
            kept.append(way[index])
    return [*kept, way[-1]]
