"""Rails that nothing feeds, regulators outside of what they take, loads above what an input carries."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint.lint.parts.hint import Hint, PartView
from rigmint.lint.parts.volts import find_fed_rails, find_own_volts, find_rail_volts
from rigmint.lint.parts.windows import say_window
from rigmint.lint.wording import say_amps, say_volts
from rigmint.rig.electric import Bridge, LoadKind, Rail, RegulatorSpec, Role, Window
from rigmint.words import Grade


def check_fed(view: PartView) -> Iterator[Hint]:
    """What draws or gives power is fed."""
    fed = find_fed_rails(view.part)
    for name, rail in view.part.rails.items():
        outlets = _list_outlets(view, name)
        feeds_on = any(bridge.source == name for bridge in view.part.bridges)
        if name in fed or not (rail.load is not None or outlets or feeds_on):
            continue
        does = (
            f"feeds port {outlets[0]}" if outlets else "draws power" if rail.load is not None else "feeds other rails"
        )
        yield Hint(
            "part:rail-unfed",
            f"Rail {name} {does}, and nothing feeds it: no cell, no bridge, no port that takes power.",
            f"Write what feeds it: `bridges: [{{from: ..., to: {name}, by: ...}}]`, a cell, or `role: in` of a port.",
            ("rails", name),
            name,
        )


def _list_outlets(view: PartView, rail: str) -> list[str]:
    """Ports through which a rail gives power."""
    ports = view.part.ports.values()
    return [port.name for port in ports if port.role is not Role.IN and rail in port.feeds.values()]


def check_regulators(view: PartView) -> Iterator[Hint]:
    """A regulator takes what its rail may give it, and gives what its own rail draws."""
    volts = find_rail_volts(view.part)
    for bridge in view.part.bridges:
        regulator = bridge.regulator
        if regulator is None:
            continue
        name = f"The regulator from {bridge.source} to {bridge.target}"
        path = ("bridges", bridge.index)
        source = volts.get(bridge.source)
        if source is not None:
            for says, write, is_dead in _judge_source(regulator, source, bridge):
                grade = Grade.DEAD if is_dead else None
                yield Hint("part:regulator", f"{name} {says}.", write, path, bridge.target, grade)
        load = view.part.rails[bridge.target].load
        if load is not None and regulator.max_amps is not None:
            given = regulator.out * regulator.max_amps
            if load.watts_at(regulator.out) > given * (1 + 1e-9):
                yield Hint(
                    "part:regulator",
                    f"{name} gives at most {given:.0f} W, and {bridge.target} alone draws"
                    f" {load.watts_at(regulator.out):.0f} W.",
                    "Look up `max` of the regulator and `load` of the rail.",
                    path,
                    bridge.target,
                    Grade.DEAD,
                )


def _judge_source(regulator: RegulatorSpec, source: Window, bridge: Bridge) -> Iterator[tuple[str, str, bool]]:
    takes = regulator.takes
    is_stated = "takes" not in regulator.assumed
    if is_stated and (source.low < takes.low or source.high > takes.high):
        is_dead = source.high < takes.low or source.low > takes.high
        says = f"takes {say_window(takes)}, and {bridge.source} may stand at {say_window(source)}"
        yield says, "Write `takes` as wide as what feeds it, or narrow `works` of the input.", is_dead
    elif not regulator.lifts and source.low < regulator.out:
        is_dead = source.high < regulator.out
        says = f"gives {say_volts(regulator.out)} without stepping up, and {bridge.source} may stand at"
        yield f"{says} {say_volts(source.low)}", "Write `lifts: true` where it steps up too.", is_dead


def check_load(view: PartView) -> Iterator[Hint]:
    """A device draws no more than its only input carries."""
    part = view.part
    inputs = [port for port in part.ports.values() if port.role is not Role.OUT and port.carries_power]
    loads = [rail for rail in part.rails.values() if rail.load is not None]
    watts = sum(_watts(rail) for rail in loads)
    if len(inputs) == 1 and not part.cells and inputs[0].works is not None and inputs[0].max_amps is not None:
        port, works = inputs[0], inputs[0].works
        limit = inputs[0].max_amps
        if works.low > 0 and watts / works.low > limit * (1 + 1e-9) and "works" not in port.assumed:
            yield Hint(
                "part:load",
                f"It draws {watts:.0f} W, {say_amps(watts / works.low)} at {say_volts(works.low)}, and {port.name}"
                f" carries {say_amps(limit)}.",
                f"Look up `load`, and `max` and `works` of {port.name}.",
                ("ports", port.name, "max"),
                port.name,
            )


def _watts(rail: Rail) -> float:
    """W of a load that does not hang on its volts; others are left out."""
    return rail.load.amount if rail.load is not None and rail.load.kind is LoadKind.POWER else 0.0


def check_battery(view: PartView) -> Iterator[Hint]:
    """A battery or a supply has something that gives."""
    part = view.part
    if part.kind in ("battery", "supply") and not part.cells and not find_own_volts(part):
        takes = any(port.role is not Role.OUT and port.carries_power for port in part.ports.values())
        if part.kind == "battery" or not takes:
            yield Hint(
                "part:cell",
                f"A {part.kind} without a cell gives nothing.",
                "Write `cells: {pack: {volts: ..., energy: ..., max: ...}}`.",
                ("cells",),
            )
