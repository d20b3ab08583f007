"""`misplug:burns`: a plug that goes into a socket which it destroys."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

CODE = "misplug:burns"
PARTS = """
parts:
  - rigmint_part: 1
    id: house/battery
    name: Battery
    kind: battery
    ports: {mount: {connector: plate-wedge, sex: plug, pins: power, role: out, survives: -0.3 to 20 V}}
    cells: {pack: {volts: 12.0 to 16.8 V, nominal: 14.4 V, resistance: 80 mohm, energy: 98 Wh, max: 10 A, trips: 15 A, chemistry: li-ion-4s}}
  - rigmint_part: 1
    id: house/battery-26
    name: Battery, 26 V
    kind: battery
    ports: {mount: {connector: plate-wedge-26v, sex: plug, pins: power, role: out, survives: -0.3 to 34 V}}
    cells: {pack: {volts: 21.0 to 29.4 V, nominal: 25.2 V, resistance: 80 mohm, energy: 150 Wh, max: 10 A, trips: 15 A, chemistry: li-ion-7s}}
  - rigmint_part: 1
    id: house/plate
    name: Plate
    kind: plate
    ports:
      battery: {connector: plate-wedge, sex: socket, pins: power, role: in, survives: -36 to 36 V}
      tap_1: {connector: d-tap, sex: socket, pins: plus-first, role: out, survives: -36 to 36 V}
      tap_2: {connector: d-tap, sex: socket, pins: plus-first, role: out, survives: -36 to 36 V}
      tap_3: {connector: d-tap, sex: socket, pins: plus-first, role: out, survives: -36 to 36 V}
      out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
      out_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
  - rigmint_part: 1
    id: house/plate-26
    name: Plate, 26 V
    kind: plate
    ports:
      battery: {connector: plate-wedge-26v, sex: socket, pins: power, role: in, survives: -36 to 36 V}
      out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
  - rigmint_part: 1
    id: house/camera
    name: Camera
    kind: camera
    ports: {dc_in: {connector: 0b-2, sex: socket, pins: minus-first, rail: main, role: in, works: 11 to 17 V, survives: -0.3 to 18 V}}
    rails: {main: {load: 20 W}}
  - {rigmint_part: 1, id: house/monitor, name: Monitor wired plus first, kind: monitor, rides: tilt, like: house/camera, ports: {dc_in: {pins: plus-first}}}
  - {rigmint_part: 1, id: house/light, name: Light, kind: light, like: house/camera, ports: {dc_in: {works: 20 to 30 V, survives: -0.3 to 32 V}}}
  - rigmint_part: 1
    id: house/motor
    name: Lens motor that takes battery volts
    kind: accessory
    ports: {bus: {connector: usb-c, sex: socket, pins: power, rail: main, role: in, works: 7 to 17 V, survives: -0.3 to 18 V}}
    rails: {main: {load: 5 W}}
  - rigmint_part: 1
    id: house/finder
    name: Finder on 5 V
    kind: accessory
    ports: {usb: {connector: usb-c, sex: socket, pins: power, rail: main, role: in, works: 4.5 to 5.5 V, survives: -0.3 to 5.5 V}}
    rails: {main: {load: 1 W}}
  - rigmint_part: 1
    id: house/lead-2pin
    name: Lead
    kind: lead
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.1, to: b.1, gauge: 20 AWG}, {from: a.2, to: b.2, gauge: 20 AWG}]
  - {rigmint_part: 1, id: house/lead-crossed, name: Crossed lead, kind: lead, like: house/lead-2pin, conductors: [{from: a.1, to: b.2, gauge: 20 AWG}, {from: a.2, to: b.1, gauge: 20 AWG}]}
  - rigmint_part: 1
    id: house/lead-raw
    name: Tap to USB-C, raw
    kind: lead
    ends: {a: {connector: d-tap, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: [{from: a.1, to: b.vbus, gauge: 22 AWG}, {from: a.2, to: b.gnd, gauge: 22 AWG}]
  - rigmint_part: 1
    id: house/lead-5v
    name: Tap to USB-C, 5 V
    kind: lead
    like: house/lead-raw
    conductors:
      - {from: a.1, to: b.vbus, gauge: 22 AWG, regulator: {out: 5 V, takes: 8 to 26 V, blocks: true, ground: b.gnd}}
      - {from: a.2, to: b.gnd, gauge: 22 AWG}
"""
RAW = """\
rigmint: 1
rig: Saltmarsh, a raw lead beside 5 V sockets
kit:
  battery: house/battery
  plate: house/plate
  motor: house/motor
  finder: house/finder  # here
docks: [battery.mount > plate.battery]
leads:
  P2: {part: house/lead-raw, from: plate.tap_1, to: motor.bus}
  P3: {part: house/lead-5v, from: plate.tap_2, to: finder.usb}
"""
TWO_FEEDS = """\
rigmint: 1
rig: Saltmarsh, two raw leads beside a 5 V socket
kit:
  battery: house/battery
  plate: house/plate
  motor: house/motor
  motor_b: house/motor
  finder: house/finder  # here
docks: [battery.mount > plate.battery]
leads:
  P2: {part: house/lead-raw, from: plate.tap_1, to: motor.bus}
  P3: {part: house/lead-raw, from: plate.tap_2, to: motor_b.bus}
  P4: {part: house/lead-5v, from: plate.tap_3, to: finder.usb}
"""
PINOUTS = """\
rigmint: 1
rig: Saltmarsh, two pin-outs in one bag
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera
  monitor: house/monitor
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}
  P2: {part: house/lead-crossed, from: plate.out_2, to: monitor.dc_in}
"""
VOLTAGES = """\
rigmint: 1
rig: Saltmarsh, two voltages on one connector
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera
  block: house/battery-26
  plate_26: house/plate-26
  light: house/light
docks: [battery.mount > plate.battery, block.mount > plate_26.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}
  P2: {part: house/lead-2pin, from: plate_26.out_1, to: light.dc_in}
"""
MARKS = ("P2: red", "'P2:b': red", "finder.usb: capped")


def test_finds_the_raw_lead() -> None:
    finding = assert_finds(
        check_text(RAW, PARTS),
        CODE,
        line=find_line(RAW),
        at="finder.usb",
        cause="finder.usb",
        grade=Grade.THIN,
        worst=Grade.THIN,
    )
    assert finding.says == "finder.usb dies above 5.5 V; P2 carries 16.8 V and fits."
    assert finding.path == ("battery", "plate.tap_1", "P2", "finder.usb")
    assert finding.measured is not None
    assert (round(finding.measured.value, 1), finding.measured.limit) == (16.8, 5.5)


@pytest.mark.parametrize("mark", MARKS)
def test_a_mark_answers_it(mark: str) -> None:
    assert_silent(check_text(f"{RAW}marked: {{{mark}}}\n", PARTS), CODE, worst=Grade.THIN)


def test_another_mark_does_not_answer_it() -> None:
    rig = f"{RAW}marked: {{P3: green}}\n"

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="finder.usb", cause="finder.usb")


def test_is_silent_where_every_lead_is_regulated() -> None:
    """The same sockets, and nothing that burns them: the motor gets too little and only stops."""
    rig = edit_text(RAW, ("house/lead-raw", "house/lead-5v"))

    assert_silent(check_text(rig, PARTS), CODE, worst=Grade.BURN)


def test_is_silent_out_of_reach() -> None:
    """The finder lies on the operator's desk, with a battery of its own."""
    rig = edit_text(
        RAW,
        ("  finder: house/finder  # here", "  finder: {part: house/finder, rides: away}\n  pack: {part: house/battery, rides: away}\n"
         "  shelf: {part: house/plate, rides: away}"),
        ("docks: [battery.mount > plate.battery]", "docks: [battery.mount > plate.battery, pack.mount > shelf.battery]"),
        ("from: plate.tap_2", "from: shelf.tap_2"),
    )  # fmt: skip

    assert_silent(check_text(rig, PARTS), CODE, worst=Grade.THIN)


def test_a_socket_that_dies_of_two_leads_is_told_of_once() -> None:
    finding = assert_finds(
        check_text(TWO_FEEDS, PARTS),
        CODE,
        line=find_line(TWO_FEEDS),
        at="finder.usb",
        cause="finder.usb",
        worst=Grade.THIN,
    )
    assert finding.says == "finder.usb dies above 5.5 V; P2 and P3 carry up to 16.8 V and fit."
    assert finding.fixes[0].says == "Cap or tape finder.usb and write that under `marked:`."


def test_two_pinouts_are_told_of_by_the_odd_lead() -> None:
    """P2 is crossed for the monitor: it turns the feed of the camera, and P1 turns that of the monitor."""
    found = [one for one in check_text(PINOUTS, PARTS).findings if one.code == CODE]

    assert {(one.cause, one.at) for one in found} == {("P2", "camera.dc_in"), ("monitor.dc_in", "monitor.dc_in")}
    assert all("16.8 V the wrong way round" in one.says for one in found)
    assert_silent(check_text(f"{PINOUTS}marked: {{P1: blue, P2: yellow}}\n", PARTS), CODE)


def test_two_voltages_are_told_of() -> None:
    found = {one.at: one for one in check_text(VOLTAGES, PARTS).findings if one.code == CODE}

    assert found["camera.dc_in"].grade is Grade.THIN
    assert "29.4 V" in found["camera.dc_in"].says
    assert "light.dc_in" not in found


def test_a_lead_that_is_at_fault_as_it_stands_is_told_of_by_that() -> None:
    """P3 feeds the finder raw: that burns now, and where else it would burn is no matter until it is out."""
    rig = edit_text(TWO_FEEDS, ("house/lead-5v", "house/lead-raw"))
    findings = check_text(rig, PARTS).findings

    assert [one.code for one in findings if one.grade is Grade.BURN] == ["voltage:over"]
    assert CODE not in {one.code for one in findings}


def test_house_may_accept_it_by_part() -> None:
    library = """\
rigmint_library: 1
parts: [parts]
accepted: [{code: misplug:burns, at: "house/finder.*", why: all raw leads are red, by: prep lead, until: 2027-06-30}]
"""
    report = check_text(RAW, PARTS, library_yaml=library)

    assert [one.accepted is not None for one in report.findings if one.code == CODE] == [True]


def test_is_silent_on_a_rig_that_is_shorted_as_it_stands() -> None:
    """A lead from output to output, crossed: until it is out, no other volt on the rig means anything."""
    rig = edit_text(RAW, ("leads:\n", "leads:\n  P9: {part: house/lead-crossed, from: plate.out_1, to: plate.out_2}\n"))
    findings = check_text(rig, PARTS).findings

    assert "polarity:shorted" in {one.code for one in findings}
    assert CODE not in {one.code for one in findings}


def test_a_lead_that_burns_its_own_device_from_another_socket_is_named_with_it() -> None:
    """The finder's own lead goes into the motor's second socket, on which battery volts stand."""
    parts = (
        PARTS
        + """
  - {rigmint_part: 1, id: house/motor-two, name: Motor, kind: accessory, like: house/motor, ports: {bus_2: {connector: usb-c, sex: socket, pins: power, rail: main, role: either, works: 7 to 17 V, survives: -0.3 to 18 V}}}
  - rigmint_part: 1
    id: house/bank
    name: USB bank
    kind: battery
    rides: tilt
    ports: {usb: {connector: usb-c, sex: socket, pins: power, rail: five, role: out, survives: -0.3 to 20 V}}
    rails: {main: {}, five: {}}
    bridges: [{from: main, to: five, by: regulator, out: 5 V, takes: 6 to 9 V, blocks: true}]
    cells: {pack: {rail: main, volts: 6.0 to 8.4 V, nominal: 7.2 V, resistance: 80 mohm, energy: 70 Wh, max: 5 A, trips: 8 A, chemistry: li-ion-2s}}
  - {rigmint_part: 1, id: house/lead-usb, name: USB lead, kind: lead, ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}, conductors: [{from: a.vbus, to: b.vbus, gauge: 22 AWG}, {from: a.gnd, to: b.gnd, gauge: 22 AWG}]}
"""
    )
    rig = edit_text(
        RAW,
        ("house/motor\n", "house/motor-two\n  bank: house/bank\n"),
        ("P3: {part: house/lead-5v, from: plate.tap_2, to: finder.usb}", "P3: {part: house/lead-usb, from: bank.usb, to: finder.usb}"),
    )  # fmt: skip
    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="finder.usb", cause="finder.usb")

    assert finding.says == "finder.usb dies above 5.5 V; P2 carries 16.8 V and fits. So does P3 in motor.bus_2."


JOINED = """\
rigmint: 1
rig: Saltmarsh, two cameras whose grounds are joined
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera
  battery_b: house/battery
  plate_b: house/plate
  camera_b: house/camera
docks: [battery.mount > plate.battery, battery_b.mount > plate_b.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}  # here
  P2: {part: house/lead-2pin, from: plate_b.out_1, to: camera_b.dc_in}
  G1:
    from: plate.tap_1
    to: plate_b.tap_1
    lead: {ends: {a: {connector: d-tap, sex: plug}, b: {connector: d-tap, sex: plug}}, conductors: [{from: a.2, to: b.2}]}
"""


def test_two_batteries_that_would_meet_at_many_sockets_are_told_of_once() -> None:
    finding = assert_finds(
        check_text(JOINED, PARTS),
        CODE,
        line=find_line(JOINED),
        at="plate_b.out_1",
        cause="P1",
        worst=Grade.THIN,
    )
    assert finding.says == (
        "P1 fits plate_b.out_1, and battery.pack then pushes into battery_b.pack. The same goes for P2."
    )
    assert finding.fixes[0].says == "Put red tape on P1 and P2 and write that under `marked:`."
    assert_silent(check_text(f"{JOINED}marked: {{P1: red, P2: red}}\n", PARTS), CODE, worst=Grade.THIN)


def test_a_socket_that_burns_as_it_stands_is_told_of_by_that() -> None:
    """Raw volts go into one of a hub's sockets and stand on the other: which leads fit that is no matter until they
    are gone."""
    parts = (
        PARTS
        + """
  - rigmint_part: 1
    id: house/hub
    name: Hub
    kind: accessory
    ports:
      usb_1: {connector: usb-c, sex: socket, pins: power, rail: main, role: either, works: 4.5 to 5.5 V, survives: -0.3 to 5.5 V}
      usb_2: {connector: usb-c, sex: socket, pins: power, rail: main, role: either, works: 4.5 to 5.5 V, survives: -0.3 to 5.5 V}
    rails: {main: {load: 1 W}}
  - {rigmint_part: 1, id: house/lead-usb, name: USB lead, kind: lead, ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}, conductors: straight}
"""
    )
    rig = """\
rigmint: 1
rig: Saltmarsh, raw volts into a hub
kit: {battery: house/battery, plate: house/plate, hub: house/hub, hub_b: house/hub, finder: house/finder}
docks: [battery.mount > plate.battery]
leads:
  P2: {part: house/lead-raw, from: plate.tap_1, to: hub.usb_1}
  P3: {part: house/lead-5v, from: plate.tap_2, to: hub_b.usb_1}
  U1: {part: house/lead-usb, from: hub_b.usb_2, to: finder.usb}
"""
    findings = check_text(rig, parts).findings

    assert [one.at for one in findings if one.code == "voltage:over"] == ["hub.usb_1"]
    assert CODE not in {one.code for one in findings}
