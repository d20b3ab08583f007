"""Labels of leads: two lines for the tape at each end, its colour as a word, and the CSV for a label printer."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from rigmint.report.safe import clean
from rigmint.rig.house import House
from rigmint.rig.place import end_place
from rigmint.rig.rig import Lead, Rig
from rigmint.rig.volt_class import VoltClass, classify_volts
from rigmint.study.layers import Layer
from rigmint.study.uses import Use, Uses

SIGNAL = "signal"
TAPES = {
    VoltClass.FIVE: "blue",
    VoltClass.EIGHT: "green",
    VoltClass.TWELVE: "yellow",
    VoltClass.TWENTY_FOUR: "red",
    VoltClass.FORTY_EIGHT: "orange",
    VoltClass.HIGH: "black",
    SIGNAL: "white",
}
"""Class to tape where the library does not set it: of our own choosing, since houses differ."""
LOOSE = "loose"
UNFED = "unfed"
NO_TAPE = "none"

_HEADS = ("lead", "end", "line_1", "line_2", "tape", "class")
_STARTS_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
_MOST_WORDS = 2
_FED = 0.5
"""V from which a lead counts as fed."""
_SAME = 0.15
"""V by which a label may differ from what is measured, under 10 V."""


@dataclass(frozen=True, slots=True)
class LeadLabel:
    """The label on one end of a lead."""

    lead: str
    end: str
    first: str
    """`P2  14 V`."""
    second: str
    """`breakout.out_1 > camera.dc_in`."""
    tape: str
    volt_class: str
    """A voltage class, `signal`, or `unfed` for a power lead without a source."""


def list_labels(rig: Rig, uses: Mapping[str, Uses], house: House) -> tuple[LeadLabel, ...]:
    """The labels of the leads that are there in any of the setups that `uses` names, in the order of the file."""
    found: list[LeadLabel] = []
    for label, lead in rig.leads.items():
        own = [(one.by_place[label], one.burns) for one in uses.values() if label in one.by_place]
        if own:
            found += _list_ends(rig, lead, own, house)
    return tuple(found)


def _list_ends(rig: Rig, lead: Lead, own: Sequence[tuple[Use, bool]], house: House) -> Iterator[LeadLabel]:
    uses = [use for use, _ in own]
    volts = _list_volts(lead, own)
    is_power = any(Layer.POWER in use.layers for use in uses)
    volt_class = str(classify_volts(max(volts, key=abs))) if volts else UNFED if is_power else SIGNAL
    tapes: Mapping[str, str] = {**TAPES, **house.tapes}
    names = [*lead.plugged, *sorted(lead.loose)]
    for name in names:
        place = end_place(lead.label, name)
        tape = rig.marked.get(place) or rig.marked.get(lead.label) or lead.mark or tapes.get(volt_class, NO_TAPE)
        shown = lead.label if len(names) == 2 else place
        yield LeadLabel(
            lead=lead.label,
            end=name,
            first=f"{shown}  {_say_volts(volts) if volts else _say_signal(uses)}",
            second=_say_way(lead, names, name),
            tape=tape,
            volt_class=volt_class.replace("_", "-"),
        )


def _list_volts(lead: Lead, own: Sequence[tuple[Use, bool]]) -> list[float]:
    """V at typical where power arrives, else at any end, lowest first. In a setup that burns something these say
    nothing, and the volts without loads stand in; none for a lead without power or without a source."""
    heads = {ref for use, _ in own for ref in use.heads.get(Layer.POWER, ())}
    tables = [use.nominal if burns else use.volts for use, burns in own if Layer.POWER in use.layers]
    for ref in sorted(lead.plugged.values(), key=lambda ref: (ref not in heads, ref)):
        volts = sorted({table[ref] for table in tables if ref in table and abs(table[ref]) >= _FED})
        if volts:
            return volts
    return []


def _say_volts(volts: Sequence[float]) -> str:
    """`14 V`; `12 to 14 V` where setups differ."""
    shown = list(dict.fromkeys(_round(value) for value in (volts[0], volts[-1])))
    return f"{' to '.join(shown)} V"


def _round(volts: float) -> str:
    """To whole volts; under 10 V to a tenth where that says more: 7.2, but 5 for what shows 5.1."""
    whole = round(volts)
    is_whole = abs(volts) >= 10 or abs(volts - whole) < _SAME
    return f"{whole + 0.0:.0f}" if is_whole else f"{round(volts, 1) + 0.0:g}"


def _say_signal(uses: Sequence[Use]) -> str:
    """What uses the lead, where that is short, else what it is for."""
    words = list(dict.fromkeys(word for use in uses for word in (*use.axes, *use.flows)))
    if words and len(words) <= _MOST_WORDS:
        return " ".join(words)
    layers = {layer for use in uses for layer in use.layers}
    return next((layer.value for layer in Layer if layer in layers), SIGNAL)


def _say_way(lead: Lead, names: Sequence[str], end: str) -> str:
    """From the lead's first end to this one; at the first end, to all others."""
    places = {name: lead.plugged[name].place if name in lead.plugged else LOOSE for name in names}
    first, *others = names
    if end != first:
        others = [end]
    return f"{places[first]} > {', '.join(places[name] for name in others)}" if others else places[first]


def render_labels(labels: Iterable[LeadLabel]) -> str:
    """The labels as CSV with a row of heads."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(_HEADS)
    for one in labels:
        cells = (one.lead, one.end, one.first, one.second, one.tape, one.volt_class)
        writer.writerow([disarm_cell(cell) for cell in cells])
    return text.getvalue()


def disarm_cell(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula: an apostrophe goes before one that looks like it."""
    shown = clean(cell)
    return f"'{shown}" if shown.lstrip().startswith(_STARTS_FORMULA) else shown
