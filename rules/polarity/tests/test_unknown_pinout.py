"""`polarity:unknown`: leads that carry power and that nobody described."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD, WITH_PICTURE

CODE = "polarity:unknown"
SHORT_P1 = (
    "P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}",
    "P1: plate.out_1 > camera.dc_in  # here",
)
SHORT_P2 = ("P2: {part: house/lead-2pin, from: plate.out_2, to: monitor.dc_in}", "P2: plate.tap > monitor.dc_in")
FAULT = edit_text(HAND_HELD, SHORT_P1, SHORT_P2)


def test_rolls_up_the_leads_that_nobody_described() -> None:
    finding = assert_finds(check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="P1", cause="P1", grade=Grade.THIN)
    assert finding.also == ("P2",)
    assert finding.says == "Nobody described P1 and P2: their pin-outs are assumed."


def test_is_silent_where_the_leads_are_metered() -> None:
    rig = FAULT + "metered:\n  P1: {by: prep, says: 2 plus}\n  P2: {by: prep, says: 2 plus}\n"

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_on_leads_without_power() -> None:
    """A picture lead in one line carries no feed, whatever its pin-out."""
    rig = edit_text(
        WITH_PICTURE, ("S1: {part: house/lead-sdi, from: camera.sdi, to: monitor.sdi}", "S1: camera.sdi > monitor.sdi")
    )

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_on_leads_whose_pinout_a_standard_fixes() -> None:
    """USB Type-C to USB Type-C: the contacts are fixed (USB Type-C specification, IEC 62680-1-3)."""
    parts = (
        PARTS
        + """
  - rigmint_part: 1
    id: house/power-bank
    name: Power bank
    kind: supply
    ports: {usb: {connector: usb-c, sex: socket, pins: power, role: out}}
    cells: {pack: {volts: 4.9 to 5.2 V, max: 3 A, trips: 4 A}}

  - rigmint_part: 1
    id: house/recorder-usb
    name: Recorder
    kind: recorder
    ports: {usb: {connector: usb-c, sex: socket, pins: power, role: in}}
    rails: {main: {load: 2 W}}
"""
    )
    rig = """\
rigmint: 1
rig: Saltmarsh, sound bag
kit: {bank: house/power-bank, recorder: house/recorder-usb}
leads:
  U1: bank.usb > recorder.usb
"""
    assert_silent(check_text(rig, parts), CODE)


def test_speaks_of_one_cause_in_all_setups() -> None:
    rig = FAULT + "setups:\n  one: {}\n  two: {out: [camera]}\n"

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="P1", cause="P1")
    assert finding.setups == ("one", "two")
