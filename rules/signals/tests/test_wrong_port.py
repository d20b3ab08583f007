"""`fit:wrong-port`: a plug in a port that it was not made for."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .fit_parts import FIT_PARTS
from .fit_rigs import LENS

CODE = "fit:wrong-port"
R1 = "R1: {part: house/lead-run-5v, from: driver.run_5v, to: camera.remote}"
B1 = "B1: {part: house/lead-bus, from: driver.bus, to: motor.bus_1}"
FAULT = edit_text(LENS, (R1, "R1: {part: house/lead-run-5v, from: driver.run, to: camera.remote}  # here"))

POWER_BANK = """
  - rigmint_part: 1
    id: house/bank
    name: Power bank
    kind: battery
    ports: {usb: {connector: usb-c, sex: socket, pins: power, role: out}}
    cells: {pack: {volts: 5.0 to 5.2 V, nominal: 5.1 V, resistance: 50 mohm, energy: 40 Wh, max: 3 A, trips: 4 A}}

  - rigmint_part: 1
    id: house/finder-usb
    name: Range finder that is fed through its bus
    kind: range_finder
    ports: {bus: {connector: usb-c, sex: socket, pins: power-and-data, role: in, works: 4.5 to 17 V, survives: -0.3 to 18 V, speaks: [lens-bus]}}
    rails: {main: {load: 2 W}}

  - rigmint_part: 1
    id: house/lead-bus-power
    name: Bus lead with power
    kind: lead
    length: 40 cm
    ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: [{from: a.vbus, to: b.vbus, gauge: 22 AWG}, {from: a.gnd, to: b.gnd, gauge: 22 AWG}, {from: a.dp, to: b.dp}, {from: a.dm, to: b.dm}]
    carries: [lens-bus]
"""


def test_finds_a_trigger_lead_in_the_port_of_another_kind() -> None:
    finding = assert_finds(
        check_text(FAULT, FIT_PARTS), CODE, line=find_line(FAULT), at="driver.run", cause="R1", grade=Grade.DEAD
    )
    assert finding.says == (
        "R1 is in the wrong port: end a of R1 is tagged 5 V, and driver.run is tagged closure, so that nobody has"
        " camera.record."
    )
    assert finding.fixes[0].says == "Plug end a of R1 into driver.run_5v."
    assert [edit.value for edit in finding.fixes[0].edits] == ["driver.run_5v"]


def test_is_silent_where_it_is_in_its_own() -> None:
    assert_silent(check_text(LENS, FIT_PARTS), CODE)


def test_finds_a_bus_lead_in_a_port_that_does_not_speak_it() -> None:
    rig = edit_text(LENS, (B1, "B1: {part: house/lead-bus, from: driver.head, to: motor.bus_1}  # here"),
                    ("  D1: {part: house/lead-head, from: driver.head, to: head.accessory}\n", ""))  # fmt: skip

    finding = assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="driver.head", cause="B1")
    assert finding.says == (
        "B1 is in the wrong port: its end a is made for Lens motor bus, and driver.head speaks Bus between head and"
        " motor driver, so that nobody has lens.focus."
    )
    assert [edit.value for edit in finding.fixes[0].edits] == ["driver.bus"]


def test_says_so_where_the_right_port_is_taken() -> None:
    rig = FAULT + "    out: []\n"
    rig = edit_text(rig, ("links:\n", "  R2: {part: house/lead-run-5v, from: driver.run_5v, to: loose}\nlinks:\n"))

    finding = assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="driver.run", cause="R1")
    assert finding.fixes[0].says == "End a of R1 belongs into driver.run_5v: free that port first."
    assert finding.fixes[0].edits == ()


def test_finds_two_ports_with_no_language_in_common() -> None:
    """Each speaks something that a coax lead carries, and no two the same."""
    parts = (
        FIT_PARTS
        + """
  - rigmint_part: 1
    id: house/box
    name: Timecode box
    kind: timecode
    ports:
      tc: {connector: bnc, sex: socket, pins: timecode, speaks: [ltc]}
    makes: {clock: {timecode: true}}
    passes: [{from: clock, to: tc, carries: timecode}]

  - rigmint_part: 1
    id: house/recorder
    name: Recorder
    kind: recorder
    ports:
      sdi_in: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g]}
      tc_in: {connector: bnc, sex: socket, pins: timecode, speaks: [ltc]}

  - rigmint_part: 1
    id: house/coax
    name: Coax lead
    kind: lead
    length: 50 cm
    ends: {a: {connector: bnc, sex: plug}, b: {connector: bnc, sex: plug}}
    conductors: straight
    carries: [sdi-3g, ltc, genlock]
"""
    )
    rig = """\
rigmint: 1
rig: Saltmarsh, clock
kit: {box: house/box, recorder: house/recorder}
leads:
  T1: {part: house/coax, from: box.tc, to: recorder.sdi_in}  # here
"""
    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="recorder.sdi_in", cause="T1")
    assert [edit.value for edit in finding.fixes[0].edits] == ["recorder.tc_in"]

    short = edit_text(rig, ("{part: house/coax, from: box.tc, to: recorder.sdi_in}", "box.tc > recorder.sdi_in"))
    assert_finds(check_text(short, parts), CODE, line=find_line(short), at="recorder.sdi_in", cause="T1")
    assert_silent(check_text(edit_text(rig, ("recorder.sdi_in", "recorder.tc_in")), parts), CODE)


def test_is_silent_on_a_data_lead_that_only_feeds_something() -> None:
    rig = """\
rigmint: 1
rig: Saltmarsh, bench
kit: {bank: house/bank, finder: house/finder-usb}
leads:
  U1: {part: house/lead-bus-power, from: bank.usb, to: finder.bus}
"""
    assert_silent(check_text(rig, FIT_PARTS + POWER_BANK), CODE)
