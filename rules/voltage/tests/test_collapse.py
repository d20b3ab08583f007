"""`voltage:collapse`: more constant power than the way can carry."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS

CODE = "voltage:collapse"
FAULT = """\
rigmint: 1
rig: Saltmarsh, camera on a long lead
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera-heavy
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-thin, from: plate.out_1, to: camera.dc_in, length: 9 m}  # here
"""
OHMS_PER_METRE = 0.084215 * 1.02
"""24 AWG: ASTM B258 diameter, IACS copper at 20 °C, 2 % for the stranding (common practice)."""


def test_finds_more_power_than_the_way_can_carry() -> None:
    """Maximum power transfer: V^2 / 4R at 14.4 V against the 40 W that are drawn (any circuits text)."""
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="camera", cause="P1", grade=Grade.DEAD
    )
    ways = 2 * (9 * OHMS_PER_METRE + 2 * 0.005) + 2 * 0.005 + 0.08
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(14.4**2 / (4 * ways) / 40.0, abs=2e-3)


def test_is_silent_on_a_short_lead() -> None:
    assert_silent(check_text(edit_text(FAULT, ("length: 9 m", "length: 50 cm")), PARTS), CODE)


def test_is_silent_on_a_small_load_at_the_end_of_it() -> None:
    rig = edit_text(FAULT, ("house/camera-heavy", "house/camera-light"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_moves_the_heaviest_load_to_a_free_tap() -> None:
    rig = edit_text(
        FAULT,
        ("  camera: house/camera-heavy\n", "  breakout: house/breakout\n  camera: house/camera-heavy\n  small: house/camera-light\n"),
        ("to: camera.dc_in, length: 9 m}", "to: breakout.in, length: 6 m}"),
    ) + "  P2: {part: house/lead-2pin, from: breakout.out_1, to: camera.dc_in}\n  P3: {part: house/lead-2pin, from: breakout.out_2, to: small.dc_in}\n"  # fmt: skip

    report = check_text(rig, PARTS, prove=True)
    finding = next(one for one in report.findings if one.code == CODE)
    assert finding.fixes[0].says == "Plug P2 into plate.out_2, a tap of its own: the feed then holds."
    assert finding.fixes[0].proved
