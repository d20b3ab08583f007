"""`fit:loose-live-end`: an end in the air with volts on it."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .fit_parts import FIT_PARTS
from .fit_rigs import LENS, POWER

CODE = "fit:loose-live-end"
FAULT = edit_text(POWER, ("to: lamp_b.dc_in}", "to: loose}  # here"), ("  lamp_b: house/lamp\n", ""))


def test_finds_a_live_end() -> None:
    finding = assert_finds(
        check_text(FAULT, FIT_PARTS), CODE, line=find_line(FAULT), at="P2:b", cause="P2", grade=Grade.THIN
    )
    assert finding.says == "End b of P2 hangs loose with 16.8 V on it."
    assert finding.measured is not None
    assert finding.measured.value == 16.8


def test_is_silent_where_it_is_plugged() -> None:
    assert_silent(check_text(POWER, FIT_PARTS), CODE)


@pytest.mark.parametrize("place", ["P2", "P2:b"])
def test_is_silent_where_it_is_taped(place: str) -> None:
    assert_silent(check_text(FAULT + f'marked: {{"{place}": taped}}\n', FIT_PARTS), CODE)


def test_a_mark_on_the_other_end_is_no_answer() -> None:
    rig = FAULT + 'marked: {"P2:a": red}\n'

    assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="P2:b", cause="P2")


def test_is_silent_on_an_end_that_no_source_reaches() -> None:
    """A lead that hangs from the lamp, and one that hangs from a trigger."""
    lamp = edit_text(FAULT, ("from: battery.tap_2, to: loose", "from: loose, to: lamp_a.dc_in"),
                     ("  P1: {part: house/lead-tap, from: battery.tap_1, to: lamp_a.dc_in}\n", ""))  # fmt: skip
    report = check_text(lamp, FIT_PARTS)
    assert not [one for one in report.findings if one.code == CODE]

    trigger = edit_text(LENS, ("from: driver.run_5v, to: camera.remote", "from: driver.run_5v, to: loose"))
    assert not [one for one in check_text(trigger, FIT_PARTS).findings if one.code == CODE]


def test_is_silent_where_the_battery_is_off_or_away() -> None:
    for key in ("off", "out"):
        rig = FAULT + f"setups: {{spare: {{{key}: [battery]}}}}\n"
        assert not [one for one in check_text(rig, FIT_PARTS).findings if one.code == CODE]
