"""`current:short`: a fault that nothing interrupts, and fuses inside devices."""

from __future__ import annotations

import math

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD, VEHICLE

CODE = "current:short"
FAULT = edit_text(VEHICLE, ("house/lead-vehicle-fused", "house/lead-vehicle"), ("length: 1 m}", "length: 1 m}  # here"))
INNER = """\
rigmint: 1
rig: Saltmarsh, motor behind a fuse inside the plate
kit:
  battery: house/battery
  plate: house/plate-fused  # here
  motor_f: house/motor
  motor_i: house/motor
  breakout: house/breakout
docks: [battery.mount > plate.battery]
leads:
  P0: {part: house/lead, from: plate.out_1, to: breakout.in}
  P1: {part: house/lead, from: breakout.out_1, to: motor_f.dc_in}
  P2: {part: house/lead, from: breakout.out_2, to: motor_i.dc_in}
"""


def test_finds_a_vehicle_lead_without_a_fuse() -> None:
    """A short at the lamp end: the battery at its highest over its own 10 mohm, two conductors of 18 AWG (20.948 mohm/m,
    ASTM B258 and IACS, 2 % for the stranding) and the mates of the ring terminals. 18 AWG melts from 80 d^1.5 =
    83 A with d = 1.0237 mm (Preece, from memory)."""
    finding = assert_finds(check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="V1", cause="V1", grade=Grade.HURT)
    ohms = 0.010 + 2 * (0.020948 * 1.02 + 0.001)
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(14.4 / ohms, rel=0.01)
    assert finding.measured.limit == pytest.approx(80 * math.pow(1.0237, 1.5), rel=0.01)
    assert finding.says == (
        "A short at the far end of V1 draws about 263.1 A from car, which does not trip; V1 melts from about 82.9 A."
    )
    assert finding.fixes[0].says == "Put a fuse into V1 close to car, rated for the conductor."


def test_speaks_once_for_a_source_with_several_leads() -> None:
    rig = edit_text(FAULT, ("lamp: house/lamp\n", "lamp: house/lamp\n  lamp_2: house/lamp\n"))
    rig += "  V2: {part: house/lead-vehicle, from: car.studs, to: lamp_2.dc_in, length: 3 m}\n"

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="V1", cause="V1", grade=Grade.HURT)
    assert finding.also == ("V2",)
    assert finding.says.endswith("V1 melts from about 82.9 A. The same goes for V2.")


def test_is_silent_on_a_fused_lead() -> None:
    assert_silent(check_text(VEHICLE, PARTS), CODE)


def test_is_silent_on_a_source_that_trips() -> None:
    parts = edit_text(PARTS, ("resistance: 10 mohm, trips: none", "resistance: 10 mohm, trips: 60 A"))

    assert_silent(check_text(FAULT, parts), CODE)


def test_is_silent_where_the_lead_holds_the_short() -> None:
    """6 mm2 melts from far more than comes through 30 m of it."""
    parts = PARTS.replace(
        "{from: a.1, to: b.2, gauge: 18 AWG}, {from: a.2, to: b.1, gauge: 18 AWG}",
        "{from: a.1, to: b.2, area: 6 mm2}, {from: a.2, to: b.1, area: 6 mm2}",
    )
    rig = edit_text(FAULT, ("length: 1 m", "length: 30 m"), ("house/lamp", "house/motor"))

    assert_silent(check_text(rig, parts), CODE)


def test_a_source_that_states_no_currents_is_unknown() -> None:
    report = check_text(edit_text(HAND_HELD, ("house/battery", "house/battery-silent")), PARTS)

    assert_silent(report, CODE)
    unknown = [(one.code, one.needs, one.at, one.says) for one in report.unknown if one.code == CODE]
    assert unknown == [(CODE, "trips", "battery.pack", "battery.pack does not state `trips`")]


def test_a_limit_alone_stands_for_the_current_at_which_a_source_trips() -> None:
    parts = edit_text(PARTS, ("max: 10 A, trips: 15 A, charge: never", "max: 10 A, charge: never"))
    report = check_text(HAND_HELD, parts)

    assert_silent(report, CODE)
    assert not [one for one in report.unknown if one.code == CODE]


def test_finds_a_fuse_inside_that_the_peaks_blow() -> None:
    """Two motors that peak at 30 W each: 60 W at about 13.5 V is more than 3 A; 4 W is not."""
    finding = assert_finds(
        check_text(INNER, PARTS), CODE, line=find_line(INNER), at="plate", cause="plate", grade=Grade.BURN
    )
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(60 / 13.3, abs=0.2)
    assert finding.measured.limit == 3.0
    assert "changing it is a bench repair" in finding.says


def test_is_silent_where_the_fuse_inside_holds() -> None:
    assert_silent(check_text(INNER, edit_text(PARTS, ("amps: 3 A, inside", "amps: 7.5 A, inside"))), CODE)


def test_is_silent_on_a_fuse_that_is_changed_from_outside() -> None:
    assert_silent(check_text(INNER, edit_text(PARTS, ("fuse: {amps: 3 A, inside: true}", "fuse: 3 A"))), CODE)
