"""`voltage:under`: fewer volts than a device works on."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS

CODE = "voltage:under"
FAULT = """\
rigmint: 1
rig: Saltmarsh, lamp on a long lead
kit:
  battery: house/battery
  plate: house/plate
  lamp: house/lamp
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-thin, from: plate.out_1, to: lamp.dc_in, length: 12 m}  # here
"""
OHMS_PER_METRE = 0.084215 * 1.02
"""24 AWG: ASTM B258 diameter, IACS copper at 20 °C, 2 % for the stranding (common practice)."""


def test_finds_a_lead_that_is_too_long() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="lamp.dc_in", cause="P1", grade=Grade.DEAD
    )
    ways = 2 * (12 * OHMS_PER_METRE + 2 * 0.005) + 2 * 0.005 + 0.08  # P1 with its mates, the dock, the battery
    assert finding.measured is not None
    lamp = 11.0 / 2.0  # under its window a load counts as the resistance that draws its 2 A at the lower end
    assert finding.measured.value == pytest.approx(14.4 * lamp / (lamp + ways), abs=0.01)
    assert finding.measured.limit == 11.0


def test_is_silent_on_a_short_lead() -> None:
    assert_silent(check_text(edit_text(FAULT, ("length: 12 m", "length: 1 m")), PARTS), CODE)


def test_is_silent_where_the_device_works_that_low() -> None:
    parts = edit_text(PARTS, ("works: 11 to 17 V, survives: -0.3 to 20 V", "works: 7 to 17 V, survives: -0.3 to 20 V"))

    assert_silent(check_text(FAULT, parts), CODE)


def test_is_thin_where_only_the_change_is_too_low() -> None:
    rig = edit_text(FAULT, ("length: 12 m", "length: 7 m"))

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lamp.dc_in", cause="P1", grade=Grade.THIN)


def test_finds_12_v_on_a_24_v_device() -> None:
    parts = edit_text(PARTS, ("works: 11 to 17 V, survives: -0.3 to 20 V", "works: 20 to 34 V, survives: -0.3 to 36 V"))
    rig = edit_text(FAULT, ("length: 12 m", "length: 1 m"))

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="lamp.dc_in", cause="P1")
    assert finding.fixes[0].says == "Feed lamp.dc_in from a source of its own voltage class."
