"""Which findings show where in a drawing: on leads, ports, items and links, numbered worst first."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence

from rigmint.lint.precedence import CIRCUIT_FAMILIES
from rigmint.lint.results import ReportedFinding
from rigmint.report.draw.model import Mark, Note
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.layers import Layer, find_protocol_layers
from rigmint.study.uses import Use

_MOST_VICTIMS = 4
_PICTURE_FAMILIES = frozenset({"picture"})


class Marks:
    """The marks of one drawing by place, and the notes that explain them."""

    def __init__(self, by_place: Mapping[str, tuple[Mark, ...]], notes: tuple[Note, ...]) -> None:
        self._by_place = by_place
        self.notes = notes

    def at(self, *places: str) -> tuple[Mark, ...]:
        """The marks of the places, each finding once."""
        found = {mark.number: mark for place in places for mark in self._by_place.get(place, ())}
        return tuple(found[number] for number in sorted(found))

    @property
    def places(self) -> Collection[str]:
        """The places that bear a mark."""
        return self._by_place.keys()


def spread_marks(
    rig: Rig,
    findings: Sequence[ReportedFinding],
    uses: Mapping[str, Use],
    layer: Layer | None,
    setups: Sequence[str],
) -> Marks:
    """The marks of the open findings that concern a layer (None: all) in any of the setups."""
    by_place: dict[str, list[Mark]] = defaultdict(list)
    notes: list[Note] = []
    for finding in findings:
        if finding.accepted is not None or not set(finding.setups) & set(setups):
            continue
        places = list(dict.fromkeys([finding.at, finding.cause, *finding.also[:_MOST_VICTIMS]]))
        layers = frozenset[Layer]().union(*(_find_layers(rig, uses, place) for place in places))
        layers = layers or _guess_layers(finding.code)
        if layer is not None and layer not in layers:
            continue
        mark = Mark(len(notes) + 1, finding.grade, finding.says)
        notes.append(Note(mark, finding.code, finding.setups))
        for place in places:
            by_place[find_holder(rig, place)].append(mark)
    return Marks({place: tuple(marks) for place, marks in by_place.items()}, tuple(notes))


def find_holder(rig: Rig, place: str) -> str:
    """The place that shows in a drawing: a port, radio, ring, lead, lead's end or link itself, else its item."""
    if place in rig.leads or place.startswith("link:") or ":" in place:
        return place
    item, _, name = place.partition(".")
    if item not in rig.items or not name:
        return place
    part = rig.items[item].part
    return place if name in part.ports or name in part.radios or name in part.rings else item


def _find_layers(rig: Rig, uses: Mapping[str, Use], place: str) -> frozenset[Layer]:
    """The layers that a place belongs to; empty for what belongs to none in particular."""
    owner = place.partition(":")[0] if not place.startswith("link:") else place
    if owner in uses:
        return uses[owner].layers
    item, _, name = place.partition(".")
    if item in rig.items and name in rig.items[item].part.ports:
        return find_port_layers(rig, PortRef(item, name))
    if item in rig.items and name in rig.items[item].part.radios:
        return find_protocol_layers(rig, rig.items[item].part.radios[name].speaks)
    return frozenset()


def find_port_layers(rig: Rig, ref: PortRef) -> frozenset[Layer]:
    """The layers of a port, by what it is made for."""
    port = rig.port(ref)
    layers = find_protocol_layers(rig, port.speaks)
    return layers | {Layer.POWER} if port.carries_power else layers


def _guess_layers(code: str) -> frozenset[Layer]:
    family = code.partition(":")[0]
    if family in CIRCUIT_FAMILIES or family == "runtime":
        return frozenset({Layer.POWER})
    return frozenset({Layer.PICTURE if family in _PICTURE_FAMILIES else Layer.CONTROL})
