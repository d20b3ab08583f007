"""The boxes of a drawing: items with the ports that it shows, and ends of leads in the air."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rigmint.report.draw.findings import Marks, find_port_layers
from rigmint.report.draw.lines import GEAR
from rigmint.report.draw.model import Box, Line, Shape, Terminal
from rigmint.report.draw.sizes import MOST_PORT, MOST_SMALL, MOST_TITLE, PORT, SMALL, TITLE
from rigmint.report.draw.text import cut, fold
from rigmint.rig.connector import Sex
from rigmint.rig.part import Part
from rigmint.rig.rig import Item, PortRef, Rig
from rigmint.study.layers import Layer

_SHAPES = {Sex.PLUG: Shape.PLUG, Sex.SOCKET: Shape.SOCKET}


class BoxMaker:
    """Makes the boxes of one layer (None: all): what its lines touch, and what it is about though nothing is on it."""

    def __init__(
        self, rig: Rig, setups: Sequence[str], lines: Sequence[Line], marks: Marks, layer: Layer | None
    ) -> None:
        self._rig = rig
        self._setups = setups
        self._marks = marks
        self._layer = layer
        self._used: dict[str, dict[str, None]] = {}
        self._loose: dict[str, Line] = {}
        for line in lines:
            for end in line.ends:
                self._used.setdefault(end.box, {})[end.terminal] = None
                if end.box not in rig.items:
                    self._loose[end.box] = line

    def make(self) -> tuple[Box, ...]:
        """In the order of the kit, then ends in the air."""
        items = [self._draw_item(item) for item in self._rig.items.values() if self._is_shown(item)]
        return (*items, *(self._draw_loose(key, line) for key, line in self._loose.items()))

    def _find_setups(self, item: Item) -> tuple[str, ...]:
        return tuple(name for name in self._setups if item.name in self._rig.setups[name].items)

    def _is_shown(self, item: Item) -> bool:
        if not self._find_setups(item):
            return False
        layers = (self._layer,) if self._layer is not None else tuple(Layer)
        is_marked = self._layer is None and any(place.partition(".")[0] == item.name for place in self._marks.places)
        return item.name in self._used or is_marked or any(_belongs(self._rig, item.part, layer) for layer in layers)

    def _draw_item(self, item: Item) -> Box:
        ports = tuple(self._draw_terminal(item, name) for name in self._list_terminals(item))
        return Box(
            key=item.name,
            title=cut(item.name, MOST_TITLE, TITLE, bold=True),
            lines=tuple(line for text in self._describe(item) for line in fold(text, MOST_SMALL, SMALL, most=1)),
            band=item.rides,
            terminals=ports,
            marks=self._marks.at(item.name),
            setups=self._find_setups(item),
            describes=f"{item.name}: {item.part.name}",
        )

    def _describe(self, item: Item) -> Iterator[str]:
        """What stands under the name: the part, asset, who holds it, in which setups it is there and on."""
        if item.part.name != item.name:
            yield item.part.name
        if item.asset is not None:
            yield item.asset
        if self._layer is not Layer.POWER:
            held = dict.fromkeys(self._rig.setups[name].holder(item.name) for name in self._setups)
            persons = [person for person in held if person is not None]
            if persons:
                yield f"with {', '.join(persons)}"
        there = self._find_setups(item)
        if len(there) < len(self._setups):
            yield f"in {' '.join(there)}"
        off = [name for name in there if item.name in self._rig.setups[name].off]
        if off:
            yield "off" if len(off) == len(self._setups) else f"off in {' '.join(off)}"

    def _list_terminals(self, item: Item) -> list[str]:
        """Those with a line, then those that bear a mark or a cap and belong to the layer."""
        shown = dict.fromkeys(self._used.get(item.name, ()))
        for name in item.part.ports:
            place = f"{item.name}.{name}"
            bears = place in self._marks.places or place in self._rig.marked
            layers = find_port_layers(self._rig, PortRef(item.name, name))
            if bears and (self._layer is None or self._layer in layers):
                shown[name] = None
        for name in (*item.part.radios, *item.part.rings):
            if f"{item.name}.{name}" in self._marks.places and self._layer in (None, Layer.CONTROL, Layer.PICTURE):
                shown[name] = None
        return list(shown)

    def _draw_terminal(self, item: Item, name: str) -> Terminal:
        part = item.part
        place = f"{item.name}.{name}"
        says, shape, title = name, Shape.MATE, place
        if name in part.ports:
            port = part.ports[name]
            says = port.says
            shape = Shape.MATE if port.connector.is_mechanical else _SHAPES.get(port.sex, Shape.SOCKET)
            title = f"{place}, {port.connector.name}"
        elif name in part.radios:
            says, shape, title = name.replace("_", " "), Shape.RADIO, f"{place}, radio"
        elif name in part.rings or name == GEAR:
            shape, title = Shape.GEAR, f"{place}, {'motor' if name == GEAR else 'ring'}"
        tape = self._rig.marked.get(place, "")
        return Terminal(
            name=name,
            place=place,
            says=cut(says, MOST_PORT, PORT),
            shape=shape,
            title=title,
            marks=self._marks.at(place),
            tape=cut(tape, MOST_PORT, SMALL) if tape else "",
        )

    def _draw_loose(self, key: str, line: Line) -> Box:
        label, _, end = key.partition(":")
        body = self._rig.leads[label].body.ends.get(end)
        plug = body.connector.name if body is not None else ""
        terminals = (Terminal(end, key, "loose", Shape.LOOSE, f"{key}, {plug}", self._marks.at(key)),)
        other = next(one.box for one in line.ends if one.box in self._rig.items)
        return Box(
            key=key,
            title=key,
            lines=tuple(fold(plug, MOST_SMALL, SMALL, most=2)),
            band=self._rig.items[other].rides,
            terminals=terminals,
            marks=(),
            setups=line.setups,
            describes=f"{key} is in the air",
            is_loose=True,
        )


def _belongs(rig: Rig, part: Part, layer: Layer) -> bool:
    """Whether a layer is about such a part even where nothing is plugged into it."""
    if layer is Layer.POWER:
        return bool(part.cells) or any(rail.load is not None for rail in part.rails.values())
    if layer is Layer.CONTROL:
        return bool(part.controls or part.moves)
    spoken = {name for port in part.ports.values() for name in port.speaks}
    spoken |= {name for radio in part.radios.values() for name in radio.speaks}
    has_picture = any("picture" in rig.protocols[name].carries for name in spoken)
    return has_picture and bool(part.shows or part.makes)
