"""`fit:unlatched`: plugs that nothing holds, on a rig that moves."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .fit_parts import FIT_PARTS
from .fit_rigs import LENS, POWER

CODE = "fit:unlatched"
FAULT = edit_text(POWER, ("on: studio", "on: vehicle"), ("to: lamp_a.dc_in}", "to: lamp_a.dc_in}  # here"))


def test_rolls_up_the_plugs_that_do_not_latch() -> None:
    """The taps; the circular plugs latch."""
    finding = assert_finds(
        check_text(FAULT, FIT_PARTS), CODE, line=find_line(FAULT), at="battery.tap_1", cause="P1", grade=Grade.THIN
    )
    assert finding.also == ("battery.tap_2",)
    assert finding.says == "On a vehicle, 2 plugs that do not latch are not tied: battery.tap_1 and battery.tap_2."


@pytest.mark.parametrize("on", ["hand", "crane", "overhead", "cable"])
def test_finds_them_wherever_the_rig_moves(on: str) -> None:
    rig = edit_text(FAULT, ("on: vehicle", f"on: {on}"))

    assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="battery.tap_1", cause="P1")


@pytest.mark.parametrize("on", ["tripod", "studio"])
def test_is_silent_where_it_stands(on: str) -> None:
    assert_silent(check_text(edit_text(FAULT, ("on: vehicle", f"on: {on}")), FIT_PARTS), CODE)


def test_is_silent_where_they_are_tied() -> None:
    """By the port, by the lead's end, or by the whole lead."""
    for tied in ("battery.tap_1, P2", "P1:a, battery.tap_2", "P1, P2:a"):
        assert_silent(check_text(FAULT + f"tied: [{tied}]\n", FIT_PARTS), CODE)


def test_lists_what_is_left() -> None:
    rig = edit_text(POWER, ("on: studio", "on: vehicle"), ("to: lamp_b.dc_in}", "to: lamp_b.dc_in}  # here"))
    rig += "tied: [P1]\n"

    finding = assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="battery.tap_2", cause="P2")
    assert finding.says == "On a vehicle, one plug that does not latch is not tied: battery.tap_2."


def test_is_silent_on_what_does_not_ride() -> None:
    rig = edit_text(FAULT, ("battery: house/battery", "battery: {part: house/battery, rides: away}"))

    assert_silent(check_text(rig, FIT_PARTS), CODE)


def test_speaks_of_one_cause_in_all_setups() -> None:
    rig = FAULT + "setups:\n  one: {}\n  two: {out: [lamp_a]}\n  stands: {on: tripod}\n"

    finding = assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="battery.tap_1", cause="P1")
    assert finding.setups == ("one", "two")


def test_does_not_hide_what_is_worse_about_its_lead() -> None:
    """Its first lead is also the one in which the data wires are missing."""
    rig = edit_text(LENS, ("on: studio", "on: hand"), ("  D1: {part: house/lead-head, from: driver.head, to: head.accessory}\n", ""),
                    ("house/lead-bus,", "house/lead-charge,"))  # fmt: skip

    codes = {one.code for one in check_text(rig, FIT_PARTS).findings}
    assert {CODE, "fit:no-wire"} <= codes


def test_cannot_judge_where_nobody_wrote_what_it_is_on() -> None:
    report = check_text(edit_text(POWER, ("on: studio\n", "")), FIT_PARTS)

    assert_silent(report, CODE)
    assert [one.needs for one in report.unknown if one.code == CODE] == ["on"]
