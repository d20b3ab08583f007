"""`current:over`: more amps than a lead, contact, port or source takes."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD

CODE = "current:over"
FAULT = """\
rigmint: 1
rig: Saltmarsh, lamp on a thin lead
kit:
  battery: house/battery
  plate: house/plate
  lamp: house/lamp
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-24, from: plate.out_1, to: lamp.dc_in}  # here
"""
TWO_LAMPS = """\
rigmint: 1
rig: Saltmarsh, two lamps on one lead
kit:
  mains: house/mains-supply
  lamp_a: house/lamp
  lamp_b: house/lamp
leads:
  P1: {part: house/lead-y, ends: {a: mains.out, b: lamp_a.dc_in, c: lamp_b.dc_in}}  # here
"""
PEAKING = """\
rigmint: 1
rig: Saltmarsh, motor on a thin lead
kit:
  battery: house/battery
  plate: house/plate
  motor: house/motor
docks: [battery.mount > plate.battery]
leads:
  P1:  # here
    from: plate.out_1
    to: motor.dc_in
    lead:
      ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
      conductors: [{from: a.1, to: b.1, gauge: 26 AWG}, {from: a.2, to: b.2, gauge: 26 AWG}]
      length: 20 cm
"""


def test_finds_a_thin_lead() -> None:
    """72 W behind 24 AWG, which takes 3 A in free air (common practice): the closed form of a constant power."""
    finding = assert_finds(check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="P1", cause="P1", grade=Grade.DEAD)
    assert finding.measured is not None
    ohms = 0.08 + 2 * 0.005 + 2 * (0.4 * 0.084215 * 1.02 + 2 * 0.005)  # the battery, the dock, the lead and its mates
    lamp = (14.4 + (14.4**2 - 4 * ohms * 72) ** 0.5) / 2
    assert finding.measured.value == pytest.approx(72 / lamp, rel=1e-4)
    assert finding.measured.limit == 3.0
    assert finding.says == "P1 carries 5.4 A at typical load; a conductor of 24 AWG takes 3.0 A."


def test_is_silent_on_a_thick_lead() -> None:
    assert_silent(check_text(edit_text(FAULT, ("house/lead-24", "house/lead")), PARTS), CODE)


def test_is_silent_on_a_small_load_behind_it() -> None:
    assert_silent(check_text(edit_text(FAULT, ("house/lamp", "house/monitor")), PARTS), CODE)


def test_is_thin_above_four_fifths() -> None:
    """36 W: 2.6 of 3 A."""
    rig = edit_text(FAULT, ("house/lamp", "house/camera"))

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="P1", cause="P1", grade=Grade.THIN)
    assert finding.measured is not None
    assert 0.8 < finding.measured.value / 3.0 < 0.9


@pytest.mark.parametrize(
    ("area", "rating"),
    [("0.5 mm2", 5.0), ("0.2 mm2", 1.5), ("0.1 mm2", 1.0)],
)
def test_a_conductor_by_area_counts_as_the_gauge_below_it(area: str, rating: float) -> None:
    """0.5 mm2 is less than 20 AWG (0.518 mm2): it takes what 22 AWG takes."""
    parts = PARTS.replace("area: 0.5 mm2", f"area: {area}")
    rig = edit_text(FAULT, ("house/lead-24", "house/lead-half"))

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="P1", cause="P1", grade=Grade.DEAD)
    assert finding.measured is not None
    assert finding.measured.limit == rating
    assert f"a conductor of {area} takes" in finding.says


def test_a_square_millimetre_carries_what_18_awg_carries() -> None:
    parts = PARTS.replace("area: 0.5 mm2", "area: 1.0 mm2")

    assert_silent(check_text(edit_text(FAULT, ("house/lead-24", "house/lead-half")), parts), CODE)


def test_finds_a_contact_in_which_two_conductors_meet() -> None:
    """Each conductor carries 5 A of its 15, but both meet in one contact, which takes 10 A."""
    parts = edit_text(
        PARTS,
        (
            "pins: minus-first, role: out, survives: -0.3 to 20 V}}\n    cells: {supply",
            "pins: minus-first, role: out, survives: -0.3 to 20 V, max: 20 A}}\n    cells: {supply",
        ),
    )

    finding = assert_finds(
        check_text(TWO_LAMPS, parts), CODE, line=find_line(TWO_LAMPS), at="mains.out", cause="P1", grade=Grade.DEAD
    )
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(2 * 72 / 14.0, abs=0.2)
    assert "a contact of 2-pin circular push-pull at mains.out takes 10.0 A" in finding.says


def test_finds_a_port_by_its_own_limit() -> None:
    parts = edit_text(
        PARTS,
        (
            "out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}\n      out_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}\n      out_3",
            "out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V, max: 2 A}\n      out_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}\n      out_3",
        ),
    )
    rig = edit_text(HAND_HELD, ("to: camera.dc_in}", "to: camera.dc_in}  # here"))

    finding = assert_finds(
        check_text(rig, parts), CODE, line=find_line(rig), at="plate.out_1", cause="P1", grade=Grade.DEAD
    )
    assert "the port plate.out_1 takes 2.0 A" in finding.says
    assert not finding.assumed


def test_finds_a_docked_port_by_its_limit() -> None:
    parts = edit_text(
        PARTS,
        (
            "battery: {connector: plate-wedge, sex: socket, pins: power, role: in, works: 6 to 34 V, survives: -36 to 36 V}",
            "battery: {connector: plate-wedge, sex: socket, pins: power, role: in, works: 6 to 34 V, survives: -36 to 36 V, max: 2 A}",
        ),
    )
    rig = edit_text(HAND_HELD, ("plate: house/plate", "plate: house/plate  # here"))

    finding = assert_finds(
        check_text(rig, parts), CODE, line=find_line(rig), at="plate.battery", cause="plate", grade=Grade.DEAD
    )
    assert finding.fixes[0].says == "Take a load off plate: feed the heaviest one elsewhere."


def test_finds_a_source_that_gives_more_than_it_may() -> None:
    parts = edit_text(PARTS, ("energy: 98 Wh, max: 10 A, trips: 15 A", "energy: 98 Wh, max: 2 A, trips: 15 A"))
    rig = edit_text(HAND_HELD, ("battery: house/battery", "battery: house/battery  # here"))

    finding = assert_finds(
        check_text(rig, parts), CODE, line=find_line(rig), at="battery.pack", cause="battery", grade=Grade.DEAD
    )
    assert "battery itself takes 2.0 A" in finding.says


def test_is_thin_where_only_the_peak_at_the_change_is_too_much() -> None:
    """A motor that draws 2 W and peaks at 30 W, behind 26 AWG, which takes 1.5 A."""
    finding = assert_finds(
        check_text(PEAKING, PARTS), CODE, line=find_line(PEAKING), at="P1", cause="P1", grade=Grade.THIN
    )
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(30 / 13.3, abs=0.1)
    assert "at the battery change, with peaks" in finding.says


def test_an_assumed_gauge_is_said_to_be_assumed() -> None:
    rig = edit_text(FAULT, ("{part: house/lead-24, from: plate.out_1, to: lamp.dc_in}", "plate.out_1 > lamp.dc_in"))
    parts = edit_text(
        PARTS,
        ("{main: {load: 72 W, peak: 72 W, start: 72 W}}", "{main: {load: 105 W, peak: 105 W}}"),
        ("max: 10 A, trips: 15 A", "max: 30 A, trips: 45 A"),
    )

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="P1", cause="P1")
    assert "P1 gauge" in finding.assumed
    assert "takes ~" in finding.says


BEHIND_A_BREAKOUT = """\
rigmint: 1
rig: Saltmarsh, lamp and monitor behind a thin trunk
kit:
  battery: house/battery
  plate: house/plate
  breakout: house/breakout
  lamp: house/lamp
  monitor: house/monitor
docks: [battery.mount > plate.battery]
leads:
  P0: {part: house/lead-24, from: plate.out_1, to: breakout.in}  # here
  P1: {part: house/lead, from: breakout.out_1, to: monitor.dc_in}
  P2: {part: house/lead, from: breakout.out_2, to: lamp.dc_in}
"""


def test_moves_the_heaviest_load_to_a_free_tap() -> None:
    report = check_text(BEHIND_A_BREAKOUT, PARTS, prove=True)

    finding = assert_finds(report, CODE, line=find_line(BEHIND_A_BREAKOUT), at="P0", cause="P0", grade=Grade.DEAD)
    assert finding.fixes[0].says == "Plug P2 into plate.out_2, a tap of its own: P0 then stays within its limits."
    assert finding.fixes[0].proved
    assert_silent(check_text(edit_text(BEHIND_A_BREAKOUT, ("breakout.out_2", "plate.out_2")), PARTS), CODE)


def test_offers_no_tap_where_none_is_free() -> None:
    rig = edit_text(
        BEHIND_A_BREAKOUT,
        ("  monitor: house/monitor\n", "  monitor: house/monitor\n  b: house/monitor\n  c: house/monitor\n  d: house/monitor\n"),
        ("  P2:", "  Q2: plate.out_2 > b.dc_in\n  Q3: plate.out_3 > c.dc_in\n  Q4: plate.out_4 > d.dc_in\n  P2:"),
    )  # fmt: skip
    (finding,) = [one for one in check_text(rig, PARTS).findings if one.cause == "P0" and one.code == CODE]

    assert [fix.edits for fix in finding.fixes] == [()]
