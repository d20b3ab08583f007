"""`voltage:above-window`: survived, yet more than a device works on."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD, TWO_CAMERAS

CODE = "voltage:above-window"
MARK_P1 = ("from: plate.out_1, to: camera.dc_in}", "from: plate.out_1, to: camera.dc_in}  # here")
ON_26_V = (("battery: house/battery", "battery: house/battery-26v"), ("plate: house/plate", "plate: house/plate-26v"))
FAULT = edit_text(HAND_HELD, MARK_P1, *ON_26_V, ("camera: house/camera", "camera: house/camera-hardy"))


def test_finds_a_device_that_never_works_there() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="camera.dc_in", cause="P1", grade=Grade.DEAD
    )
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit) == (29.4, 17.0)
    assert finding.says == ("camera.dc_in works up to 17.0 V and can get 29.4 V through P1, for as long as it lasts.")


def test_is_silent_on_the_battery_that_it_is_made_for() -> None:
    rig = edit_text(HAND_HELD, ("camera: house/camera", "camera: house/camera-hardy"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_where_the_window_holds_both() -> None:
    rig = edit_text(HAND_HELD, *ON_26_V, ("camera: house/camera", "camera: house/camera-wide"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_thin_where_only_a_fresh_battery_is_above() -> None:
    rig = edit_text(HAND_HELD, MARK_P1, ("camera: house/camera", "camera: house/camera-narrow"))

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.dc_in", cause="P1", grade=Grade.THIN
    )
    assert finding.says == ("camera.dc_in works up to 16.0 V and can get 16.8 V through P1, while the source is fresh.")


def test_yields_to_the_burn_at_the_same_port() -> None:
    report = check_text(edit_text(FAULT, ("camera: house/camera-hardy", "camera: house/camera")), PARTS)

    assert_silent(report, CODE, worst=Grade.HURT)


def test_puts_several_victims_down_to_their_trunk() -> None:
    rig = edit_text(
        TWO_CAMERAS,
        ("camera_a: house/camera", "camera_a: house/camera-narrow"),
        ("camera_b: house/camera", "camera_b: house/camera-narrow"),
        ("from: plate.out_1, to: breakout.in}", "from: plate.out_1, to: breakout.in}  # here"),
    )

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera_a.dc_in", cause="P0")
    assert finding.also == ("camera_b.dc_in",)


def test_offers_a_free_outlet_in_the_window() -> None:
    parts = (
        PARTS
        + """
  - rigmint_part: 1
    id: house/plate-both
    name: Plate for a 26 V battery with an output that is regulated
    kind: plate
    ports:
      battery: {connector: plate-wedge-26v, sex: socket, pins: power, role: in, works: 6 to 34 V, survives: -36 to 36 V}
      out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
      out_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V, rail: low}
      tap_1: {connector: d-tap, sex: socket, pins: plus-first, role: out, survives: -36 to 36 V, rail: low}
    rails: {main: {}, low: {}}
    bridges: [{from: main, to: low, by: regulator, out: 14.4 V, max: 10 A, blocks: true}]
"""
    )
    rig = edit_text(FAULT, ("house/plate-26v", "house/plate-both"))
    finding = assert_finds(
        check_text(rig, parts, prove=True), CODE, line=find_line(rig), at="camera.dc_in", cause="P1", grade=Grade.DEAD
    )

    assert finding.fixes[0].says == "Plug P1 into plate.out_2, which gives 14.4 V."
    assert finding.fixes[0].proved
