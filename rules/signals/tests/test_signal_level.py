"""`signal:level`: a signal of more volts than the input survives."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import RECORD

CODE = "signal:level"
R1 = "R1: {part: house/lead-run, from: driver.run, to: camera.remote}"
LOUD = R1.replace("driver.run,", "driver.run_12v,")
FAULT = edit_text(RECORD, (R1, f"{LOUD}  # here"))
TIMECODE = """\
rigmint: 1
rig: Saltmarsh, timecode
kit:
  camera: house/camera
  clock: house/clock
leads:
  T1: {part: house/lead-timecode, from: clock.tc, to: camera.tc}
"""


def test_finds_a_pulse_that_ends_the_input() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="camera.remote", cause="R1", grade=Grade.BURN
    )
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit, finding.measured.unit) == (12.0, 5.5, "V")
    assert finding.says == "driver.run_12v gives 12.0 V on `trigger`; `trigger` of camera.remote survives 5.5 V."
    assert finding.fixes[0].says == "Plug R1 into driver.run, which gives a closure pulse."


def test_is_silent_on_the_output_that_is_made_for_it() -> None:
    assert_silent(check_text(RECORD, PARTS), CODE)


def test_is_silent_where_the_input_survives_it() -> None:
    """The 5 V camera's input stands 12 V: more than it needs, and no harm."""
    rig = edit_text(RECORD, ("camera: house/camera", "camera: house/camera-5v"), (R1, LOUD))

    assert_silent(check_text(rig, PARTS), CODE)


def test_takes_3_6_v_where_nothing_is_stated() -> None:
    """5 V, which the stated input would survive."""
    lead = R1.replace("driver.run,", "driver.run_5v,")
    rig = edit_text(RECORD, ("camera: house/camera", "camera: house/camera-silent"), (R1, f"{lead}  # here"))

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.remote", cause="R1")
    assert finding.says.endswith("survives ~3.6 V.")
    assert finding.assumed == ("camera.remote survives of trigger",)


def test_finds_loud_timecode() -> None:
    rig = edit_text(TIMECODE, ("clock: house/clock", "clock: house/clock-loud"), ("camera.tc}", "camera.tc}  # here"))

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.tc", cause="T1")
    assert finding.also == ()
    assert finding.fixes[0].says == "Take out T1."


def test_is_silent_on_timecode_of_the_right_level() -> None:
    assert_silent(check_text(TIMECODE, PARTS), CODE)


def test_finds_it_in_a_dock_and_on_a_device_that_is_off() -> None:
    """A plug on the box goes straight into the camera: there is no lead to take out."""
    parts = edit_text(PARTS, ("id: house/clock-loud\n", "id: house/clock-plug\n"),
                      ("{tc: {levels: {timecode: {gives: 8 V, survives: -0.3 to 12 V}}}}",
                       "{tc: {sex: plug, pins: timecode-in, levels: {timecode: {gives: 8 V, survives: -0.3 to 12 V}}}}"))  # fmt: skip
    rig = """\
rigmint: 1
rig: Saltmarsh, timecode box on the camera
kit:
  camera: house/camera  # here
  clock: house/clock-plug
docks: [clock.tc > camera.tc]
setups: {day: {off: [clock]}}
"""

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="camera.tc", cause="camera")
    assert finding.fixes[0].says == "Put a level converter between clock.tc and camera.tc."


@pytest.mark.parametrize("other", ["record:kind", "fit:wrong-port", "owner:nobody"])
def test_speaks_alone_of_its_lead(other: str) -> None:
    """The same lead is of the wrong kind, in the wrong port, and record is out of reach: the burn explains them all."""
    assert other not in {finding.code for finding in check_text(FAULT, PARTS).findings}


def test_names_the_right_output_where_the_plug_does_not_go_in() -> None:
    parts = edit_text(PARTS, ("run: {connector: 0s-3, sex: socket, pins: trigger, speaks: [run-closure],\n            levels: {trigger: {gives: closure",
                              "run: {connector: jack-3.5, sex: socket, pins: trigger, speaks: [run-closure],\n            levels: {trigger: {gives: closure"))  # fmt: skip

    finding = assert_finds(check_text(FAULT, parts), CODE, line=find_line(FAULT), at="camera.remote", cause="R1")
    assert [fix.says for fix in finding.fixes] == [
        "Take it from driver.run, which gives a closure pulse, by a lead that fits there.",
        "Take out R1.",
    ]
