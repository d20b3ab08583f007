"""What goes over each lead: the same figures as the studies that it gathers."""

from __future__ import annotations

from pathlib import Path

import pytest

from rigmint.library.build_rig import read_rig
from rigmint.library.library_file import find_library_file, load_library
from rigmint.rig.house import House
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.layers import Layer, find_lead_layers
from rigmint.study.power import Point
from rigmint.study.studies import Studies
from rigmint.study.uses import Use, find_uses
from tests.builders import make_rig

RIGS = Path(__file__).parents[2] / "examples" / "rigs"


def read(name: str) -> Rig:
    path = RIGS / f"{name}.rig.yaml"
    rig = read_rig(path, load_library(find_library_file(path))).rig
    assert rig is not None
    return rig


def use_of(rig: Rig, setup: str, place: str) -> Use:
    return find_uses(Studies(rig, House()), rig.setups[setup]).by_place[place]


def test_volts_are_those_of_the_circuit_at_typical() -> None:
    rig = read("saltmarsh-two-up")
    studies = Studies(rig, House())
    setup = rig.setups["two_up"]
    ports = studies.whole_power(setup).points[Point.TYPICAL].ports
    use = find_uses(studies, setup).by_place["P2"]

    assert use.volts == {ref: ports[ref].volts for ref in (PortRef("breakout", "out_1"), PortRef("camera", "dc_in"))}
    assert use.sources == ("battery",)
    assert use.heads == {Layer.POWER: frozenset({PortRef("camera", "dc_in")})}


@pytest.mark.parametrize(
    ("place", "layers", "axes", "flows", "formats"),
    [
        ("M1", {Layer.POWER, Layer.CONTROL}, ("focus", "iris"), (), ()),
        ("D2", {Layer.POWER, Layer.CONTROL}, (), ("range",), ()),
        ("C1", {Layer.CONTROL}, ("pan", "tilt", "roll", "record", "stop"), (), ()),
        ("S1", {Layer.PICTURE}, (), ("picture",), ("1080p25",)),
        ("T1", {Layer.PICTURE}, (), ("timecode",), ()),
        (
            "link:picture",
            {Layer.CONTROL, Layer.PICTURE},
            ("pan", "tilt", "roll", "record", "stop"),
            ("picture",),
            ("1080p25",),
        ),
        ("dock:0", {Layer.POWER}, (), (), ()),
        ("dock:2", set(), (), (), ()),
    ],
)
def test_what_goes_over_what(
    place: str, layers: set[Layer], axes: tuple[str, ...], flows: tuple[str, ...], formats: tuple[str, ...]
) -> None:
    use = use_of(read("saltmarsh-two-up"), "two_up", place)

    assert (use.layers, use.axes, use.flows, use.formats) == (layers, axes, flows, formats)


def test_a_lead_in_which_no_current_flows_still_has_a_source() -> None:
    rig = make_rig(
        "kit: {pack: generic/battery-98wh-wedge, plate: generic/plate-wedge-two-tap, breakout: generic/breakout-four-2pin}\n"
        "docks: [pack.mount > plate.battery]\n"
        "leads: {P1: {part: generic/lead-tap-to-2pin, from: plate.tap_1, to: breakout.in}}\n"
    )

    assert use_of(rig, "as_wired", "P1").sources == ("pack",)


def test_signals_go_both_ways_over_a_lead_of_power() -> None:
    heads = use_of(read("saltmarsh-two-up"), "two_up", "D2").heads

    assert heads == {
        Layer.POWER: frozenset({PortRef("finder", "data")}),
        Layer.CONTROL: frozenset({PortRef("driver", "finder")}),
    }


@pytest.mark.parametrize(
    ("lead", "layers"),
    [
        ("plate.tap_1 > lamp.dc_in", {Layer.POWER}),
        (
            "{from: plate.tap_1, to: loose, lead: {ends: {a: {connector: d-tap, sex: plug}, b: {connector: 0b-2, sex: plug}}, conductors: [{from: a.1, to: b.2}, {from: a.2, to: b.1}]}}",
            {Layer.POWER},
        ),
        (
            "{from: plate.tap_1, to: lamp.dc_in, lead: {ends: {a: {connector: d-tap, sex: plug}, b: {connector: 0b-2, sex: plug}}, conductors: [{from: a.2, to: b.1}]}}",
            {Layer.POWER},
        ),
    ],
    ids=["sound", "one end in the air", "plus broken"],
)
def test_a_power_lead_is_one_though_nothing_comes_through(lead: str, layers: set[Layer]) -> None:
    rig = make_rig(
        "kit: {pack: generic/battery-98wh-wedge, plate: generic/plate-wedge-two-tap, lamp: generic/light-on-board}\n"
        f"docks: [pack.mount > plate.battery]\nleads:\n  P1: {lead}\n"
    )

    assert find_lead_layers(rig, rig.leads["P1"]) == layers
