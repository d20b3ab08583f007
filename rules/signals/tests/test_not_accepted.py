"""`picture:not-accepted`: a format that a sender, converter or screen does not take."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import AIR

CODE = "picture:not-accepted"
SENDER_PASS = "{from: sdi_in, to: radio, carries: picture, latency: 20 ms, accepts: [1080p25, 1080p50]}"
STRICT = edit_text(PARTS, (SENDER_PASS, SENDER_PASS.replace("[1080p25, 1080p50]", "[1080p25, 1080p24]")))
FAULT = edit_text(AIR, ("where: open", "settings:\n  camera.format: 1080p50  # here\nwhere: open"))


def test_finds_a_format_that_the_encoder_does_not_take() -> None:
    """The bits would fit: 1080p50 is 2.97 Gbit/s. Two screens hang on it, and it is told once."""
    finding = assert_finds(
        check_text(FAULT, STRICT), CODE,
        line=find_line(FAULT), at="sender.sdi_in", cause="camera.set.format", grade=Grade.DEAD,
    )  # fmt: skip
    assert finding.says == "1080p50 arrives at sender.sdi_in; sender takes only 1080p25 and 1080p24 there."
    assert finding.path == ("camera.sensor", "camera.sdi", "S1", "sender.sdi_in", "sender.radio")
    assert finding.fixes[0].says == "Set camera.format to 1080p25."


def test_is_silent_at_a_format_that_is_taken() -> None:
    assert_silent(check_text(edit_text(FAULT, ("1080p50", "1080p25")), STRICT), CODE)


def test_is_silent_where_the_list_holds_it() -> None:
    assert_silent(check_text(FAULT, PARTS), CODE)


def test_is_silent_where_the_list_names_it_otherwise() -> None:
    """1080i50 is named by fields, 1080i25 by frames: one format."""
    parts = edit_text(STRICT, ("accepts: [1080p25, 1080p24]", "accepts: [1080i25]"), ("values: [1080p25, 1080p50,", "values: [1080i50,"),
                      ("2160p25], default: 1080p25}", "2160p25], default: 1080i50}"))  # fmt: skip

    assert_silent(check_text(AIR, parts), CODE)


def test_names_the_converter_that_makes_the_format() -> None:
    rig = edit_text(
        AIR,
        ("  camera: house/camera\n", "  camera: house/camera\n  scaler: house/scaler\n"),
        ("to: sender.sdi_in}", "to: scaler.sdi_in}\n  S2: {part: house/coax, from: scaler.sdi_out, to: sender.sdi_in}"),
        ("where: open", "settings:\n  scaler.out: 1080p24  # here\nwhere: open"),
    )

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="sender.sdi_in", cause="scaler.set.out"
    )
    assert finding.fixes[0].says == "Set scaler.out to 1080p25."


def test_offers_no_format_that_spoils_another_screen() -> None:
    """A second sender takes only what this one refuses: no value serves both, and the fix says converter."""
    parts = STRICT + SECOND_SENDER
    rig = edit_text(
        FAULT,
        ("  sender: house/sender\n", "  sender: house/sender\n  other: house/sender-p50\n"),
        ("leads:\n", "leads:\n  S2: {part: house/coax, from: sender.sdi_out, to: other.sdi_in}\n"),
    )

    (finding,) = [one for one in check_text(rig, parts).findings if one.code == CODE]

    assert finding.fixes[0].says == "Put a converter in front of sender, or take another output of the camera."


SECOND_SENDER = """
  - rigmint_part: 1
    id: house/sender-p50
    name: Picture sender for 50 frames only
    kind: sender
    like: house/sender
    passes: [{from: sdi_in, to: radio, carries: picture, accepts: [1080p50]}]
"""
