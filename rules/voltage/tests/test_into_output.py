"""`backfeed:into-output`: a feed into a socket that gives power."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import BUS_MOTOR

CODE = "backfeed:into-output"
FAULT = """\
rigmint: 1
rig: Saltmarsh, bus motor fed twice
kit:
  battery: house/battery
  plate: house/plate
  motor: house/motor
  head: house/head
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: head.dc_in}
  P4: {part: house/lead-tap-usb-raw, from: plate.tap_1, to: motor.bus_1}  # here
  D6: {part: house/lead-bus, from: motor.bus_2, to: head.usb}
"""
P4 = "  P4: {part: house/lead-tap-usb-raw, from: plate.tap_1, to: motor.bus_1}  # here\n"


def test_blames_the_tap_lead_of_a_motor_that_is_fed_twice() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="head.usb", cause="P4", grade=Grade.BURN
    )
    assert finding.path == ("battery", "plate.tap_1", "P4", "motor.bus_1", "motor.bus_2", "D6", "head.usb")
    assert finding.says == "head.usb gives power, and battery can push 16.8 V back into it through P4."
    assert finding.fixes[0].says == "Take out P4: everything it feeds is fed without it."


def test_is_silent_where_the_motor_is_fed_by_the_head_alone() -> None:
    assert_silent(check_text(edit_text(FAULT, (P4, "")), PARTS), CODE)


def test_is_silent_where_the_output_blocks() -> None:
    rig = edit_text(FAULT, ("head: house/head", "head: house/head-blocking"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_thin_where_nobody_states_whether_the_output_blocks() -> None:
    rig = edit_text(FAULT, ("head: house/head", "head: house/head-unstated"))

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="head.usb", cause="P4", grade=Grade.THIN
    )
    assert finding.says.endswith("Nobody states whether the regulator in head blocks that.")
    assert finding.assumed == ("head blocks",)


def test_is_silent_where_a_plate_hands_power_on() -> None:
    """A plate's outputs are copper: fed from an output, it only passes the feed on."""
    rig = """\
rigmint: 1
rig: Saltmarsh, plate fed through its tap
kit: {battery: house/battery, plate: house/plate, far_plate: house/plate, camera: house/camera}
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: far_plate.out_1}
  P2: {part: house/lead-2pin, from: far_plate.out_2, to: camera.dc_in}
"""
    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_where_less_than_a_battery_gives_meets_it() -> None:
    """5 V of a handgrip never flow into a 14.4 V battery: the bus stands higher."""
    parts = edit_text(
        PARTS,
        ("rail: five, role: out,\n            survives: -0.3 to 5.5 V, speaks: [lens-bus]}",
         "rail: five, role: out,\n            survives: -0.3 to 18 V, speaks: [lens-bus]}"),
    )  # fmt: skip

    assert_silent(check_text(BUS_MOTOR + P4, parts), CODE)


@pytest.mark.parametrize("setup", ["{}", "{off: [motor]}", "{off: [head]}"])
def test_holds_whatever_is_switched_off(setup: str) -> None:
    rig = FAULT + f"setups: {{boat: {setup}}}\n"

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="head.usb", cause="P4")
