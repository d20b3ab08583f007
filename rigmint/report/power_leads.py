"""The leads of a setup as a table, worst drop first, and what a short at a far end would do."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rigmint.lint.wording import say_amps, say_gauge, say_volts
from rigmint.report.layout import count
from rigmint.report.power_limits import LeadLimit, find_tightest_limit
from rigmint.report.quantities import show_quantity
from rigmint.report.style import Style
from rigmint.report.table import Cell, lay_table
from rigmint.rig.lead import Conductor
from rigmint.rig.rig import Lead, Rig
from rigmint.study.lead_ohms import rate_conductor
from rigmint.study.power import Point, PointPower, Power
from rigmint.study.short_current import ShortCurrent, find_short_currents
from rigmint.words import Grade

_MOST_LEADS = 8
_WORTH_SHOWING_VOLTS = 0.05
_WORTH_SHOWING_SHARE = 0.5
_CARRIES_AMPS = 0.05
_OVER = 1.001
"""A supply that limits sits at its limit exactly: that is full use, and not over."""


@dataclass(frozen=True, slots=True)
class _Row:
    lead: Lead
    drop: float
    amps: float
    limit: LeadLimit | None

    @property
    def share(self) -> float:
        return self.limit.share if self.limit is not None else 0.0


def lay_leads(rig: Rig, power: Power, point: Point, labels: Sequence[str], style: Style) -> list[str]:
    """A table of the leads that drop most at a point or carry most of what they may, then how many others there are."""
    found = power.points[point]
    rows = [
        _weigh(rig.leads[label], found, find_tightest_limit(rig, rig.leads[label], point, found)) for label in labels
    ]
    rows.sort(key=lambda row: (-row.drop, -row.share, row.lead.label))
    worth = [row for row in rows if row.drop >= _WORTH_SHOWING_VOLTS or row.share >= _WORTH_SHOWING_SHARE]
    tight = sorted(worth, key=lambda row: -row.share)[: _MOST_LEADS // 2]
    shown = [row for row in worth if row in tight or row in worth[: _MOST_LEADS // 2]]
    lines = []
    if shown:
        heads = [Cell(text) for text in ("lead", "conductors", "drop", "carries", "of")]
        lines = lay_table(heads, [_lay_row(row, found) for row in shown], style)
    rest = len(rows) - len(shown)
    if rest:
        most = max(row.drop for row in rows if row not in shown)
        much = "less than 0.1 V" if most < _WORTH_SHOWING_VOLTS else f"{say_volts(most)} or less"
        lines.append(f"{count(rest, 'more lead' if shown else 'lead')} with a drop of {much}.")
    return lines


def _weigh(lead: Lead, point: PointPower, limit: LeadLimit | None) -> _Row:
    found = point.leads[lead.label]
    return _Row(lead, found.drop, found.amps, limit)


def _lay_row(row: _Row, point: PointPower) -> list[Cell]:
    limit = row.limit
    carries, of = say_amps(row.amps), Cell("no limit is known")
    if limit is not None:
        carries = say_amps(limit.amps)
        word = "over: " if limit.share > _OVER else ""
        tilde = "~" if limit.assumed else ""
        text = f"{word}{100 * limit.share:.0f} % of {tilde}{say_amps(limit.limit)}, {limit.what}"
        of = Cell(text, Grade.DEAD if word else "")
    made = f"{_say_conductors(row.lead, point)}, {_say_length(row.lead)}"
    return [Cell(row.lead.label), Cell(made), Cell(say_volts(row.drop)), Cell(carries), of]


def _say_conductors(lead: Lead, point: PointPower) -> str:
    """The gauges of the conductors that carry current; of all, where none does."""
    names = {f"{'~' if conductor.assumed else ''}{say_gauge(conductor)}" for conductor in _list_bearing(lead, point)}
    return " and ".join(sorted(names))


def _list_bearing(lead: Lead, point: PointPower) -> Sequence[Conductor]:
    carried = point.leads[lead.label].conductors if lead.label in point.leads else {}
    bearing = [one for one in lead.body.conductors if abs(carried.get(one.index, 0.0)) > _CARRIES_AMPS]
    return bearing or lead.body.conductors


def _say_length(lead: Lead) -> str:
    tilde = "~" if "length" in lead.assumed else ""
    return tilde + show_quantity(lead.length, "length")


def list_shorts(rig: Rig, power: Power, point: PointPower, off: frozenset[str]) -> Iterator[str]:
    """Where a short at a far end matters, one sentence a source: no fuse on the way, and the source does not trip
    though the lead melts or carries more than it may."""
    worst: dict[str, ShortCurrent] = {}
    for short in find_short_currents(power.circuit):
        if short.source.item in off or short.fused or not _matters(short, _rate(rig.leads[short.label], point)):
            continue
        known = worst.get(short.source.place)
        if known is None or short.amps / short.melts > known.amps / known.melts:
            worst[short.source.place] = short
    for short in worst.values():
        yield (
            f"A short at the far end of {short.label} draws about {short.amps:.0f} A from {short.source.place},"
            f" {_say_protection(short)}; the lead melts from about {short.melts:.0f} A."
        )


def _matters(short: ShortCurrent, rating: float) -> bool:
    """A source that may never trip must melt the lead to matter; one that trips too late, overload it."""
    trips = short.source.cell.trips
    if trips is None or math.isinf(trips):
        return short.amps > short.melts
    return rating < short.amps <= trips


def _rate(lead: Lead, point: PointPower) -> float:
    ratings = [rate_conductor(conductor) for conductor in _list_bearing(lead, point)]
    return min((rating for rating in ratings if rating is not None), default=math.inf)


def _say_protection(short: ShortCurrent) -> str:
    trips = short.source.cell.trips
    if trips is None:
        return "of which no file says whether it trips"
    if math.isinf(trips):
        return "which does not trip"
    return f"which trips only at {'~' if 'trips' in short.source.cell.assumed else ''}{say_amps(trips)}"
