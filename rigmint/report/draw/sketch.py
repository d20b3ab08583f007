"""What a drawing shows of a rig: its items, leads, docks and links in one layer or all, in one setup or several."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from rigmint.lint.results import ReportedFinding
from rigmint.report.draw.boxes import BoxMaker
from rigmint.report.draw.findings import spread_marks
from rigmint.report.draw.lines import LineMaker
from rigmint.report.draw.model import Band, Box, Sketch
from rigmint.rig.rig import Rig
from rigmint.study.layers import Layer
from rigmint.study.uses import Use, Uses
from rigmint.words import CAUTIONS

_BANDS = (
    Band("tilt", "tilt", "stage"),
    Band("roll", "roll", "stage"),
    Band("pan", "pan", "stage"),
    Band("base", "base", ""),
    Band("away", "away", "from the rig"),
)
"""From top to bottom, as a head hangs on its carrier."""


def sketch_layer(
    rig: Rig, uses: Mapping[str, Uses], findings: Sequence[ReportedFinding], layer: Layer | None
) -> Sketch:
    """The drawing of a layer (None: all) in the setups that `uses` names."""
    setups = tuple(uses)
    merged = _merge(uses)
    marks = spread_marks(rig, findings, {place: per_setup[0] for place, per_setup in merged.items()}, layer, setups)
    lines = LineMaker(rig, uses, merged, marks, layer).make()
    boxes = BoxMaker(rig, setups, lines, marks, layer).make()
    known = {box.key for box in boxes}
    return Sketch(
        layer=layer.value if layer is not None else "all",
        title=rig.title,
        says=_say_setups(rig, setups),
        setups=setups,
        bands=_list_bands(rig, boxes),
        boxes=boxes,
        lines=tuple(line for line in lines if all(end.box in known for end in line.ends)),
        notes=marks.notes,
        remarks=tuple(_list_remarks(rig, uses, layer)),
    )


def _merge(uses: Mapping[str, Uses]) -> dict[str, list[Use]]:
    merged: dict[str, list[Use]] = {}
    for one in uses.values():
        for place, use in one.by_place.items():
            merged.setdefault(place, []).append(use)
    return merged


def _say_setups(rig: Rig, setups: Sequence[str]) -> str:
    if len(setups) == 1:
        says = rig.setups[setups[0]].says
        return f"setup {setups[0]}: {says}" if says else f"setup {setups[0]}"
    return f"setups {', '.join(setups)}; what is not in all of them says so"


def _list_bands(rig: Rig, boxes: Sequence[Box]) -> tuple[Band, ...]:
    """The bands that are in use. Without a head nothing turns, and what would ride on its stages is on the rig."""
    has_head = any(item.part.kind == "head" for item in rig.items.values())
    used = {box.band for box in boxes}
    bands = _BANDS if has_head else (Band("tilt", "on", "the rig"), *_BANDS[1:])
    return tuple(band for band in bands if band.key in used)


def _list_remarks(rig: Rig, uses: Mapping[str, Uses], layer: Layer | None) -> Iterator[str]:
    if layer is None and (mounted := _list_mounted(rig, uses)):
        yield f"Mounted, with nothing wired: {', '.join(mounted)}."
    if layer not in (Layer.POWER, None):
        return
    if any(one.burns for one in uses.values()):
        yield "This wiring burns something. No figure of it is one to work by."
    for name, one in uses.items():
        if one.collapses:
            left = "the volts are what is left" if one.is_solved else "there are no volts to show"
            yield f"In {name} the supply cannot carry its loads with typical batteries: {left}."
    yield "Volts: at the far end, with typical batteries and loads. Below them: the source that feeds the lead."
    yield CAUTIONS[0]


def _list_mounted(rig: Rig, uses: Mapping[str, Uses]) -> list[str]:
    there = {place for one in uses.values() for place, use in one.by_place.items() if not use.layers}
    docks = [dock for dock in rig.docks if f"dock:{dock.index}" in there]
    return [f"{dock.first.item} on {dock.second.item}" for dock in docks]
