"""`picture:too-fast`: a format that needs more bits a second than a hop carries."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import AIR, CABLE

CODE = "picture:too-fast"
SLOW = edit_text(CABLE, ("house/monitor", "house/monitor-slow-input"))
FAULT = SLOW + "settings:\n  camera.format: 2160p25  # here\n"


def test_finds_2160p_on_a_3_gigabit_input() -> None:
    """2160p25 needs 5.94 Gbit/s (SMPTE ST 2081-1), the input takes 2.97 (ST 424)."""
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE,
        line=find_line(FAULT), at="monitor.sdi_in", cause="camera.set.format", grade=Grade.DEAD,
    )  # fmt: skip
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit, finding.measured.unit) == (5.94e9, 2.97e9, "bit/s")
    assert finding.says == (
        "2160p25 needs 5.94 Gbit/s; from camera.sdi over S1 to monitor.sdi_in the most is 2.97 Gbit/s."
    )
    assert finding.fixes[0].says == "Set camera.format to 1080p25."


def test_is_silent_at_a_format_that_fits() -> None:
    assert_silent(check_text(edit_text(FAULT, ("2160p25", "1080p50")), PARTS), CODE)


def test_is_silent_on_a_quicker_input() -> None:
    assert_silent(check_text(CABLE + "settings: {camera.format: 2160p25}\n", PARTS), CODE)


def test_is_silent_behind_a_converter() -> None:
    rig = edit_text(
        FAULT,
        ("  camera: house/camera\n", "  camera: house/camera\n  scaler: house/scaler\n"),
        (
            "to: monitor.sdi_in}",
            "to: scaler.sdi_in}\n  S2: {part: house/coax, from: scaler.sdi_out, to: monitor.sdi_in}",
        ),
    )

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_on_the_output_that_the_camera_scales_itself() -> None:
    assert_silent(check_text(edit_text(FAULT, ("camera.sdi,", "camera.sdi_hd,")), PARTS), CODE)


def test_names_the_first_of_two_leads_in_a_row() -> None:
    """Behind it there is no picture to judge."""
    rig = edit_text(
        FAULT,
        ("  camera: house/camera\n", "  camera: house/camera\n  splitter: house/monitor-slow-input\n"),
        ("to: monitor.sdi_in}",
         "to: splitter.sdi_in}\n  S2: {part: house/coax, from: splitter.sdi_out, to: monitor.sdi_in}"),
    )  # fmt: skip

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="splitter.sdi_in", cause="camera.set.format"
    )
    assert finding.also == ()
    assert finding.fixes[0].says == "Set camera.format to 1080p25."


def test_is_silent_behind_an_encoder_that_refuses_the_format() -> None:
    """2160p25 would be too fast for the radio too, and never gets there."""
    rig = AIR + "settings: {camera.format: 2160p25}\n"

    assert {finding.code for finding in check_text(rig, PARTS).findings} == {"picture:not-accepted"}


def test_blames_the_lead_where_the_format_is_fixed() -> None:
    parts = edit_text(PARTS, ("makes: {sensor: {picture: {setting: format}}}", "makes: {sensor: {picture: 2160p25}}"))
    rig = edit_text(SLOW, ("to: monitor.sdi_in}", "to: monitor.sdi_in}  # here"))

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="monitor.sdi_in", cause="S1")
    assert finding.fixes[0].says == "Put a converter in front of S1, or take another output of the camera."
