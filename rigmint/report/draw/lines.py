"""The lines of a drawing: leads, docks, links, and motors on lens rings. What only holds mechanically is no line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from rigmint.report.draw.findings import Marks
from rigmint.report.draw.flags import (
    find_volts,
    make_link_flag,
    make_power_flag,
    make_signal_flag,
    say_range,
    say_traffic,
)
from rigmint.report.draw.model import End, Flag, Line, LineKind
from rigmint.report.draw.sizes import MOST_ROW, ROW
from rigmint.report.draw.text import fold
from rigmint.rig.electric import Role
from rigmint.rig.rig import Dock, Fitting, Lead, Link, PortRef, Rig
from rigmint.rig.volt_class import classify_volts
from rigmint.study.layers import Layer
from rigmint.study.uses import Use, Uses

GEAR = "gear"
"""Terminal of a motor that sits on a ring."""
_FED = 0.5
"""V from which a lead counts as fed."""
_PULL = {LineKind.LEAD: 2, LineKind.DOCK: 6, LineKind.LINK: 1, LineKind.GEAR: 3}


def loose_key(label: str, end: str) -> str:
    """The box that stands for an end in the air."""
    return f"{label}:{end}"


class LineMaker:
    """Makes the lines of one layer (None: all) in the setups that `uses` names."""

    def __init__(
        self,
        rig: Rig,
        uses: Mapping[str, Uses],
        merged: Mapping[str, Sequence[Use]],
        marks: Marks,
        layer: Layer | None,
    ) -> None:
        self._rig = rig
        self._uses = uses
        self._merged = merged
        self._marks = marks
        self._layer = layer
        self._shown = (layer,) if layer is not None else tuple(Layer)

    def make(self) -> tuple[Line, ...]:
        """In the order of the file: leads, docks, links, motors on rings."""
        return (
            *(self._draw_lead(lead) for lead in self._rig.leads.values() if self._is_shown(lead.label)),
            *(self._draw_dock(dock) for dock in self._rig.docks if self._is_shown(f"dock:{dock.index}")),
            *self._draw_links(),
            *self._draw_gears(),
        )

    def _is_shown(self, place: str) -> bool:
        if place not in self._merged:
            return False
        uses = self._merged[place]
        if self._layer is None:  # what only holds mechanically is no wiring
            return place in self._rig.leads or any(use.layers for use in uses)
        return any(self._layer in use.layers for use in uses)

    def _find_setups(self, place: str) -> tuple[str, ...]:
        return tuple(name for name, uses in self._uses.items() if place in uses.by_place)

    def _say_setups(self, place: str) -> list[str]:
        """`in two_up`, where a line is not in every setup that is drawn."""
        setups = self._find_setups(place)
        return fold(f"in {' '.join(setups)}", MOST_ROW, ROW, most=2) if len(setups) < len(self._uses) else []

    def _layers_of(self, uses: Sequence[Use]) -> list[Layer]:
        return [layer for layer in self._shown if any(layer in use.layers for use in uses)]

    def _find_heads(self, uses: Sequence[Use], layers: Sequence[Layer]) -> set[PortRef]:
        """Where power arrives, in layers that show it; else where signals do."""
        if Layer.POWER in layers:
            powered = {ref for use in uses for ref in use.heads.get(Layer.POWER, ())}
            if powered:
                return powered
        return {ref for use in uses for layer in layers for ref in use.heads.get(layer, ())}

    def _draw_lead(self, lead: Lead) -> Line:
        uses = self._merged[lead.label]
        layers = self._layers_of(uses)
        heads = self._find_heads(uses, layers)
        refs = list(lead.plugged.values())
        if not heads & set(refs):
            heads = {ref for ref in refs if self._rig.port(ref).role is Role.IN}
        if not heads & set(refs) or set(refs) <= heads:
            heads = {*refs[1:]} if not lead.loose else set()
        volts = find_volts(uses, [*sorted(heads & set(refs)), *refs]) if Layer.POWER in layers else None
        figures = self._make_flag(lead, uses, layers, volts)
        # Figures stand at the last end at which something arrives, else at the last of all.
        names = [*lead.plugged, *sorted(lead.loose)]
        arriving = [name for name in names if lead.plugged.get(name) in heads or name in lead.loose]
        told = (arriving or names)[-1]
        ends = []
        for name in names:
            ref = lead.plugged.get(name)
            label = lead.label if len(names) == 2 else f"{lead.label}:{name}"
            marks = self._marks.at(f"{lead.label}:{name}")
            flag = Flag(label, figures.figure, figures.rows, self._marks.at(lead.label, f"{lead.label}:{name}"))
            flag = flag if name == told else Flag(label, "", (), marks)
            box, terminal = (ref.item, ref.port) if ref is not None else (loose_key(lead.label, name), name)
            ends.append(End(box, terminal, name in arriving, flag))
        return Line(
            place=lead.label,
            kind=LineKind.LEAD,
            style=self._choose_style(layers, uses, volts),
            ends=tuple(ends),
            setups=self._find_setups(lead.label),
            describes=self._describe_lead(lead, uses, volts),
            pull=_PULL[LineKind.LEAD] + (1 if Layer.POWER in layers else 0),
        )

    def _choose_style(self, layers: Sequence[Layer], uses: Sequence[Use], volts: tuple[float, float] | None) -> str:
        """The voltage class of what carries power, else what the lead is for. Where something burns, what is measured
        says little, and the class is that without loads."""
        if Layer.POWER not in layers:
            return layers[0].value if layers else "other"
        shown = [*volts] if volts is not None else []
        if any(one.burns for one in self._uses.values()):
            shown = [value for use in uses for value in use.nominal.values()] or shown
        highest = max(shown, key=abs, default=0.0)
        return classify_volts(highest).value if abs(highest) >= _FED else "unfed"

    def _make_flag(
        self, lead: Lead, uses: Sequence[Use], layers: Sequence[Layer], volts: tuple[float, float] | None
    ) -> Flag:
        signals = [layer for layer in layers if layer is not Layer.POWER]
        rows: list[str] = []
        figure = ""
        if Layer.POWER in layers or not layers:
            flag = make_power_flag(lead.label, uses, volts, ()) if layers else Flag(lead.label, "", ("nothing known",))
            figure, rows = flag.figure, [*flag.rows]
        if signals:
            rows += make_signal_flag(lead.label, uses, signals, ()).rows
        tape = self._marks_of(lead)
        rows += fold(f"marked {tape}", MOST_ROW, ROW, most=2) if tape else []
        return Flag(lead.label, figure, (*rows, *self._say_setups(lead.label)))

    def _marks_of(self, lead: Lead) -> str:
        return self._rig.marked.get(lead.label) or lead.mark or ""

    def _describe_lead(self, lead: Lead, uses: Sequence[Use], volts: tuple[float, float] | None) -> str:
        chain = " > ".join([*(ref.place for ref in lead.plugged.values()), *("loose" for _ in lead.loose)])
        parts = [f"{lead.label}: {chain}"]
        if volts is not None:
            sources = dict.fromkeys(source for use in uses for source in use.sources)
            parts.append(f"{say_range(volts)} from {', '.join(sources) or 'no source'}")
        signals = [layer for layer in Layer if layer is not Layer.POWER and any(layer in use.layers for use in uses)]
        if signals:
            parts.append(say_traffic(uses, signals))
        return "; ".join(parts)

    def _draw_dock(self, dock: Dock) -> Line:
        place = f"dock:{dock.index}"
        uses = self._merged[place]
        layers = self._layers_of(uses)
        refs = (dock.first, dock.second)
        heads = self._find_heads(uses, layers) & set(refs)
        if len(heads) != 1:
            heads = {dock.second}
        return Line(
            place=place,
            kind=LineKind.DOCK,
            style=LineKind.DOCK.value,
            ends=tuple(End(ref.item, ref.port, ref in heads, None) for ref in refs),
            setups=self._find_setups(place),
            describes=f"{dock.first.place} docked to {dock.second.place}",
            pull=_PULL[LineKind.DOCK],
        )

    def _draw_links(self) -> Iterator[Line]:
        for name, link in self._rig.links.items():
            if self._is_shown(link.place):
                radios = [ref for ref in link.radios if self._is_there(ref.item)]
                if len(radios) > 1:
                    yield self._draw_link(name, link, radios)

    def _is_there(self, item: str) -> bool:
        return any(item in self._rig.setups[name].items for name in self._uses)

    def _draw_link(self, name: str, link: Link, radios: Sequence[PortRef]) -> Line:
        uses = self._merged[link.place]
        layers = self._layers_of(uses)
        setups = [self._rig.setups[one] for one in self._find_setups(link.place)]
        distances = {one.name: one.distances.get(name, one.needs.distance) for one in setups}
        flag = make_link_flag(name, distances, uses, layers, link.channel)
        flag = Flag(flag.label, flag.figure, (*flag.rows, *self._say_setups(link.place)), self._marks.at(link.place))
        heads = self._find_heads(uses, layers) & set(radios)
        if not heads or heads == set(radios):
            heads = set(radios[1:]) if link.radios[0] == radios[0] else {radios[-1]}
        told = [ref for ref in radios if ref in heads][-1]
        brief = Flag(name, flag.figure)
        chain = " - ".join(ref.place for ref in radios)
        ends = tuple(
            End(ref.item, ref.port, ref in heads, flag if ref == told else brief if ref in heads else Flag(name))
            for ref in radios
        )
        return Line(
            place=link.place,
            kind=LineKind.LINK,
            style=LineKind.LINK.value,
            ends=ends,
            setups=self._find_setups(link.place),
            describes=f"{link.place}, {flag.figure}: {chain}; {say_traffic(uses, layers)}",
            pull=_PULL[LineKind.LINK] if self._layer is not None else 0,
        )

    def _draw_gears(self) -> Iterator[Line]:
        if self._layer not in (Layer.CONTROL, None):
            return
        for fitting in self._rig.fitted.values():
            setups = tuple(name for name in self._uses if {fitting.motor, fitting.lens} <= self._rig.setups[name].items)
            if setups:
                yield _draw_gear(fitting, setups)


def _draw_gear(fitting: Fitting, setups: tuple[str, ...]) -> Line:
    return Line(
        place=f"gear:{fitting.motor}",
        kind=LineKind.GEAR,
        style=LineKind.GEAR.value,
        ends=(End(fitting.motor, GEAR, False, None), End(fitting.lens, fitting.ring, True, None)),
        setups=setups,
        describes=f"{fitting.motor} sits on {fitting.lens}.{fitting.ring}",
        pull=_PULL[LineKind.GEAR],
    )
