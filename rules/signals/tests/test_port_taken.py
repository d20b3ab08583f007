"""`fit:port-taken`: two plugs for one port."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .fit_parts import FIT_PARTS
from .fit_rigs import LENS, POWER

CODE = "fit:port-taken"
P2 = "P2: {part: house/lead-tap, from: battery.tap_2, to: lamp_b.dc_in}"
FAULT = edit_text(POWER, (P2, "P2: {part: house/lead-tap, from: battery.tap_1, to: lamp_b.dc_in}  # here"))


def test_finds_two_leads_on_one_tap() -> None:
    finding = assert_finds(
        check_text(FAULT, FIT_PARTS), CODE, line=find_line(FAULT), at="battery.tap_1", cause="P2", grade=Grade.DEAD
    )
    assert finding.says == "battery.tap_1 takes one plug, and P1 and P2 are to go into it."
    assert finding.fixes[0].says == "Plug P2 into battery.tap_2, which is free."
    assert [edit.value for edit in finding.fixes[0].edits] == ["battery.tap_2"]


def test_is_silent_where_each_has_its_own() -> None:
    assert_silent(check_text(POWER, FIT_PARTS), CODE)


def test_is_silent_where_they_are_never_there_at_once() -> None:
    rig = FAULT + "setups:\n  one: {unplugged: [P2], out: [lamp_b]}\n  two: {unplugged: [P1], out: [lamp_a]}\n"

    assert_silent(check_text(rig, FIT_PARTS), CODE)


def test_finds_it_only_in_the_setup_in_which_both_are_there() -> None:
    rig = FAULT + "setups:\n  one: {unplugged: [P2], out: [lamp_b]}\n  both: {}\n"

    finding = assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="battery.tap_1", cause="P2")
    assert finding.setups == ("both",)


def test_has_no_port_to_offer_where_all_are_taken() -> None:
    rig = FAULT + "  P3: {part: house/lead-tap, from: battery.tap_2, to: loose}\n"

    finding = assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="battery.tap_1", cause="P2")
    assert finding.fixes[0].says == "Feed one of P1 or P2 from another port, or by a lead with three ends."
    assert finding.fixes[0].edits == ()


def test_blames_the_plug_that_is_not_meant_for_the_port() -> None:
    """The bus lead stands second to the lead that is tagged for the socket, and first in the file."""
    rig = edit_text(
        LENS,
        ("  B1: {part: house/lead-bus, from: driver.bus, to: motor.bus_1}\n", ""),
        ("leads:\n", "leads:\n  B1: {part: house/lead-bus, from: driver.head, to: motor.bus_1}  # here\n"),
    )

    finding = assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="driver.head", cause="B1")
    assert "lens.focus" not in finding.says


@pytest.mark.parametrize("connector", ["ring-terminal", "clamp"])
def test_is_silent_on_studs_and_posts_that_take_several(connector: str) -> None:
    parts = (
        FIT_PARTS
        + f"""
  - rigmint_part: 1
    id: house/car
    name: Vehicle battery
    kind: supply
    ports: {{studs: {{connector: {connector}, sex: same, pins: plus-first, role: out}}}}
    cells: {{pack: {{volts: 11.0 to 14.6 V, nominal: 12.6 V, resistance: 20 mohm, energy: 700 Wh, max: 50 A, trips: 80 A}}}}

  - rigmint_part: 1
    id: house/lead-stud
    name: Lead from the studs
    kind: lead
    length: 1 m
    ends: {{a: {{connector: {connector}, sex: same}}, b: {{connector: 0b-2, sex: plug}}}}
    conductors: [{{from: a.1, to: b.2, gauge: 16 AWG, fuse: 10 A}}, {{from: a.2, to: b.1, gauge: 16 AWG}}]
"""
    )
    rig = """\
rigmint: 1
rig: Saltmarsh, car
kit: {car: house/car, lamp_a: house/lamp, lamp_b: house/lamp}
leads:
  P1: {part: house/lead-stud, from: car.studs, to: lamp_a.dc_in}
  P2: {part: house/lead-stud, from: car.studs, to: lamp_b.dc_in}
"""
    assert_silent(check_text(rig, parts), CODE)
