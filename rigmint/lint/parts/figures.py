"""Two figures of one thing that cannot both be true."""

from __future__ import annotations

import re
from collections.abc import Iterator

from rigmint.lint.parts.hint import Hint, PartView
from rigmint.lint.parts.windows import say_window
from rigmint.lint.wording import say_amps, say_kilograms, say_volts
from rigmint.rig.electric import Cell, Draw, LoadKind, Rail

_CODE = "part:figures"
_LITHIUM = re.compile(r"li-ion-(\d+)s")
_CELL_LOW, _CELL_HIGH = 2.5, 4.4
"""V of one lithium cell, from cut-off to the highest charging voltage of common cells (common practice)."""


def check_loads(view: PartView) -> Iterator[Hint]:
    """Peak and start are not below the load."""
    for name, rail in view.part.rails.items():
        for key, draw in (("peak", rail.peak), ("start", rail.start)):
            if draw is not None and _is_less(draw, rail) and key not in rail.assumed:
                yield Hint(
                    _CODE,
                    f"Rail {name} draws {_say(rail.load)} all the time and {_say(draw)} at {key}, which is less.",
                    f"Write `{key}` as what the rail draws at most, at least {_say(rail.load)}.",
                    ("rails", name, key),
                    name,
                )


def check_cells(view: PartView) -> Iterator[Hint]:
    """Nominal volts inside the range, tripping not below the rating, a range that the cells in series can have."""
    for cell in view.part.cells.values():
        for says, write, key in _judge_cell(cell):
            yield Hint(_CODE, f"Cell {cell.name} {says}.", write, ("cells", cell.name, key), cell.name)


def _judge_cell(cell: Cell) -> Iterator[tuple[str, str, str]]:
    if not cell.volts.holds(cell.nominal):
        says = f"is called {say_volts(cell.nominal)} and gives {say_window(cell.volts)}"
        yield says, "Write `nominal` inside `volts`.", "nominal"
    if cell.trips is not None and cell.max_amps is not None and cell.trips < cell.max_amps:
        says = f"gives up to {say_amps(cell.max_amps)} and trips at {say_amps(cell.trips)}"
        yield says, "Write `max` as what it gives for as long as one likes, and `trips` above it.", "trips"
    series = _LITHIUM.fullmatch(cell.chemistry)
    if series is not None:
        number = int(series[1])
        low, high = number * _CELL_LOW, number * _CELL_HIGH
        if cell.volts.low < low or cell.volts.high > high:
            says = (
                f"gives {say_window(cell.volts)}, and {number} lithium cells in series give {low:.1f} to {high:.1f} V"
            )
            yield says, "Count the cells, or write `chemistry: other`.", "chemistry"


def check_levels(view: PartView) -> Iterator[Hint]:
    """A contact survives what it gives and what it takes."""
    for name, port in view.part.ports.items():
        for signal, level in port.levels.items():
            for verb, volts in (("gives", level.gives), ("takes", level.takes)):
                if isinstance(volts, float) and level.survives is not None and not level.survives.holds(volts):
                    yield Hint(
                        _CODE,
                        f"{signal} of {name} {verb} {say_volts(volts)} and survives {say_window(level.survives)}.",
                        "Look both up again: one of them is of another device.",
                        ("ports", name, "levels", signal),
                        name,
                    )


def check_payload(view: PartView) -> Iterator[Hint]:
    """The most that is carried is not below the least."""
    payload = view.part.payload
    if payload is not None and payload.high is not None and payload.high <= payload.low:
        yield Hint(
            _CODE,
            f"It carries at least {say_kilograms(payload.low)} and at most {say_kilograms(payload.high)}.",
            "Write `payload: {min: ..., max: ...}` with the smaller mass first.",
            ("payload",),
        )


def check_joints(view: PartView) -> Iterator[Hint]:
    """A joint that turns without end has no travel."""
    for name, joint in view.part.joints.items():
        if joint.endless and joint.travel is not None:
            yield Hint(
                _CODE,
                f"{name} turns without end, and has a travel.",
                "Write `endless: false`, or `travel: null` where the part starts from another one.",
                ("joints", name),
                name,
            )


def check_radio_channels(view: PartView) -> Iterator[Hint]:
    """A channel lies inside its radio's band."""
    for name, radio in view.part.radios.items():
        band = radio.band
        if band is None:
            continue
        outside = [
            key
            for key, one in radio.channels.items()
            if one.centre - one.width / 2 < band.low or one.centre + one.width / 2 > band.high
        ]
        if outside:
            listed = ", ".join(outside)
            verb = "channel {} lies" if len(outside) == 1 else "channels {} lie"
            yield Hint(
                _CODE,
                f"{name}: {verb.format(listed)} outside its band, {band.low / 1e6:g} to {band.high / 1e6:g} MHz.",
                "Look up the band and the channels' centres and widths.",
                ("radios", name, "channels", outside[0]),
                name,
            )


def _is_less(draw: Draw, rail: Rail) -> bool:
    load = rail.load
    if load is None or draw.kind is not load.kind:
        return False
    return draw.amount > load.amount if load.kind is LoadKind.RESISTANCE else draw.amount < load.amount


def _say(draw: Draw | None) -> str:
    units = {LoadKind.POWER: "W", LoadKind.CURRENT: "A", LoadKind.RESISTANCE: "ohm"}
    return f"{draw.amount:g} {units[draw.kind]}" if draw is not None else "nothing"
