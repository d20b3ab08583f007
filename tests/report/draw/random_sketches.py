"""Drawings by seed that no rig would give: any number of bands, lines between any boxes and within one, looms with many
ends, several lines on one terminal, flags of every size, names of any length."""

from __future__ import annotations

from random import Random

from rigmint.report.draw.model import Band, Box, End, Flag, Line, LineKind, Mark, Note, Shape, Sketch, Terminal
from rigmint.words import Grade

_BANDS = ("tilt", "roll", "pan", "base", "away")
_WORDS = (
    "motor",
    "p",
    "breakout_four",
    "שלום",
    "カメラ",
    "🎥🎥",
    "<b>&",
    "a_very_long_name_of_an_item_that_goes_on_and_on",
)
_STYLES = {LineKind.DOCK: "dock", LineKind.GEAR: "gear", LineKind.LINK: "link"}
_LEADS = ("five", "twelve", "twenty_four", "control", "picture", "unfed")


def make_sketch(seed: int, boxes: int, lines: int) -> Sketch:
    """The same for the same seed."""
    random = Random(seed)
    bands = _BANDS[: random.randint(1, 5)]
    marks = tuple(Mark(n, random.choice(list(Grade)), f"says {n}") for n in range(1, 6))
    names = [f"item_{n}" for n in range(boxes)]
    used: dict[str, set[str]] = {name: set() for name in names}
    drawn = tuple(_make_line(random, n, names, used, marks) for n in range(lines))
    made = tuple(_make_box(random, name, sorted(used[name]), random.choice(bands), marks) for name in names)
    present = {box.band for box in made}
    return Sketch(
        layer="power",
        title=f"Random {seed}",
        says="",
        setups=("one",),
        bands=tuple(Band(band, band, "stage") for band in bands if band in present),
        boxes=made,
        lines=drawn,
        notes=tuple(Note(mark, "voltage:over", ("one",)) for mark in marks),
        remarks=("Meter it.",),
    )


def _take(random: Random, marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
    return tuple(random.sample(marks, random.choice((0, 0, 0, 1, 2, 5))))


def _make_line(
    random: Random, number: int, names: list[str], used: dict[str, set[str]], marks: tuple[Mark, ...]
) -> Line:
    kind = random.choice([LineKind.LEAD] * 6 + [LineKind.DOCK, LineKind.GEAR, LineKind.LINK])
    count = random.choice((2, 2, 2, 2, 3, 4, 6)) if kind in (LineKind.LEAD, LineKind.LINK) else 2
    ends = []
    for place in range(count):
        box = random.choice(names)
        free = [name for name in used[box] if (box, name) not in {(end.box, end.terminal) for end in ends}]
        terminal = random.choice(sorted(free)) if free and random.random() < 0.15 else f"port_{number}_{place}"
        used[box].add(terminal)
        rows = tuple(random.choice(("battery", "pan tilt roll", "in two_up")) for _ in range(random.randint(0, 4)))
        figure = random.choice(("", "14.1 V", "13.8 to 14.1 V"))
        flag = Flag(f"L{number}", figure, rows, _take(random, marks)) if random.random() < 0.9 else None
        flag = flag if kind in (LineKind.LEAD, LineKind.LINK) else None
        ends.append(End(box, terminal, random.random() < 0.5, flag))
    style = _STYLES.get(kind) or random.choice(_LEADS)
    return Line(f"L{number}", kind, style, tuple(ends), ("one",), f"L{number}", random.randint(0, 3))


def _make_box(random: Random, name: str, terminals: list[str], band: str, marks: tuple[Mark, ...]) -> Box:
    spare = [f"spare_{n}" for n in range(random.choice((0, 0, 0, 1, 3)))]
    return Box(
        key=name,
        title=random.choice(_WORDS)[:24],
        lines=tuple(random.choice(_WORDS)[:20] for _ in range(random.randint(0, 4))),
        band=band,
        terminals=tuple(_make_terminal(random, name, one, marks) for one in [*terminals, *spare]),
        marks=_take(random, marks),
        setups=("one",),
        describes=name,
    )


def _make_terminal(random: Random, box: str, name: str, marks: tuple[Mark, ...]) -> Terminal:
    shape = random.choice(list(Shape))
    tape = random.choice(("", "", "", "red ring"))
    return Terminal(name, f"{box}.{name}", random.choice(_WORDS)[:16], shape, name, _take(random, marks), tape)
