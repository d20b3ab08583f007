"""`fit:no-wire`: a lead that lacks a wire."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .fit_parts import FIT_PARTS
from .fit_rigs import LENS

CODE = "fit:no-wire"
B1 = "B1: {part: house/lead-bus, from: driver.bus, to: motor.bus_1}"
FAULT = edit_text(LENS, (B1, "B1: {part: house/lead-charge, from: driver.bus, to: motor.bus_1}  # here"))


def test_finds_a_charging_lead_where_data_is_due() -> None:
    finding = assert_finds(
        check_text(FAULT, FIT_PARTS), CODE, line=find_line(FAULT), at="motor.bus_1", cause="B1", grade=Grade.DEAD
    )
    assert finding.says == (
        "B1 looks like a data lead and has no wire for d_plus or d_minus between driver.bus and motor.bus_1, so that"
        " nobody has lens.focus."
    )
    assert finding.also == ("lens.focus",)
    assert finding.fixes[0].says == "Swap B1 for a lead that joins d_plus and d_minus at both ends, and ring it out."


def test_is_silent_where_the_wires_are_there() -> None:
    assert_silent(check_text(LENS, FIT_PARTS), CODE)


def test_is_silent_on_a_charging_lead_beside_the_data_lead() -> None:
    """It feeds, and what it does not carry arrives by the bus lead."""
    rig = edit_text(LENS, (B1, f"{B1}\n  C1: {{part: house/lead-charge, from: driver.bus_2, to: motor.bus_2}}"))

    assert_silent(check_text(rig, FIT_PARTS), CODE)


def test_is_silent_where_the_charging_lead_keeps_two_buses_apart() -> None:
    """A whole lead here would give the hand unit the iris ring, which is meant for nobody."""
    rig = edit_text(
        LENS,
        ("  lens: house/lens\n", "  lens: house/lens\n  motor_i: {part: house/motor, set: {axis: focus}}\n"),
        (B1, f"{B1}\n  C1: {{part: house/lead-charge, from: motor.bus_2, to: motor_i.bus_1}}"),
        ("fitted: {motor: lens.focus}", "fitted: {motor: lens.focus, motor_i: lens.iris}"),
        ("who: {focus: first_ac,", "who: {focus: first_ac, iris: nobody,"),
    )

    assert_silent(check_text(rig, FIT_PARTS), CODE)


def test_finds_a_lead_that_was_made_for_it_with_a_wire_cut() -> None:
    """Whatever else brings the axis: a lead that is made for a bus and lacks its wire is broken."""
    parts = (
        FIT_PARTS
        + """
  - rigmint_part: 1
    id: house/lead-cut
    name: Bus lead with a cut wire
    kind: lead
    length: 40 cm
    ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: [{from: a.gnd, to: b.gnd}, {from: a.dp, to: b.dp}]
    carries: [lens-bus]
"""
    )
    rig = edit_text(LENS, (B1, f"{B1}\n  B2: {{part: house/lead-cut, from: driver.bus_2, to: motor.bus_2}}  # here"))

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="motor.bus_2", cause="B2")
    assert finding.says == (
        "B2 is to carry Lens motor bus from driver.bus_2 to motor.bus_2, and none of its wires joins d_minus."
    )


def test_finds_crossed_data_wires() -> None:
    parts = (
        FIT_PARTS
        + """
  - rigmint_part: 1
    id: house/lead-crossed
    name: Bus lead with the pair crossed
    kind: lead
    length: 40 cm
    ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: [{from: a.gnd, to: b.gnd}, {from: a.dp, to: b.dm}, {from: a.dm, to: b.dp}]
    carries: [lens-bus]
"""
    )
    rig = edit_text(LENS, (B1, "B1: {part: house/lead-crossed, from: driver.bus, to: motor.bus_1}  # here"))

    assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="motor.bus_1", cause="B1")


def test_finds_a_picture_that_does_not_arrive() -> None:
    parts = """
parts:
  - {rigmint_part: 1, id: house/cam, name: Camera, kind: camera, settings: {format: {values: [1080p25], default: 1080p25}},
     ports: {hdmi: {connector: hdmi-a, sex: socket, pins: picture, speaks: [hdmi]}},
     makes: {sensor: {picture: {setting: format}}}, passes: [{from: sensor, to: hdmi, carries: picture}]}
  - {rigmint_part: 1, id: house/screen, name: Monitor, kind: monitor,
     ports: {hdmi: {connector: hdmi-a, sex: socket, pins: picture, speaks: [hdmi]}},
     shows: {screen: {latency: 15 ms}}, passes: [{from: hdmi, to: screen, carries: picture}]}
  - {rigmint_part: 1, id: house/hdmi, name: Picture lead, kind: lead, length: 50 cm, carries: [hdmi],
     ends: {a: {connector: hdmi-a, sex: plug}, b: {connector: hdmi-a, sex: plug}}, conductors: straight}
  - {rigmint_part: 1, id: house/hdmi-broken, name: Picture lead without its data pair, kind: lead, length: 50 cm, carries: [hdmi],
     ends: {a: {connector: hdmi-a, sex: plug}, b: {connector: hdmi-a, sex: plug}},
     conductors: [{from: a.tmds, to: b.tmds}, {from: a.gnd, to: b.gnd}, {from: a.shield, to: b.shield}]}
"""
    rig = """\
rigmint: 1
rig: Saltmarsh, picture
kit: {cam: house/cam, mon: house/screen}
leads:
  H1: {part: house/hdmi-broken, from: cam.hdmi, to: mon.hdmi}  # here
"""
    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="mon.hdmi", cause="H1")
    assert finding.says.endswith("none of its wires joins ddc, so that picture does not reach mon.screen.")

    assert_silent(check_text(edit_text(rig, ("hdmi-broken", "hdmi")), parts), CODE)
