"""`polarity:signal`: plus on a signal contact."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD

CODE = "polarity:signal"
FAULT = HAND_HELD + "  P3: {part: house/lead-tap-rec, from: plate.tap, to: camera.rec}  # here\n"


def test_finds_battery_volts_on_a_trigger() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="camera.rec", cause="P3", grade=Grade.BURN
    )
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit) == (16.8, 3.6)
    assert finding.says == ("P3 puts 16.8 V on `trigger` of camera.rec, a signal contact that survives ~3.6 V.")


def test_is_silent_where_the_lead_leaves_the_trigger_alone() -> None:
    rig = edit_text(FAULT, ("house/lead-tap-rec", "house/lead-tap-3pin"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_where_the_contact_survives_it() -> None:
    rig = edit_text(FAULT, ("camera: house/camera", "camera: house/camera-hardy-trigger"))

    assert_silent(check_text(rig, PARTS), CODE)
