"""The grid of a layout: columns of slots, each a box or the lane of a line that passes; joints on their sides."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from rigmint.report.draw.model import Box, Line, Sketch
from rigmint.report.draw.sizes import measure_head, measure_joint, measure_terminal

LEFT, RIGHT = 0, 1
_NAME_ROOM = 18.0
"""Height of a port's name."""


@dataclass(slots=True, eq=False)
class Joint:
    """Where a line meets a slot: an end at a terminal (`end`: its index), or a lane (None). `offset`: of its height
    from the slot's top."""

    slot: Slot
    line: int
    side: int
    end: int | None
    terminal: str
    height: float
    offset: float = 0.0
    nudge: float = 0.0

    @property
    def y(self) -> float:
        """Its height in the drawing."""
        return self.slot.y + self.offset + self.nudge


@dataclass(slots=True, eq=False)
class Slot:
    """A box or a lane in a column. `order`: of its place before anything is sorted."""

    column: int
    band: int
    box: Box | None
    order: int
    height: float = 0.0
    width: float = 0.0
    y: float = 0.0
    x: float = 0.0
    sides: tuple[list[Joint], list[Joint]] = field(default_factory=lambda: ([], []))

    @property
    def joints(self) -> list[Joint]:
        """Those of both sides."""
        return [*self.sides[LEFT], *self.sides[RIGHT]]


@dataclass(slots=True)
class Grid:
    """Columns from left to right, each from top to bottom; gutter g lies left of column g."""

    columns: list[list[Slot]]
    lines: Sequence[Line]
    bands: int
    groups: list[dict[int, list[Joint]]]
    """Gutter to line to its joints there."""
    boxes: dict[str, Slot]


def build_grid(sketch: Sketch, columns: Mapping[str, int]) -> Grid:
    """The grid, each column in the order of the file within its bands."""
    bands = {band.key: index for index, band in enumerate(sketch.bands)}
    count = max(columns.values(), default=-1) + 1
    grid = Grid([[] for _ in range(count)], sketch.lines, len(bands), [{} for _ in range(count + 1)], {})
    for order, box in enumerate(sketch.boxes):
        slot = Slot(columns[box.key], bands[box.band], box, order)
        grid.boxes[box.key] = slot
        grid.columns[slot.column].append(slot)
    sides = _choose_sides(sketch.lines, columns, count)
    for index, line in enumerate(sketch.lines):
        _add_line(grid, index, line, sides)
    for slot in grid.boxes.values():
        for side in slot.sides:
            side[:] = _keep_together(side)
        size_box(slot)
    for column in grid.columns:
        column.sort(key=lambda slot: (slot.band, slot.order))
    return grid


def _keep_together(joints: Sequence[Joint]) -> list[Joint]:
    """The joints in their order, those of one terminal beside each other."""
    terminals: dict[str, list[Joint]] = {}
    for joint in joints:
        terminals.setdefault(joint.terminal, []).append(joint)
    return [joint for group in terminals.values() for joint in group]


def _choose_sides(lines: Sequence[Line], columns: Mapping[str, int], count: int) -> dict[tuple[str, str], int]:
    """The side of each terminal: towards what it is joined to. All lines of one terminal leave on one side."""
    votes: dict[tuple[str, str], int] = defaultdict(int)
    for line in lines:
        places = [columns[end.box] for end in line.ends]
        low, high = min(places), max(places)
        for end, column in zip(line.ends, places, strict=True):
            if low == high:
                towards = LEFT if column == count - 1 and column > 0 else RIGHT
            else:
                towards = RIGHT if column == low else LEFT
            weight = 1 if low == high else 2
            votes[end.box, end.terminal] += weight if towards == RIGHT else -weight
    return {key: RIGHT if vote >= 0 else LEFT for key, vote in votes.items()}


def _add_line(grid: Grid, index: int, line: Line, sides: Mapping[tuple[str, str], int]) -> None:
    gutters = []
    for number, end in enumerate(line.ends):
        slot = grid.boxes[end.box]
        side = sides[end.box, end.terminal]
        joint = Joint(slot, index, side, number, end.terminal, measure_joint(end.flag))
        slot.sides[side].append(joint)
        gutter = slot.column + side
        gutters.append(gutter)
        grid.groups[gutter].setdefault(index, []).append(joint)
    bands = sorted(grid.boxes[end.box].band for end in line.ends)
    for column in range(min(gutters), max(gutters)):
        lane = Slot(column, bands[len(bands) // 2], None, len(grid.boxes) + index)
        for side in (LEFT, RIGHT):
            joint = Joint(lane, index, side, None, "", 0.0)
            lane.sides[side].append(joint)
            grid.groups[column + side].setdefault(index, []).append(joint)
        grid.columns[column].append(lane)


def size_box(slot: Slot) -> None:
    """Set a box's size and the height of each joint on it, by the order in which its joints stand."""
    box = slot.box
    if box is None:
        return
    head_width, head = measure_head(box)
    names = {terminal.name: measure_terminal(terminal) for terminal in box.terminals}
    widths = [0.0, 0.0]
    heights = [0.0, 0.0]
    for side in (LEFT, RIGHT):
        # A flag hangs outside the box and may reach up beside its title; the port's name inside may not.
        y = 0.0
        for joint in slot.sides[side]:
            joint.offset = float(round(max(y + joint.height / 2, head + _NAME_ROOM / 2)))
            y = joint.offset + joint.height / 2
            widths[side] = max(widths[side], names[joint.terminal])
        heights[side] = max(y, head) - head
    spare = list_spare(slot)
    lone = sum(20.0 for _ in spare)
    lone_width = max((names[name] for name in spare), default=0.0)
    between = 18.0 if all(widths) else 0.0
    slot.width = max(head_width, widths[LEFT] + widths[RIGHT] + between + 18.0, lone_width + 18.0, 56.0)
    slot.height = float(round(head + max(heights) + lone + 4))


def list_spare(slot: Slot) -> list[str]:
    """Terminals that are shown though no line ends there: they bear a mark or tape. They stand lowest, at the left."""
    used = {joint.terminal for joint in slot.joints}
    return [terminal.name for terminal in slot.box.terminals if terminal.name not in used] if slot.box else []
