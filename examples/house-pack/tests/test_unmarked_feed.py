"""`kestrel:unmarked-feed`."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

CODE = "kestrel:unmarked-feed"
PARTS = """\
parts:
  - rigmint_part: 1
    id: house/camera
    name: Camera
    kind: camera
    ports: {dc_in: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, role: in, works: 11 to 34 V}}
    rails: {main: {load: 20 W}}

  - rigmint_part: 1
    id: house/battery-26v
    name: Battery, 26 V
    kind: battery
    ports: {out: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, rail: main, role: out}}
    cells: {pack: {rail: main, volts: 21 to 29.4 V, max: 10 A, trips: 15 A}}

  - rigmint_part: 1
    id: house/battery-14v
    name: Battery, 14 V
    kind: battery
    ports: {out: {connector: 0b-2, sex: socket, pins: {1: minus, 2: plus}, rail: main, role: out}}
    cells: {pack: {rail: main, volts: 12 to 16.8 V, max: 10 A, trips: 15 A}}

  - rigmint_part: 1
    id: house/lead
    name: Lead
    kind: lead
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.1, to: b.1, gauge: 20 AWG}, {from: a.2, to: b.2, gauge: 20 AWG}]
"""
RIG = """\
rigmint: 1
rig: Saltmarsh, on the bench
kit: {battery: house/battery-26v, camera: house/camera}
leads:
  P1: {part: house/lead, from: battery.out, to: camera.dc_in}  # here
"""


def test_a_lead_that_carries_26_v_is_taped() -> None:
    report = check_text(RIG, PARTS)
    finding = assert_finds(report, CODE, line=find_line(RIG), at="P1", cause="P1", grade=Grade.THIN)

    assert finding.says == "P1 can carry 29.4 V and is not marked."
    assert [(edit.do, edit.path, edit.value) for edit in finding.fixes[0].edits] == [
        ("set", ("marked", "P1"), "red tape")
    ]


def test_is_silent_where_it_is_taped() -> None:
    assert_silent(check_text(RIG + "marked: {P1: red tape}\n", PARTS), CODE)


def test_is_silent_where_the_lead_wears_a_mark_for_good() -> None:
    assert_silent(check_text(RIG, PARTS + "    mark: red sleeve\n"), CODE)


def test_14_v_is_the_usual() -> None:
    assert_silent(check_text(edit_text(RIG, ("house/battery-26v", "house/battery-14v")), PARTS), CODE)


def test_the_library_says_from_which_voltage() -> None:
    library = "rigmint_library: 1\nparts: [parts]\nrules: {kestrel:unmarked-feed: {above: 30 V}}\n"

    assert_silent(check_text(RIG, PARTS, library_yaml=library), CODE)
