"""`record:kind`: a record trigger of one kind on an input of another."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import RECORD, put

CODE = "record:kind"
R1 = "R1: {part: house/lead-run, from: driver.run, to: camera.remote}"
MARKED = (R1, f"{R1}  # here")
FAULT = edit_text(RECORD, ("camera: house/camera", "camera: house/camera-5v"), MARKED)


def test_finds_a_closure_on_an_input_for_volts() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="camera.remote", cause="R1", grade=Grade.DEAD
    )
    assert finding.says == (
        "driver.run gives a closure pulse, and camera.remote takes a 5 V pulse: camera does not start and stop as it"
        " should."
    )
    assert finding.path == ("driver.run", "R1", "camera.remote")
    assert finding.also == ("camera.record",)
    assert finding.fixes[0].says == "Plug R1 into driver.run_5v, which gives a 5 V pulse."


def test_is_silent_on_the_output_of_the_right_kind() -> None:
    assert_silent(check_text(edit_text(FAULT, ("from: driver.run,", "from: driver.run_5v,")), PARTS), CODE)


def test_is_silent_where_closure_meets_closure() -> None:
    assert_silent(check_text(RECORD, PARTS), CODE)


@pytest.mark.parametrize(
    ("camera", "output", "gives", "takes"),
    [
        ("camera-hold", "run", "a closure pulse", "a held closure"),
        ("camera-hold-alike", "run", "a closure pulse", "a held closure"),
        ("camera", "run_5v", "a 5 V pulse", "a closure pulse"),
    ],
)
def test_names_both_kinds(camera: str, output: str, gives: str, takes: str) -> None:
    lead = R1.replace("driver.run,", f"driver.{output},")
    rig = put(edit_text(RECORD, (R1, f"{lead}  # here")), "camera: house/camera", f"camera: house/{camera}")

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.remote", cause="R1")
    assert finding.says.startswith(f"driver.{output} gives {gives}, and camera.remote takes {takes}:")


def test_finds_serial_data_on_a_contact() -> None:
    """Both sit on contact 3 of one connector."""
    rig = edit_text(RECORD, ("camera: house/camera", "camera: house/camera-serial"), MARKED)

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.remote", cause="R1")
    assert "takes serial data at 3.3 V" in finding.says


def test_finds_it_through_one_leg_of_a_loom() -> None:
    loom = """\
  R1:  # here
    ends: {a: driver.run, b: camera.remote}
    lead:
      ends: {a: {connector: 0s-3, sex: plug}, b: {connector: 0s-3, sex: plug}, c: {connector: 0s-3, sex: plug}}
      conductors: [{from: a.3, to: c.3}, {from: c.3, to: b.3}, {from: a.1, to: b.1}]
      carries: [run-pulse, run-closure]
"""
    rig = edit_text(RECORD, ("camera: house/camera", "camera: house/camera-5v"), (f"  {R1}\n", loom))

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.remote", cause="R1")


def test_is_silent_where_the_wire_is_not_joined() -> None:
    """Nothing meets: that is the matter of who has record, and of the wire."""
    parts = edit_text(
        PARTS,
        ("conductors: [{from: a.1, to: b.1, gauge: 28 AWG}, {from: a.3, to: b.3, gauge: 28 AWG}]",
         "conductors: [{from: a.1, to: b.1, gauge: 28 AWG}]"),
    )  # fmt: skip

    rig = edit_text(FAULT, ("camera: house/camera-5v", "camera: house/camera-hold-alike"))

    assert {finding.code for finding in check_text(rig, parts).findings} == {"fit:no-wire"}


def test_is_silent_where_the_input_states_nothing() -> None:
    rig = edit_text(RECORD, ("camera: house/camera", "camera: house/camera-silent"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_in_a_setup_without_the_lead() -> None:
    rig = edit_text(FAULT, ("  day:\n", "  day:\n    unplugged: [R1]\n"), ("record: first_ac", "record: nobody"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_offers_no_output_that_ends_the_input() -> None:
    """Of the two pulses that the driver has, the input survives neither the 12 V nor, here, the 5 V one."""
    parts = edit_text(
        PARTS, ("{trigger: {takes: 5 V, survives: -0.3 to 12 V}}", "{trigger: {takes: 3.3 V, survives: -0.3 to 4 V}}")
    )

    finding = assert_finds(check_text(FAULT, parts), CODE, line=find_line(FAULT), at="camera.remote", cause="R1")
    assert finding.fixes[0].says.startswith("Start camera from an output that gives a 3.3 V pulse,")
