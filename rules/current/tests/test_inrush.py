"""`current:inrush`: plugging a lead trips its source."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import WITH_MONITOR

CODE = "current:inrush"
FAULT = edit_text(WITH_MONITOR, ("to: camera.dc_in}", "to: camera.dc_in}  # here"))
STARTS = ("peak: 40 W, start: 60 W", "peak: 40 W, start: 220 W")


def test_finds_a_camera_that_starts_hard() -> None:
    """220 W at about 14 V on top of the monitor's 22 W is more than the 15 A at which the battery trips."""
    finding = assert_finds(
        check_text(FAULT, edit_text(PARTS, STARTS)),
        CODE,
        line=find_line(FAULT),
        at="battery.pack",
        cause="P1",
        grade=Grade.THIN,
    )
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(242 / 14.0, abs=0.3)
    assert finding.measured.limit == 15.0


def test_is_silent_on_a_soft_start() -> None:
    assert_silent(check_text(FAULT, PARTS), CODE)


def test_is_silent_on_a_source_that_does_not_trip() -> None:
    fused = ("{from: a.1, to: b.1, gauge: 18 AWG}, {", "{from: a.1, to: b.1, gauge: 18 AWG, fuse: 10 A}, {")
    parts = edit_text(PARTS, STARTS, fused, ("max: 10 A, trips: 15 A, charge", "max: 10 A, trips: none, charge"))

    assert_silent(check_text(FAULT, parts), CODE)


def test_an_assumed_trip_is_said_to_be_assumed() -> None:
    parts = edit_text(PARTS, STARTS, ("max: 10 A, trips: 15 A, charge", "max: 10 A, charge"))

    finding = assert_finds(check_text(FAULT, parts), CODE, line=find_line(FAULT), at="battery.pack", cause="P1")
    assert finding.assumed == ("battery.pack trips",)
    assert "trips at ~15.0 A" in finding.says
