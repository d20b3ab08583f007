"""Hostile names appear as text and break nothing: in the file, and in a real browser."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from rigmint.rig.rig import Rig
from tests.builders import make_rig
from tests.report.draw.browser import CHROMIUM, measure_texts
from tests.report.draw.drawn import EXAMPLES, LAYERS, SVG, draw, read_example
from tests.report.draw.geometry import list_faults

EXAMPLE_RIGS = ("low-tide-motor-bus", "oat-field-two-cameras", "saltmarsh-two-up")
NAMES = {
    "markup": "</text><script>alert(1)</script>",
    "quotes": "\\\"'><x onload=alert(1)>&amp;&#60;",
    "long word": "supercalifragilistic" * 8,
    "right to left": "לוח בקרה שמאלי עליון אחורי",
    "arabic": "ﷺ وحدة التحكم الرئيسية",
    "override": "battery \\u202eegatlov\\u2066",
    "emoji": "🎥👩‍👩‍👧‍👦🎥 cam",
    "stacked": "z" + "\u0301\u0302\u0303" * 20 + "algo",
    "wide": "𒐫𒈙⸻﷽ 焦点フォーカス",
    "control": "bell\\u0007 null\\u0000 esc\\u001b[31m",
}


def make_hostile(name: str) -> Rig:
    text = NAMES[name]
    parts = f"""
house/source:
  name: "{text}"
  kind: battery
  ports: {{out: {{says: "{text}", connector: 0b-2, sex: socket, pins: {{1: minus, 2: plus}}, rail: main, role: out}}}}
  cells: {{pack: {{rail: main, volts: 12 to 16.8 V, energy: 98 Wh}}}}
house/device:
  name: "{text}"
  kind: camera
  rails: {{main: {{load: 10 W}}}}
  ports:
    dc: {{says: "{text}", connector: 0b-2, sex: socket, pins: {{1: minus, 2: plus}}, rail: main, role: in, works: 11 to 17 V}}
    sdi: {{says: "{text}", connector: bnc, sex: socket, pins: video, speaks: [sdi-3g]}}
  makes: {{sensor: {{picture: 1080p25}}}}
  passes: [{{from: sensor, to: sdi, carries: picture}}]
"""
    return make_rig(
        f"""says: "{text}"
kit:
  source: house/source
  device: {{part: house/device, asset: "{text}"}}
  {"a" * 60}: house/device
  monitor: generic/monitor-5in-loop
leads:
  P1: source.out > device.dc
  {"L" * 50}: {{from: device.sdi, to: monitor.sdi_in, lead: {{ends: {{a: {{connector: bnc, sex: plug}}, b: {{connector: bnc, sex: plug}}}}, conductors: straight, carries: [sdi-3g], mark: "{text}"}}}}
marked: {{P1: "{text}", device.dc: "{text}"}}
setups: {{one: {{says: "{text}"}}}}
""",
        parts,
    )


@pytest.mark.parametrize("name", NAMES)
def test_names_are_text_and_break_no_geometry(name: str) -> None:
    rig = make_hostile(name)
    for layer in LAYERS:
        svg = draw(rig, layer)
        tags = {one.tag for one in ET.fromstring(svg).iter()}

        assert tags <= {
            f"{SVG}{tag}" for tag in ("svg", "g", "title", "desc", "style", "rect", "path", "polygon", "circle", "text")
        }
        assert list_faults(svg) == []


def test_markup_is_shown_as_it_is_written() -> None:
    svg = draw(make_hostile("markup"), None)
    root = ET.fromstring(svg)
    says = [one.text for one in root.iter(f"{SVG}text") if one.get("class") == "rd-says"]

    assert any((text or "").startswith("</text><scr") for text in says)
    assert root.find(f".//{SVG}script") is None


def test_hidden_marks_are_shown() -> None:
    assert "\\u202e" in draw(make_hostile("override"), None)
    assert "\u202e" not in draw(make_hostile("override"), None)


@pytest.mark.skipif(CHROMIUM is None, reason="no Chromium here")
@pytest.mark.parametrize("font", ["Liberation Sans", "DejaVu Sans"])
def test_in_a_browser_no_text_leaves_its_place(font: str, tmp_path: Path) -> None:
    hostile = [draw(make_hostile(name), layer) for name in NAMES for layer in LAYERS]
    rigs = [read_example(EXAMPLES / "rigs" / f"{name}.rig.yaml") for name in EXAMPLE_RIGS]
    drawings = [*hostile, *(draw(rig, layer) for rig in rigs for layer in LAYERS)]
    count, found = measure_texts(drawings, tmp_path, font)

    assert count > 20 * len(drawings)
    assert found == []
