"""What is drawn, before anything has a place: boxes with terminals, lines between them, flags and marks."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from rigmint.words import Grade


class LineKind(StrEnum):
    """How two boxes are joined."""

    LEAD = "lead"
    DOCK = "dock"
    """Mated directly, with contacts."""
    GEAR = "gear"
    """A motor on a lens ring."""
    LINK = "link"
    """By radio."""


class Shape(StrEnum):
    """What a terminal is."""

    PLUG = "plug"
    SOCKET = "socket"
    MATE = "mate"
    RADIO = "radio"
    GEAR = "gear"
    LOOSE = "loose"


@dataclass(frozen=True, slots=True)
class Mark:
    """A finding on an element. `number`: of the finding in the list below the drawing."""

    number: int
    grade: Grade
    says: str


@dataclass(frozen=True, slots=True)
class Terminal:
    """A port, radio, ring or loose end on a box. `place`: as findings name it."""

    name: str
    place: str
    says: str
    shape: Shape
    title: str
    marks: tuple[Mark, ...] = ()
    tape: str = ""
    """What it is marked with: tape, a cap."""


@dataclass(frozen=True, slots=True)
class Box:
    """An item, or the end of a lead in the air."""

    key: str
    title: str
    lines: tuple[str, ...]
    """Smaller text below the title."""
    band: str
    terminals: tuple[Terminal, ...]
    marks: tuple[Mark, ...]
    setups: tuple[str, ...]
    describes: str
    is_loose: bool = False


@dataclass(frozen=True, slots=True)
class Flag:
    """What hangs on an end of a line: its label, a figure beside it, rows below."""

    label: str
    figure: str = ""
    rows: tuple[str, ...] = ()
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class End:
    """An end of a line at a terminal. `arrives`: power or signals come out of it there."""

    box: str
    terminal: str
    arrives: bool
    flag: Flag | None


@dataclass(frozen=True, slots=True)
class Line:
    """A lead, dock, link, or motor on a ring."""

    place: str
    kind: LineKind
    style: str
    """What its stroke is by: a voltage class, `control`, `picture`, or the kind."""
    ends: tuple[End, ...]
    setups: tuple[str, ...]
    describes: str
    pull: int
    """How strongly it draws its ends together; 0: it has no say in which column they stand."""


@dataclass(frozen=True, slots=True)
class Band:
    """A row of the drawing: what its boxes ride on."""

    key: str
    title: str
    says: str


@dataclass(frozen=True, slots=True)
class Note:
    """A finding in the list below the drawing."""

    mark: Mark
    code: str
    setups: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sketch:
    """A drawing without places. Boxes and lines stand in the order of the rig file."""

    layer: str
    title: str
    says: str
    setups: tuple[str, ...]
    bands: tuple[Band, ...]
    boxes: tuple[Box, ...]
    lines: tuple[Line, ...]
    notes: tuple[Note, ...]
    remarks: tuple[str, ...]
    """Sentences at the foot."""
