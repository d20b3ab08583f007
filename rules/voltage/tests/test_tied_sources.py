"""`backfeed:tied-sources`: two sources with nothing between them."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import BUS_MOTOR, TWO_BATTERIES

CODE = "backfeed:tied-sources"
FAULT = edit_text(TWO_BATTERIES, ("plate: house/plate-hotswap", "plate: house/plate-two  # here"))
TWO_PLATES = """\
rigmint: 1
rig: Saltmarsh, two plates on a breakout
kit:
  battery_a: house/battery
  battery_b: house/battery
  plate_a: house/plate
  plate_b: house/plate
  breakout: house/breakout
  camera: house/camera
docks:
  - battery_a.mount > plate_a.battery
  - battery_b.mount > plate_b.battery
leads:
  P1: {part: house/lead-2pin, from: plate_a.out_1, to: breakout.in}
  P2: {part: house/lead-2pin, from: plate_b.out_1, to: breakout.out_1}  # here
  P3: {part: house/lead-2pin, from: breakout.out_2, to: camera.dc_in}
"""


def test_finds_a_plate_without_diodes() -> None:
    """(16.8 - 14.0) V / (80 + 80 + contacts) mohm: two unequal sources in parallel, any circuits text. At its
    change-over (15 % left) a 4S pack stands at 4 x 3.5 = 14.0 V."""
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="battery_b.pack", cause="plate", grade=Grade.BURN
    )
    assert finding.also == ("battery_a.pack",)
    assert finding.measured is not None
    contacts = 4 * 0.005 + 2 * 0.001  # plus and minus of two plates' contacts, two wires of the plate
    assert finding.measured.value == pytest.approx((16.8 - 14.0) / (0.16 + contacts), rel=1e-6)
    assert finding.measured.limit == 0.0


def test_is_silent_on_a_plate_with_diodes() -> None:
    assert_silent(check_text(TWO_BATTERIES, PARTS), CODE)


def test_is_silent_where_only_one_battery_is_in_at_a_time() -> None:
    rig = FAULT + "setups:\n  one: {out: [battery_b]}\n  other: {out: [battery_a]}\n"

    assert_silent(check_text(rig, PARTS), CODE)


def test_tells_two_batteries_by_leads_once() -> None:
    """Of the two leads, the one that is plugged from output to output."""
    finding = assert_finds(
        check_text(TWO_PLATES, PARTS), CODE, line=find_line(TWO_PLATES), at="battery_b.pack", cause="P2"
    )
    assert finding.fixes[0].says == "Use a plate with diodes for changing over, or one source at a time."


def test_is_silent_where_a_diode_sits_in_one_feed() -> None:
    """Fed through a diode, battery_b is pushed by nothing; battery_a is, so both feeds want one."""
    diode = (
        "P2: {part: house/lead-2pin, from: plate_b.out_1, to: breakout.out_1}",
        "P2: {from: plate_b.out_1, to: breakout.out_1, lead: {ends: {a: {connector: 0b-2}, b: {connector: 0b-2}},"
        " conductors: [{from: a.2, to: b.2, diode: 0.4 V}, {from: a.1, to: b.1}]}}",
    )
    one = check_text(edit_text(TWO_PLATES, diode), PARTS)
    both = edit_text(
        TWO_PLATES, diode,
        ("P1: {part: house/lead-2pin, from: plate_a.out_1, to: breakout.in}",
         "P1: {from: plate_a.out_1, to: breakout.in, lead: {ends: {a: {connector: 0b-2}, b: {connector: 0b-2}},"
         " conductors: [{from: a.2, to: b.2, diode: 0.4 V}, {from: a.1, to: b.1}]}}"),
    )  # fmt: skip

    assert [(finding.code, finding.at) for finding in one.findings if finding.code == CODE] == [
        (CODE, "battery_a.pack")
    ]
    assert_silent(check_text(both, PARTS), CODE)


def test_blames_the_tap_lead_where_a_handgrip_takes_the_current() -> None:
    """Its regulator lets the bus through to its own cells."""
    parts = edit_text(
        PARTS,
        ("rail: five, role: out,\n            survives: -0.3 to 5.5 V, speaks: [lens-bus]}\n    rails: {main: {load: 8 W},"
         " five: {}}\n    bridges: [{from: main, to: five, by: regulator, out: 5 V, takes: 9 to 18 V, blocks: true}]\n    cells",
         "rail: five, role: out,\n            survives: -0.3 to 18 V, speaks: [lens-bus]}\n    rails: {main: {load: 8 W},"
         " five: {}}\n    bridges: [{from: main, to: five, by: regulator, out: 5 V, takes: 9 to 18 V, blocks: false}]\n    cells"),
    )  # fmt: skip
    rig = BUS_MOTOR + "  P4: {part: house/lead-tap-usb-raw, from: plate.tap_1, to: motor.bus_1}  # here\n"

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="handgrip.grip", cause="P4")
    assert finding.fixes[0].says == "Take out P4: everything it feeds is fed without it."
