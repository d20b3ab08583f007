"""`polarity:reversed`: a crossed pair, found contact by contact."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD

CODE = "polarity:reversed"
CROSS_P1 = (
    "P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}",
    "P1: {part: house/lead-2pin-crossed, from: plate.out_1, to: camera.dc_in}  # here",
)
FAULT = edit_text(HAND_HELD, CROSS_P1)

TRUNK = """\
rigmint: 1
rig: Saltmarsh, two cameras on a breakout
kit:
  battery: house/battery
  plate: house/plate
  breakout: house/breakout
  camera_a: house/camera
  camera_b: house/camera
docks: [battery.mount > plate.battery]
leads:
  P0: {part: house/lead-2pin-crossed, from: plate.out_1, to: breakout.in}  # here
  P1: {part: house/lead-2pin, from: breakout.out_1, to: camera_a.dc_in}
  P2: {part: house/lead-2pin, from: breakout.out_2, to: camera_b.dc_in}
"""


def test_finds_a_crossed_lead() -> None:
    report = check_text(FAULT, PARTS)

    finding = assert_finds(report, CODE, line=find_line(FAULT), at="camera.dc_in", cause="P1", grade=Grade.BURN)
    assert finding.path == ("battery", "plate.out_1", "P1", "camera.dc_in")
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit) == (-16.8, -0.3)
    assert finding.says == ("camera.dc_in gets 16.8 V the wrong way round through P1 and survives 0.3 V.")


def test_is_silent_where_the_lead_is_straight() -> None:
    assert_silent(check_text(HAND_HELD, PARTS), CODE)


def test_is_silent_where_a_crossed_lead_meets_the_other_pinout() -> None:
    """The lead is soldered for this camera: crossed twice is straight."""
    rig = edit_text(FAULT, ("camera: house/camera", "camera: house/camera-plus-first"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_finds_a_straight_lead_between_two_pinouts() -> None:
    rig = edit_text(
        HAND_HELD,
        ("camera: house/camera", "camera: house/camera-plus-first"),
        ("to: camera.dc_in}", "to: camera.dc_in}  # here"),
    )

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.dc_in", cause="P1")


def test_is_dead_where_the_port_is_protected() -> None:
    rig = edit_text(FAULT, ("camera: house/camera", "camera: house/camera-protected"))
    report = check_text(rig, PARTS)

    finding = assert_finds(report, CODE, line=find_line(rig), at="camera.dc_in", cause="P1", grade=Grade.DEAD)
    assert "protected" in finding.says


def test_puts_several_victims_down_to_the_one_lead() -> None:
    finding = assert_finds(check_text(TRUNK, PARTS), CODE, line=find_line(TRUNK), at="camera_a.dc_in", cause="P0")
    assert finding.also == ("camera_b.dc_in",)


def test_the_victim_that_burns_speaks() -> None:
    """A protected camera on the same trunk is named, but the one that dies decides."""
    rig = edit_text(TRUNK, ("camera_a: house/camera", "camera_a: house/camera-protected"))

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="camera_b.dc_in", cause="P0", grade=Grade.BURN
    )
    assert finding.also == ("camera_a.dc_in",)


def test_lists_the_setups_in_which_it_holds() -> None:
    rig = FAULT + "setups:\n  hand: {}\n  bag: {out: [camera]}\n  table: {out: [monitor]}\n"

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.dc_in", cause="P1")
    assert finding.setups == ("hand", "table")


def test_finds_it_where_only_connectors_are_written() -> None:
    rig = """\
rigmint: 1
rig: Saltmarsh, written short
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera-unpinned
docks: [battery.mount > plate.battery]
leads:
  P1:  # here
    from: plate.tap
    to: camera.dc_in
    lead:
      ends: {a: {connector: d-tap}, b: {connector: 0b-2}}
      conductors: [{from: a.1, to: b.1}, {from: a.2, to: b.2}]
"""
    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.dc_in", cause="P1", grade=Grade.BURN
    )
    assert set(finding.assumed) == {"camera.dc_in pins", "camera.dc_in survives"}


def test_blames_the_battery_where_no_lead_turns_it() -> None:
    """A battery whose studs are swapped: every lead is straight, and everything is reversed."""
    parts = edit_text(
        PARTS, ("sex: plug, pins: power, role: out", "sex: plug, pins: {plus: minus, minus: plus}, role: out")
    )
    rig = edit_text(
        HAND_HELD,
        ("battery: house/battery", "battery: house/battery  # here"),
        ("  monitor: house/monitor\n", ""),
        ("  P2: {part: house/lead-2pin, from: plate.out_2, to: monitor.dc_in}\n", ""),
    )

    assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="camera.dc_in", cause="battery")
