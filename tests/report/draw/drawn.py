"""Drawings of rigs from the examples, from texts and from seeds."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from rigmint.library.build_rig import read_rig
from rigmint.library.library_file import Library, find_library_file, load_library
from rigmint.lint.results import ReportedFinding
from rigmint.report.draw.drawing import draw_layer
from rigmint.rig.house import House
from rigmint.rig.rig import Rig
from rigmint.study.layers import Layer
from rigmint.study.studies import Studies
from rigmint.study.uses import Uses, gather_uses

EXAMPLES = Path(__file__).parents[3] / "examples"
LAYERS: tuple[Layer | None, ...] = (*Layer, None)
SVG = "{http://www.w3.org/2000/svg}"


@cache
def _load(path: Path | None) -> Library:
    return load_library(path)


def read_example(path: Path) -> Rig:
    """A rig that must read whole."""
    read = read_rig(path, _load(find_library_file(path)))
    assert read.rig is not None, [fault.says for fault in read.faults]
    return read.rig


def find_all_uses(rig: Rig) -> dict[str, Uses]:
    """The view of each setup."""
    uses, failed = gather_uses(Studies(rig, House()), tuple(rig.setups))
    assert failed == ()
    return uses


def draw(rig: Rig, layer: Layer | None, setups: Sequence[str] = (), findings: Sequence[ReportedFinding] = ()) -> str:
    """The drawing of the setups named, else of all."""
    uses = find_all_uses(rig)
    return draw_layer(rig, {name: uses[name] for name in setups or uses}, findings, layer)


def find_group(svg: str, name: str, value: str, class_: str) -> ET.Element:
    """The only group of a class with `data-NAME` of this value."""
    found = [
        one
        for one in ET.fromstring(svg).iter(f"{SVG}g")
        if one.get(f"data-{name}") == value and class_ in one.get("class", "").split()
    ]
    assert len(found) == 1, f"{len(found)} groups with data-{name}={value}"
    return found[0]


def list_texts(group: ET.Element) -> list[str]:
    """The texts of a group, in the order in which they are drawn."""
    return ["".join(text.itertext()) for text in group.iter(f"{SVG}text")]


def list_flags(svg: str, name: str, value: str) -> list[list[str]]:
    """The texts of each flag of a line."""
    return [
        list_texts(one)
        for one in ET.fromstring(svg).iter(f"{SVG}g")
        if one.get(f"data-{name}") == value and "rd-flags" in one.get("class", "").split()
    ]
