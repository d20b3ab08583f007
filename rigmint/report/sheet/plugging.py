"""Meter and plug: a row a power lead in plugging order, then the signal leads, then how it comes apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from rigmint.lint.wording import say_volts
from rigmint.report.sheet.plug_face import PlugFace, draw_face
from rigmint.rig.electric import MINUS, PLUS
from rigmint.rig.rig import Lead, PortRef, Rig, Setup
from rigmint.study.hot_plugging import find_hot_warning
from rigmint.study.layers import Layer
from rigmint.study.metering import Expected
from rigmint.study.plugging import Mating, PluggingOrder, Turn
from rigmint.study.studies import Studies
from rigmint.study.uses import Uses

_DOCK = "dock:"


@dataclass(frozen=True, slots=True)
class MeterRow:
    """A lead to plug; for power: the face of its far plug and the volts to expect."""

    label: str
    mark: str
    start: str
    end: str
    face: PlugFace | None
    expect: str
    carries: str
    hot: str
    """What must never be done hot, in words."""


@dataclass(frozen=True, slots=True)
class Plugging:
    """One setup, or `same_as`: the setup before it whose rows it shares."""

    setup: str
    same_as: str
    conflicts: tuple[str, ...]
    power: tuple[MeterRow, ...]
    signals: tuple[MeterRow, ...]
    last: tuple[str, ...]
    unplugging: tuple[str, ...]


def gather_plugging(studies: Studies, uses: Mapping[str, Uses]) -> tuple[Plugging, ...]:
    """Every setup shown; one that is plugged as another is says so instead."""
    told: list[Plugging] = []
    for name in uses:
        one = _gather_setup(studies, studies.rig.setups[name], uses)
        same = next((other for other in told if replace(other, setup=name) == one), None)
        told.append(one if same is None else Plugging(name, same.setup, (), (), (), (), ()))
    return tuple(told)


def _gather_setup(studies: Studies, setup: Setup, uses: Mapping[str, Uses]) -> Plugging:
    rig = studies.rig
    order = studies.plugging_order(setup)
    last = [one.place for one in order.matings if one.turn is Turn.SOURCE and one.place.startswith(_DOCK)]
    rows: dict[bool, list[MeterRow]] = {True: [], False: []}
    for mating in order.matings:
        if mating.place not in last:
            rows[mating.turn is Turn.SIGNAL] += _list_rows(studies, setup, mating, uses)
    return Plugging(
        setup=setup.name,
        same_as="",
        conflicts=tuple(f"{name_mating(rig, one.place)}: in this order, {one.says}." for one in order.conflicts),
        power=tuple(rows[False]),
        signals=tuple(rows[True]),
        last=tuple(name_mating(rig, place) for place in last),
        unplugging=_list_backwards(rig, order),
    )


def _list_backwards(rig: Rig, order: PluggingOrder) -> tuple[str, ...]:
    return tuple(name_mating(rig, mating.place) for mating in reversed(order.matings))


def name_mating(rig: Rig, place: str) -> str:
    """A lead by its label, a dock by what goes onto what."""
    if not place.startswith(_DOCK):
        return place
    dock = rig.docks[int(place.removeprefix(_DOCK))]
    return f"{dock.first.item} on {dock.second.item}"


def _list_rows(studies: Studies, setup: Setup, mating: Mating, uses: Mapping[str, Uses]) -> Iterator[MeterRow]:
    """A row for each far end of a lead: where power arrives, else every end but the first; one for a dock."""
    rig = studies.rig
    if mating.place.startswith(_DOCK):
        start, end = (_say_port(rig, ref) for ref in mating.refs)
        yield MeterRow("docked", "", start, end, None, "", "", "")
        return
    lead = rig.leads[mating.place]
    used = [one.by_place[lead.label] for one in uses.values() if lead.label in one.by_place]
    is_power = mating.turn is not Turn.SIGNAL
    heads = {ref for use in used for ref in use.heads.get(Layer.POWER, ())} if is_power else set()
    ends = sorted(lead.plugged)
    far = [end for end in ends if lead.plugged[end] in heads] or ends[1:] or ends
    near = [end for end in ends if end not in far] or ends[:1]
    carried = dict.fromkeys(word for use in used for word in (*use.axes, *use.flows, *use.formats))
    expected = studies.expected_volts(setup)
    for end in far:
        ref = lead.plugged[end]
        yield MeterRow(
            label=lead.label,
            mark=rig.marked.get(lead.label) or lead.mark or "",
            start=", ".join(_say_port(rig, lead.plugged[one]) for one in near),
            end=_say_port(rig, ref),
            face=draw_face(lead.body.ends[end].connector, _list_roles(rig, lead, end)) if is_power else None,
            expect=_say_expected(expected.get(ref)) if is_power else "",
            carries=", ".join(carried),
            hot=find_hot_warning(studies, setup, lead),
        )


def _list_roles(rig: Rig, lead: Lead, end: str) -> Mapping[str, str]:
    """Contact to plus or minus, as the port at that end takes them."""
    port = rig.port(lead.plugged[end])
    feeds = dict.fromkeys(port.feeds, PLUS)
    return feeds | dict.fromkeys(port.minus_contacts, MINUS)


def _say_port(rig: Rig, ref: PortRef) -> str:
    return f"{ref.item}, {rig.port(ref).says}"


def _say_expected(found: Expected | None) -> str:
    if found is None:
        return ""
    low, high = say_volts(found.low), say_volts(found.high)
    return high if low == high else f"{low.removesuffix(' V')} to {high}"
