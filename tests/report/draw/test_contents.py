"""What a drawing says: volts and sources, what passes, distances, findings, setups, and names as data."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path

import pytest

from rigmint.lint.results import ReportedFinding
from rigmint.lint.run import check_paths
from rigmint.report.draw.drawing import draw_layer
from rigmint.study.layers import Layer
from tests.builders import make_rig
from tests.report.draw.drawn import (
    EXAMPLES,
    LAYERS,
    draw,
    find_all_uses,
    find_group,
    list_flags,
    list_texts,
    read_example,
)

SALTMARSH = EXAMPLES / "rigs" / "saltmarsh-two-up.rig.yaml"
DAY = datetime.date(2026, 5, 2)


def find_findings(path: Path) -> tuple[ReportedFinding, ...]:
    return check_paths([path], library=None, today=DAY, setup=None, prove=False).files[0].findings


def test_a_power_lead_tells_its_volts_and_its_source() -> None:
    svg = draw(read_example(SALTMARSH), Layer.POWER)

    assert list_flags(svg, "lead", "P2") == [["P2"], ["P2", "13.8 V", "battery"]]
    assert find_group(svg, "lead", "P2", "rd-line").get("data-class") == "twelve"
    assert find_group(svg, "lead", "M1", "rd-line").get("data-class") == "five"


def test_ports_are_named_as_printed_on_the_device() -> None:
    svg = draw(read_example(SALTMARSH), Layer.POWER)

    assert list_texts(find_group(svg, "port", "camera.dc_in", "rd-port")) == ["DC IN"]


def test_each_layer_shows_its_leads() -> None:
    rig = read_example(SALTMARSH)
    shown = {layer: {label for label in rig.leads if f'data-lead="{label}"' in draw(rig, layer)} for layer in LAYERS}

    assert shown == {
        Layer.POWER: {"P1", "P2", "P3", "P4", "X1", "M1", "M2", "D2"},
        Layer.CONTROL: {"M1", "M2", "D1", "D2", "R1", "C1"},
        Layer.PICTURE: {"S1", "T1"},
        None: set(rig.leads),
    }


def test_a_loom_ends_on_every_port_it_is_plugged_into() -> None:
    svg = draw(read_example(SALTMARSH), Layer.CONTROL)

    assert find_group(svg, "lead", "D1", "rd-line").get("data-ends") == "driver.head head.accessory head.record"
    assert sorted(flag[0] for flag in list_flags(svg, "lead", "D1")) == ["D1:a", "D1:b", "D1:c"]


def test_a_radio_link_is_dashed_and_tells_its_distance() -> None:
    svg = draw(read_example(SALTMARSH), Layer.PICTURE)

    assert "100 m" in [text for flag in list_flags(svg, "link", "picture") for text in flag]
    assert "rd-link" in (find_group(svg, "link", "picture", "rd-line").get("class") or "")
    assert ".rd-link .rd-ink{stroke:#222222;stroke-width:1.8;stroke-dasharray:9 5}" in svg


def test_docks_are_shown_where_something_goes_over_them() -> None:
    rig = read_example(SALTMARSH)

    assert find_group(draw(rig, Layer.POWER), "dock", "0", "rd-line").get("data-ends") == "battery.mount plate.battery"
    assert "lens on camera" in draw(rig, None)


@pytest.mark.parametrize(
    ("file", "layer", "places", "shape"),
    [
        (
            "voltage-over-raw-on-handgrip",
            Layer.POWER,
            [("lead", "B4", "rd-flags"), ("port", "grip.usb", "rd-port")],
            "polygon",
        ),
        ("fit-loose-live-end-spare", Layer.POWER, [("lead", "P5", "rd-flags"), ("port", "P5:b", "rd-port")], "circle"),
        (
            "owner-mixed-desk-lens",
            Layer.CONTROL,
            [("item", "desk", "rd-item"), ("port", "lens.focus", "rd-port")],
            "polygon",
        ),
    ],
)
def test_findings_mark_lead_and_port_by_shape(
    file: str, layer: Layer, places: list[tuple[str, str, str]], shape: str
) -> None:
    path = EXAMPLES / "faults" / f"{file}.rig.yaml"
    findings = find_findings(path)
    svg = draw(read_example(path), layer, (), findings)
    marks = [f'class="rd-mark rd-{findings[0].grade.value}"', f"<{shape}"]

    assert all(mark in svg for mark in marks)
    for name, value, class_ in places:
        marked = [texts for texts in list_flags(svg, name, value) if "1" in texts] if class_ == "rd-flags" else None
        assert marked or "1" in list_texts(find_group(svg, name, value, class_))


def test_a_finding_stays_out_of_layers_that_it_does_not_concern() -> None:
    path = EXAMPLES / "faults" / "voltage-over-raw-on-handgrip.rig.yaml"

    assert "voltage:over" not in draw(read_example(path), Layer.PICTURE, (), find_findings(path))


def test_setups_say_what_is_only_in_some() -> None:
    rig = read_example(SALTMARSH)
    both = draw(rig, Layer.CONTROL)
    solo = draw(rig, Layer.CONTROL, ["solo"])

    assert "in two_up" in list_texts(find_group(both, "item", "hand", "rd-item"))
    assert find_group(both, "item", "hand", "rd-item").get("data-setups") == "two_up"
    assert find_group(both, "item", "desk", "rd-item").get("data-setups") == "two_up solo"
    assert 'data-item="hand"' not in solo
    assert 'data-link="lens_control"' not in solo


def test_a_lead_in_the_air_ends_in_a_box_of_its_own() -> None:
    rig = read_example(EXAMPLES / "faults" / "fit-loose-live-end-spare.rig.yaml")
    svg = draw(rig, Layer.POWER)

    assert "rd-loose" in (find_group(svg, "end", "P5:b", "rd-item").get("class") or "")


def test_what_is_off_says_so() -> None:
    rig = make_rig(
        "kit: {pack: generic/battery-98wh-wedge, plate: generic/plate-wedge-two-tap, lamp: generic/light-on-board}\n"
        "docks: [pack.mount > plate.battery]\n"
        "leads: {P1: plate.tap_1 > lamp.dc_in}\n"
        "setups: {day: {off: [lamp]}, night: {}}"
    )

    assert "off in day" in list_texts(find_group(draw(rig, Layer.POWER), "item", "lamp", "rd-item"))


@pytest.mark.parametrize(("is_solved", "says"), [(True, "the volts are what is left"), (False, "no volts to show")])
def test_a_supply_that_cannot_carry_its_loads_says_so(is_solved: bool, says: str) -> None:
    rig = read_example(SALTMARSH)
    uses = {name: replace(one, collapses=True, is_solved=is_solved) for name, one in find_all_uses(rig).items()}

    assert says in draw_layer(rig, uses, (), Layer.POWER)
    assert says not in draw(rig, Layer.POWER)


def test_a_lead_without_volts_says_so() -> None:
    rig = read_example(SALTMARSH)
    uses = find_all_uses(rig)["two_up"]
    bare = {place: replace(use, volts={}) for place, use in uses.by_place.items()}
    svg = draw_layer(rig, {"two_up": replace(uses, by_place=bare)}, (), Layer.POWER)

    assert list_flags(svg, "lead", "P2") == [["P2"], ["P2", "no volts"]]
    assert find_group(svg, "lead", "P2", "rd-line").get("data-class") == "unfed"


@pytest.mark.parametrize("layer", LAYERS, ids=str)
def test_a_rig_without_any_of_it_is_an_empty_drawing(layer: Layer | None) -> None:
    svg = draw(make_rig("kit: {cage: generic/cage-compact}"), layer)

    assert svg.startswith("<svg")
    assert "data-item" not in svg


def test_ids_are_those_of_one_layer() -> None:
    rig = read_example(SALTMARSH)
    drawn = [{part.split('"')[0] for part in draw(rig, layer).split(' id="')[1:]} for layer in LAYERS]

    assert all(not one & two for index, one in enumerate(drawn) for two in drawn[index + 1 :])


def test_a_page_states_the_style_once() -> None:
    rig = read_example(SALTMARSH)

    assert "<style>" not in draw_layer(rig, find_all_uses(rig), (), Layer.POWER, style=False)


def test_a_raw_lead_into_a_bus_is_no_control_lead() -> None:
    rig = read_example(EXAMPLES / "rigs" / "low-tide-motor-bus.rig.yaml")

    assert 'data-lead="B3"' in draw(rig, Layer.POWER)
    assert 'data-lead="B3"' not in draw(rig, Layer.CONTROL)
