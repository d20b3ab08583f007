"""What can be destroyed in a wiring, as keys that two wirings can be compared by: what a rig has without a mistake is
not the mistake's."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import IntEnum
from typing import TypeAlias

from rigmint.graph.pins import Source
from rigmint.rig.electric import Port
from rigmint.rig.part import Part
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.backfeed import Backfeed, TiedSources
from rigmint.study.electronics import has_electronics
from rigmint.study.worst_volts import REVERSED_MARGIN, WorstVolts

_RAIL_LOW = -0.3
"""V below which a port that states nothing starts to be reversed."""


class HarmKind(IntEnum):
    """What is destroyed, and how: what speaks first of one socket comes first."""

    SHORT = 0
    """Plus and minus of a source are joined."""
    REVERSED = 1
    SIGNAL = 2
    """Plus on a signal contact."""
    OVER = 3
    TIED = 4
    """One source pushes into another."""
    INTO_OUTPUT = 5
    """A feed pushed into an output."""


HarmKey: TypeAlias = tuple[HarmKind, str, str]


@dataclass(frozen=True, slots=True)
class Harm:
    """Something that can be destroyed. `ref`: the port; None for a short and for tied sources, which have none."""

    kind: HarmKind
    ref: PortRef | None
    volts: float
    limit: float | None
    what: str
    """The signal, the source, the pair of sources, or the rails of an output."""

    @property
    def key(self) -> HarmKey:
        """What tells it from others: outputs on the same rails of an item are one."""
        if self.ref is None:
            return self.kind, "", self.what
        return self.kind, self.ref.item if self.kind is HarmKind.INTO_OUTPUT else self.ref.place, self.what


@dataclass(frozen=True, slots=True)
class Limits:
    """V from which a port is destroyed, above and below; None where nothing behind it can be."""

    high: float | None
    low: float | None


def find_limits(part: Part, port: Port) -> Limits:
    """As the rules on reversed feeds and on too many volts judge them."""
    survives = port.survives
    is_stated = survives is not None and "survives" not in port.assumed
    if not has_electronics(part) and not is_stated:
        return Limits(None, None)
    low = min(survives.low if survives is not None else _RAIL_LOW, _RAIL_LOW) - REVERSED_MARGIN
    return Limits(survives.high if survives is not None else None, low)


def list_harms(
    rig: Rig, worst: WorstVolts, tied: Sequence[TiedSources], backfeeds: Sequence[Backfeed]
) -> dict[HarmKey, Harm]:
    """Everything that can be destroyed in a wiring. `worst`: its volts; `tied` and `backfeeds`: what they make of its
    sources and outputs."""
    found: dict[HarmKey, Harm] = {}
    for harm in (*_list_at_ports(rig, worst), *list_between_sources(rig, tied, backfeeds)):
        found.setdefault(harm.key, harm)
    return found


def _list_at_ports(rig: Rig, worst: WorstVolts) -> Iterator[Harm]:
    for shorted in worst.shorts:
        yield Harm(HarmKind.SHORT, None, shorted.source.highest, None, shorted.source.place)
    for ref, volts in worst.ports.items():
        limits = find_limits(rig.items[ref.item].part, volts.port)
        if volts.high is not None and limits.high is not None and volts.high.volts > limits.high:
            yield Harm(HarmKind.OVER, ref, volts.high.volts, limits.high, "")
        if volts.low is not None and limits.low is not None and volts.low.volts < limits.low:
            yield Harm(HarmKind.REVERSED, ref, volts.low.volts, limits.low + REVERSED_MARGIN, "")
    for signal in worst.signals:
        yield Harm(HarmKind.SIGNAL, signal.ref, signal.reach.volts, signal.limit, signal.signal)


def list_between_sources(rig: Rig, tied: Sequence[TiedSources], backfeeds: Sequence[Backfeed]) -> Iterator[Harm]:
    """The sources that push into each other, and the outputs that a feed is pushed into: not those of a battery that is
    tied to the same source, which says it better."""
    for one in tied:
        yield Harm(HarmKind.TIED, None, one.giver.highest, None, name_pair(one.giver, one.taker))
    pushed = {(one.giver.place, one.taker.item) for one in tied}
    for backfeed in backfeeds:
        if not backfeed.guessed and (backfeed.source.place, backfeed.ref.item) not in pushed:
            rails = name_rails(rig.port(backfeed.ref))
            yield Harm(HarmKind.INTO_OUTPUT, backfeed.ref, backfeed.volts, None, rails)


def name_pair(giver: Source, taker: Source) -> str:
    """What a harm calls two sources of which one pushes into the other."""
    return f"{giver.place} {taker.place}"


def name_rails(port: Port) -> str:
    """What a harm calls the rails of an output."""
    return " ".join(sorted(set(port.feeds.values())))
