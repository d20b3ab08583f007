"""`voltage:unpowered`: where supply stops."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD, TWO_BATTERIES, TWO_CAMERAS

CODE = "voltage:unpowered"
FAULT = edit_text(
    HAND_HELD,
    ("  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}\n", ""),
    ("camera: house/camera", "camera: house/camera  # here"),
)
SWITCHED = edit_text(TWO_CAMERAS, ("breakout: house/breakout", "breakout: house/breakout-switched"))


def test_finds_an_input_that_nothing_is_plugged_into() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="camera.dc_in", cause="camera", grade=Grade.DEAD
    )
    assert finding.says == "camera has no power: nothing is plugged into camera.dc_in."


def test_is_silent_where_the_lead_is_in() -> None:
    assert_silent(check_text(HAND_HELD, PARTS), CODE)


def test_is_silent_on_a_device_that_is_off() -> None:
    assert_silent(check_text(FAULT + "setups: {spare: {off: [camera]}}\n", PARTS), CODE)


def test_finds_a_switch_that_is_off_by_a_setting() -> None:
    rig = SWITCHED + "settings:\n  breakout.out_2: off  # here\n"

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera_b", cause="breakout.set.out_2")
    assert finding.says == "camera_b has no power: breakout.out_2 is off."
    assert finding.fixes[0].says == "Set breakout.out_2 to on."


def test_is_silent_where_the_switch_is_on() -> None:
    assert_silent(check_text(SWITCHED + "settings: {breakout.out_2: on}\n", PARTS), CODE)


def test_does_not_ask_to_switch_on_what_would_burn() -> None:
    parts = edit_text(
        PARTS, ("pack: {volts: 12.0 to 16.8 V, nominal: 14.4 V", "pack: {volts: 24.0 to 33.6 V, nominal: 28.8 V")
    )
    report = check_text(SWITCHED + "settings: {breakout.out_2: off}\n", parts)

    assert {finding.code for finding in report.findings} == {"voltage:over"}


def test_finds_the_switch_in_the_setup_that_sets_it() -> None:
    rig = SWITCHED + "setups:\n  one: {set: {breakout.out_2: on}}\n  two: {set: {breakout.out_2: off}}  # here\n"

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera_b", cause="breakout.set.out_2")
    assert finding.setups == ("two",)


def test_tells_one_missing_trunk_once() -> None:
    rig = edit_text(
        TWO_CAMERAS,
        ("  P0: {part: house/lead-2pin, from: plate.out_1, to: breakout.in}\n", ""),
        ("breakout: house/breakout", "breakout: house/breakout  # here"),
    )

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="breakout.in", cause="breakout")
    assert finding.also == ("camera_a", "camera_b")


def test_finds_a_battery_that_is_off() -> None:
    rig = edit_text(HAND_HELD, ("battery: house/battery", "battery: house/battery  # here"))
    rig += "setups: {spare: {off: [battery]}}\n"

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="battery", cause="battery")
    assert finding.also == ("camera", "recorder")


def test_is_silent_where_one_of_two_batteries_is_out() -> None:
    rig = TWO_BATTERIES + "setups:\n  both: {}\n  swap_a: {out: [battery_a]}\n  swap_b: {out: [battery_b]}\n"

    assert_silent(check_text(rig, PARTS), CODE)


def test_finds_a_lead_that_carries_no_plus() -> None:
    rig = edit_text(
        HAND_HELD,
        ("P2: {part: house/lead-tap-usb-5v, from: plate.tap_1, to: recorder.usb}",
         "P2: {from: plate.tap_1, to: recorder.usb, lead: {ends: {a: {connector: d-tap}, b: {connector: usb-c}},"
         " conductors: [{from: a.2, to: b.gnd}]}}  # here"),
    )  # fmt: skip

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="recorder.usb", cause="P2")
    assert finding.says == "recorder has no power: P2 brings no plus to recorder.usb."
