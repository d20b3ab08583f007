"""What each port of a wiring sees, judged port by port: of all, or of those that a change touches."""

from __future__ import annotations

import math
from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass

from rigmint.graph.pins import GROUND, Pin, Source
from rigmint.rig.electric import Port, Role, find_signal_limit
from rigmint.rig.house import PowerFigures
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.backfeed import PRESENT, change_over_volts, find_intake
from rigmint.study.misplug.burns import Harm, HarmKey, HarmKind, Limits, find_limits, name_pair, name_rails
from rigmint.study.misplug.metal import Metal
from rigmint.study.misplug.wired import Spread, Touched
from rigmint.study.potentials import Potentials
from rigmint.study.worst_volts import REVERSED_MARGIN


@dataclass(frozen=True, slots=True)
class PowerRow:
    """A power port on the metal."""

    ref: PortRef
    port: Port
    feeds: tuple[int, ...]
    minus: int
    limits: Limits
    nodes: frozenset[int]


@dataclass(frozen=True, slots=True)
class SignalRow:
    """A signal contact on the metal."""

    ref: PortRef
    signal: str
    node: int
    ground: int
    limit: float
    nodes: frozenset[int]


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two sources that meet, of which the first has the volts to push into the second."""

    giver: Source
    taker: Source

    @property
    def key(self) -> HarmKey:
        """What the harm is known by."""
        return HarmKind.TIED, "", name_pair(self.giver, self.taker)


@dataclass(frozen=True, slots=True)
class FedOutput:
    """An output that takes current, and the sources of other items that reach it, by whatever way."""

    ref: PortRef
    port: Port
    sources: tuple[str, ...]

    @property
    def key(self) -> HarmKey:
        """What the harm is known by."""
        return HarmKind.INTO_OUTPUT, self.ref.item, name_rails(self.port)


class Judge:
    """The ports of the items of one metal."""

    def __init__(self, rig: Rig, items: frozenset[str], metal: Metal, sources: Sequence[Source]) -> None:
        self._rig = rig
        self._sources = sources
        self.power: list[PowerRow] = []
        self.signals: list[SignalRow] = []
        self.outputs: list[PowerRow] = []
        for name in sorted(items):
            for port in rig.items[name].part.ports.values():
                self._add_port(metal, PortRef(name, port.name), port)

    def _add_port(self, metal: Metal, ref: PortRef, port: Port) -> None:
        part = self._rig.items[ref.item].part
        if port.carries_power:
            feeds = tuple(metal.node(Pin(ref.item, ref.port, contact)) for contact in port.feeds)
            minus = metal.node(Pin(ref.item, ref.port, port.minus_contacts[0]))
            row = PowerRow(ref, port, feeds, minus, find_limits(part, port), frozenset((*feeds, minus)))
            self.power.append(row)
            if port.role is Role.OUT and find_intake(part, port, math.inf) is False:
                self.outputs.append(row)
        ground = metal.node(Pin(ref.item, ref.port if port.isolated else "", GROUND))
        for contact, signal in port.signals.items():
            node = metal.node(Pin(ref.item, ref.port, contact))
            limit, _ = find_signal_limit(port.levels.get(signal))
            self.signals.append(SignalRow(ref, signal, node, ground, limit, frozenset((node, ground))))

    def list_harms(self, touched: Touched) -> Iterator[Harm]:
        """What is destroyed at the ports that a change touches, and the sources that it shorts."""
        spread = touched.spread
        for reach in spread.reaches:
            if reach.shorted is not None:
                yield Harm(HarmKind.SHORT, None, reach.source.highest, None, reach.source.place)
        live = [reach for reach in spread.reaches if reach.shorted is None]
        for row in self.power:
            if row.limits.low is None or row.nodes.isdisjoint(touched.nodes):
                continue
            high, low = measure(spread, live, row)
            if high is not None and row.limits.high is not None and high > row.limits.high:
                yield Harm(HarmKind.OVER, row.ref, high, row.limits.high, "")
            if low is not None and low < row.limits.low:
                yield Harm(HarmKind.REVERSED, row.ref, low, row.limits.low + REVERSED_MARGIN, "")
        for signal in self.signals:
            if not signal.nodes.isdisjoint(touched.nodes):
                volts = _measure_signal(spread, live, signal)
                if volts is not None and volts > signal.limit:
                    yield Harm(HarmKind.SIGNAL, signal.ref, volts, signal.limit, signal.signal)

    def list_meeting(self, spread: Spread, figures: PowerFigures) -> Iterator[Meeting]:
        """The pairs of sources of which one has the volts to push into the other."""
        for reach in spread.reaches:
            giver = reach.source
            spare = giver.highest - giver.cell.volts.high if giver.fixed is None else 0.0
            for taker in self._sources:
                if taker.item == giver.item or reach.shorted is not None:
                    continue
                across = reach.across(spread.nets[taker.plus], spread.nets[taker.minus])
                if across is not None and across - spare > change_over_volts(taker.cell, figures):
                    yield Meeting(giver, taker)

    def list_fed_outputs(
        self, touched: Touched, base: Spread, pushed: Container[tuple[str, str]], rise: float | None
    ) -> Iterator[FedOutput]:
        """The outputs that a change touches, that take current, and that a source of another item reaches: whether it
        does so from outside is to be traced. `pushed`: (source, item) of the sources that push into one of its own.
        `rise`: only those that get so many V more than before; None: all."""
        spread = touched.spread
        for row in self.outputs:
            is_near = any(spread.nets[node] in touched.under_leads for node in row.feeds)
            if not is_near and row.nodes.isdisjoint(touched.nodes):
                continue
            part = self._rig.items[row.ref.item].part
            sources = []
            for reach in spread.reaches:
                source = reach.source
                if source.item == row.ref.item or reach.shorted is not None or (source.place, row.ref.item) in pushed:
                    continue
                volts, _ = measure(spread, [reach], row)
                if volts is None or not _has_risen(base, row, volts, rise):
                    continue
                if volts > PRESENT and find_intake(part, row.port, volts) is False:
                    sources.append(source.place)
            if sources:
                yield FedOutput(row.ref, row.port, tuple(sources))


def _has_risen(base: Spread, row: PowerRow, volts: float, rise: float | None) -> bool:
    if rise is None:
        return True
    before, _ = measure(base, [reach for reach in base.reaches if reach.shorted is None], row)
    return before is None or volts > before + rise


def measure(spread: Spread, live: Sequence[Potentials], row: PowerRow) -> tuple[float | None, float | None]:
    """The highest and the lowest V that live sources put on a port."""
    nets = spread.nets
    minus = nets[row.minus]
    found = [volts for reach in live for node in row.feeds if (volts := reach.across(nets[node], minus)) is not None]
    return (max(found), min(found)) if found else (None, None)


def _measure_signal(spread: Spread, live: Sequence[Potentials], row: SignalRow) -> float | None:
    net, ground = spread.nets[row.node], spread.nets[row.ground]
    found = [volts for reach in live if net in reach.plus and (volts := reach.across(net, ground)) is not None]
    return max(found, default=None)
