"""`ground:two-earths`: two earthed devices joined by another lead."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS

CODE = "ground:two-earths"
FAULT = """\
rigmint: 1
rig: Saltmarsh, studio
kit:
  mains: house/mains-supply
  camera: house/camera
  monitor: house/monitor-earthed
  mains_b: house/mains-supply
leads:
  P1: {part: house/lead, from: mains.out, to: camera.dc_in}
  P2: {part: house/lead, from: mains_b.out, to: monitor.dc_in}
  S1: {part: house/lead-sdi, from: camera.sdi, to: monitor.sdi}  # here
"""
ONE_SUPPLY = """\
rigmint: 1
rig: Saltmarsh, one supply and a lamp far off
kit:
  mains: house/mains-supply
  monitor: house/monitor-earthed
leads:
  P1: {part: house/lead, from: mains.out, to: monitor.dc_in, length: 40 m}  # here
"""


def test_finds_a_picture_lead_between_two_earths() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="mains", cause="S1", grade=Grade.THIN
    )
    assert "are each tied to earth and joined by S1 too" in finding.says


def test_is_silent_where_one_end_is_not_earthed() -> None:
    rig = edit_text(FAULT, ("house/monitor-earthed", "house/monitor"))
    parts = edit_text(PARTS, ("    kind: supply\n    chassis: earth\n", "    kind: supply\n"))

    assert_silent(check_text(rig, parts), CODE)


def test_is_silent_without_the_lead_between_them() -> None:
    """The monitor and its own supply stay joined by their power lead: one outlet, one earth."""
    rig = edit_text(
        FAULT,
        ("house/monitor-earthed", "house/monitor"),
        ("  S1: {part: house/lead-sdi, from: camera.sdi, to: monitor.sdi}  # here\n", ""),
    )

    assert_silent(check_text(rig, PARTS), CODE)


def test_burns_above_a_volt() -> None:
    """40 m of 18 AWG each way: the drop in the minus conductor lies between the grounds before earth joins them."""
    finding = assert_finds(
        check_text(ONE_SUPPLY, PARTS),
        CODE,
        line=find_line(ONE_SUPPLY),
        at="mains",
        cause="P1",
        grade=Grade.BURN,
        worst=Grade.BURN,
    )
    minus = 40 * 0.020948 * 1.02 + 2 * 0.005
    loop = 2 * minus + 0.020
    monitor = (14.4 + (14.4**2 - 4 * loop * 22) ** 0.5) / 2
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(22 / monitor * minus, rel=0.01)
