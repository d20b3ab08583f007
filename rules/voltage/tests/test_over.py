"""`voltage:over`: more volts than a port survives, put down to what a technician would change."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import BUS_MOTOR, HAND_HELD, TWO_CAMERAS

CODE = "voltage:over"
USB_LIMIT = 5.5
"""V: top of vSafe5V, USB Power Delivery (IEC 62680-1-2)."""
TAP_P4 = "  P4: {part: house/lead-tap-usb-raw, from: plate.tap_1, to: motor.bus_1}  # here\n"
FAULT = edit_text(
    HAND_HELD,
    ("P2: {part: house/lead-tap-usb-5v, from: plate.tap_1, to: recorder.usb}",
     "P2: {part: house/lead-tap-usb-raw, from: plate.tap_1, to: recorder.usb}  # here"),
)  # fmt: skip
ON_26_V = (("battery: house/battery", "battery: house/battery-26v"), ("plate: house/plate", "plate: house/plate-26v"))


def test_finds_a_raw_tap_on_a_usb_socket() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="recorder.usb", cause="P2", grade=Grade.BURN
    )
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit) == (16.8, USB_LIMIT)
    assert finding.path == ("battery", "plate.tap_1", "P2", "recorder.usb")
    assert finding.says == "recorder.usb is destroyed above 5.5 V; lead P2 can put 16.8 V on it."
    assert finding.fixes[0].says == (
        "Feed recorder.usb through a regulated lead that gives 5.1 V, or from a source in its window."
    )


def test_is_silent_on_a_regulated_lead() -> None:
    assert_silent(check_text(HAND_HELD, PARTS), CODE)


def test_is_silent_where_the_usb_socket_is_made_for_battery_volts() -> None:
    """A motor's USB-C sockets survive 18 V: the same raw lead belongs there."""
    rig = edit_text(BUS_MOTOR, ("  D6: {part: house/lead-bus, from: motor.bus_2, to: handgrip.usb}\n", TAP_P4))

    assert_silent(check_text(rig, PARTS), CODE)


def test_blames_the_second_feed_of_a_motor() -> None:
    """The tap lead goes into the motor, which survives it; the handgrip behind the bus does not."""
    rig = BUS_MOTOR + TAP_P4

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="handgrip.usb", cause="P4")
    assert finding.path == (
        "battery", "plate.tap_1", "P4", "motor.bus_1", "motor.bus_2", "D6", "handgrip.usb"
    )  # fmt: skip
    assert finding.fixes[0].says == "Take out P4: everything it feeds is fed without it."


def test_names_the_way_that_brings_the_volts_and_not_the_shorter_one() -> None:
    """The battery reaches the driver's motor socket through its own regulator too, in fewer steps, but with 5 V."""
    rig = """\
rigmint: 1
rig: Saltmarsh, raw motor on a driver
kit: {battery: house/battery, plate: house/plate, driver: house/driver, motor: house/motor}
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: driver.dc_in}
  P4: {part: house/lead-tap-usb-raw, from: plate.tap_1, to: motor.bus_1}  # here
  D1: {part: house/lead-bus, from: driver.motor_1, to: motor.bus_2}
"""
    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="driver.motor_1", cause="P4")
    assert finding.path == (
        "battery", "plate.tap_1", "P4", "motor.bus_1", "motor.bus_2", "D1", "driver.motor_1"
    )  # fmt: skip


def test_what_is_certain_burns_beside_a_guess_that_is_higher() -> None:
    """Two raw feeds of 16.8 V and 29.4 V: the higher one may be blocked, the lower one is not, and is too much."""
    parts = edit_text(
        PARTS, ("    ports:\n      usb: {connector: usb-c, sex: socket, pins: power, role: in,",
                "    ports:\n      aux: {connector: 0b-2, sex: socket, pins: minus-first, rail: aux, role: either,"
                " survives: -0.3 to 36 V}\n      usb: {connector: usb-c, sex: socket, pins: power, rail: main, role: in,"),
        ("    rails: {main: {load: 2 W}}\n", "    rails: {main: {load: 2 W}, aux: {}}\n"
         "    bridges: [{from: main, to: aux, by: regulator, out: 3 V, takes: 4 to 34 V}]\n"),
    )  # fmt: skip
    rig = (
        edit_text(
            FAULT,
            ("kit:\n", "kit:\n  battery_b: house/battery-26v\n  plate_b: house/plate-26v\n"),
            ("docks: [", "docks: [battery_b.mount > plate_b.battery, "),
        )
        + "  P3: {part: house/lead-2pin, from: plate_b.out_1, to: recorder.aux}\n"
    )

    report = check_text(rig, parts)

    found = [(one.grade, one.cause) for one in report.findings if one.code == CODE and one.at == "recorder.usb"]
    assert found == [(Grade.BURN, "P2")]


def test_is_silent_where_the_bus_lead_carries_no_plus() -> None:
    rig = edit_text(BUS_MOTOR + TAP_P4, ("house/lead-bus,", "house/lead-bus-data,"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_finds_26_v_on_a_12_v_port() -> None:
    rig = edit_text(
        HAND_HELD, *ON_26_V, ("from: plate.out_1, to: camera.dc_in}", "from: plate.out_1, to: camera.dc_in}  # here")
    )

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.dc_in", cause="P1")
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit) == (29.4, 18.0)


def test_puts_several_victims_down_to_their_trunk() -> None:
    rig = edit_text(TWO_CAMERAS, *ON_26_V, ("from: plate.out_1, to: breakout.in}",
                                           "from: plate.out_1, to: breakout.in}  # here"))  # fmt: skip

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera_a.dc_in", cause="P0")
    assert finding.also == ("camera_b.dc_in",)


def test_blames_the_lead_where_another_device_likes_the_trunk() -> None:
    """Only one of the two cameras dies of 26 V: its own lead is to be changed, not the trunk."""
    rig = edit_text(
        TWO_CAMERAS, *ON_26_V, ("camera_a: house/camera", "camera_a: house/camera-wide"),
        ("from: breakout.out_2, to: camera_b.dc_in}", "from: breakout.out_2, to: camera_b.dc_in}  # here"),
    )  # fmt: skip

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera_b.dc_in", cause="P2")


def test_blames_the_lead_where_nobody_states_what_devices_draw() -> None:
    """Only kinds and connectors: the recorder's lead kills it, while the trunk also feeds a sound camera."""
    rig = """\
rigmint: 1
rig: Saltmarsh, written short
kit:
  battery: house/battery-unpinned
  plate: house/plate-unpinned
  camera: house/camera-unpinned
  recorder: house/recorder-unpinned
docks: [battery.mount > plate.battery]
leads:
  P1: plate.out > camera.dc_in
  P2: plate.tap > recorder.usb  # here
"""
    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="recorder.usb", cause="P2")
    assert "recorder.usb survives" in finding.assumed
    assert finding.says.startswith("recorder.usb is destroyed above ~5.5 V")


def test_finds_24_v_into_12_v_where_only_connectors_are_written() -> None:
    rig = """\
rigmint: 1
rig: Saltmarsh, written short
kit:
  battery: house/battery-26v-unpinned
  plate: house/plate-26v-unpinned
  camera: house/camera-unpinned
docks: [battery.mount > plate.battery]
leads:
  P1: plate.out > camera.dc_in  # here
"""
    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.dc_in", cause="P1")
    assert finding.measured is not None
    assert finding.measured.value == 29.4


def test_is_silent_where_12_v_connectors_meet_a_12_v_battery() -> None:
    rig = """\
rigmint: 1
rig: Saltmarsh, written short
kit: {battery: house/battery-unpinned, plate: house/plate-unpinned, camera: house/camera-unpinned}
docks: [battery.mount > plate.battery]
leads:
  P1: plate.out > camera.dc_in
"""
    assert_silent(check_text(rig, PARTS), CODE)


def test_lists_the_setups_in_which_it_holds() -> None:
    rig = BUS_MOTOR + TAP_P4 + "setups:\n  boat: {}\n  table: {unplugged: [P4]}\n  crane: {}\n"

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="handgrip.usb", cause="P4")
    assert finding.setups == ("boat", "crane")


def test_holds_for_a_device_that_is_off() -> None:
    """Its body conducts and its input dies all the same."""
    rig = FAULT + "setups:\n  boat: {off: [recorder]}\n"

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="recorder.usb", cause="P2")


def test_is_thin_where_a_regulator_may_block() -> None:
    """The monitor dies only if the head's output leaks backwards to its input, which nobody states."""
    parts = edit_text(
        PARTS,
        ("rails: {main: {load: 8 W}, five: {}}\n    bridges: [{from: main, to: five, by: regulator, out: 5 V,"
         " takes: 9 to 18 V, blocks: false}]",
         "rails: {main: {load: 8 W}, five: {}}\n    bridges: [{from: main, to: five, by: regulator, out: 5 V,"
         " takes: 6 to 18 V}]"),
        ("works: 11 to 17 V, survives: -0.3 to 18 V}\n      usb:", "works: 6 to 9 V, survives: -0.3 to 10 V}\n      usb:"),
    )  # fmt: skip
    rig = """\
rigmint: 1
rig: Saltmarsh, head fed from nothing
kit:
  battery: house/battery
  plate: house/plate
  motor: house/motor
  head: house/head
docks: [battery.mount > plate.battery]
leads:
  P4: {part: house/lead-tap-usb-raw, from: plate.tap_1, to: motor.bus_1}
  D6: {part: house/lead-bus, from: motor.bus_2, to: head.usb}  # here
setups: {boat: {off: [head]}}
"""
    finding = assert_finds(
        check_text(rig, parts), CODE, line=find_line(rig), at="head.dc_in", cause="D6", grade=Grade.THIN
    )
    assert finding.says.endswith("Nobody states whether the regulator in head blocks that.")
    assert finding.fixes[0].says == "Swap D6 for a lead without plus: everything it feeds is fed without it."
