"""`ground:through-shield`: power returns through a signal lead."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import WITH_MONITOR

CODE = "ground:through-shield"
FAULT = """\
rigmint: 1
rig: Saltmarsh, monitor on a long thin feed
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera-small
  monitor: house/monitor
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead, from: plate.out_1, to: camera.dc_in}
  P2: {part: house/lead, from: plate.out_2, to: monitor.dc_in, length: 3 m}  # here
  S1: {part: house/lead-sdi, from: camera.sdi, to: monitor.sdi}
"""
CHAIN = """\
rigmint: 1
rig: Saltmarsh, monitor in the middle of a picture chain
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera-small
  monitor: house/monitor
  far: house/monitor
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead, from: plate.out_1, to: camera.dc_in}
  P2: {part: house/lead, from: plate.out_2, to: monitor.dc_in}
  P3: {part: house/lead, from: plate.out_3, to: far.dc_in, length: 4 m}  # here
  S1: {part: house/lead-sdi, from: camera.sdi, to: monitor.sdi}
  S2: {part: house/lead-sdi, from: monitor.sdi_out, to: far.sdi}
"""
HEAVY = ("{main: {load: 22 W, peak: 24 W, start: 30 W}}", "{main: {load: 50 W, peak: 50 W, start: 50 W}}")


def test_finds_a_device_that_sends_most_of_its_current_out_through_the_picture() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="monitor.sdi", cause="P2", grade=Grade.BURN
    )
    assert "monitor returns current through S1 at monitor.sdi, a signal lead" in finding.says
    assert finding.fixes[0].says.startswith("Give monitor a shorter or thicker feed than P2")


def test_is_silent_on_a_short_feed() -> None:
    assert_silent(check_text(WITH_MONITOR, PARTS), CODE)


def test_is_silent_where_the_coax_is_the_longer_way() -> None:
    rig = edit_text(FAULT, ("to: monitor.sdi}", "to: monitor.sdi, length: 20 m}"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_finds_more_than_an_amp_in_one_shield() -> None:
    """50 W: the shield takes its part of 3.6 A."""
    finding = assert_finds(
        check_text(FAULT, edit_text(PARTS, HEAVY)), CODE, line=find_line(FAULT), at="monitor.sdi", cause="P2"
    )
    assert finding.measured is not None
    assert finding.measured.value > 1.0
    assert finding.measured.limit == 1.0


def test_current_of_others_that_passes_through_does_not_count() -> None:
    """What `far` sends through the monitor on its way is no fault of the monitor, whose own feed is short: the
    finding names the far device and its feed alone."""
    finding = assert_finds(check_text(CHAIN, PARTS), CODE, line=find_line(CHAIN), at="far.sdi", cause="P3")
    assert not [place for place in finding.also if place.startswith("monitor")]


@pytest.mark.parametrize("length", ["40 cm", "60 cm"])
def test_normal_practice_is_silent(length: str) -> None:
    rig = edit_text(FAULT, ("length: 3 m", f"length: {length}"))

    assert_silent(check_text(rig, PARTS), CODE)
