"""`signal:nobody`: a flow that the job needs does not arrive."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS

CODE = "signal:nobody"
SOUND = """\
rigmint: 1
rig: Saltmarsh, timecode
kit:
  camera: house/camera
  clock: house/clock
leads:
  T1: {part: house/lead-timecode, from: clock.tc, to: camera.tc}
needs: {timecode: [camera]}
"""
T1 = "leads:\n  T1: {part: house/lead-timecode, from: clock.tc, to: camera.tc}\n"
FAULT = edit_text(SOUND, ("needs:", "settings:\n  camera.tc: off  # here\nneeds:"))


def test_finds_timecode_that_a_setting_keeps_out() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS),
        CODE,
        line=find_line(FAULT),
        at="camera.clock",
        cause="camera.set.tc",
        grade=Grade.DEAD,
    )
    assert finding.says == "camera needs timecode, and none arrives: camera.tc is off, not on."
    assert finding.fixes[0].says == "Set camera.tc to on."


def test_is_silent_where_it_arrives() -> None:
    assert_silent(check_text(SOUND, PARTS), CODE)


def test_is_silent_where_nobody_needs_it() -> None:
    assert_silent(check_text(edit_text(FAULT, ("needs: {timecode: [camera]}\n", "")), PARTS), CODE)


@pytest.mark.parametrize(
    ("changes", "cause", "says", "fix"),
    [
        (((T1, ""),), "camera", "no lead joins clock.tc and camera.tc",
         "Plug a lead that carries timecode into camera.tc."),
        ((("needs:", "setups: {day: {off: [clock]}}\nneeds:"),), "clock", "clock is off",
         "Leave clock on in this setup."),
        ((("clock: house/clock\n", "clock: house/hand\n"), (T1, "")), "camera", "nothing in the rig makes timecode",
         "Bring what makes timecode for camera."),
    ],
)  # fmt: skip
def test_names_what_is_in_the_way(changes: tuple[tuple[str, str], ...], cause: str, says: str, fix: str) -> None:
    (finding,) = (one for one in check_text(edit_text(SOUND, *changes), PARTS).findings if one.code == CODE)

    assert (finding.code, finding.at, finding.cause) == (CODE, "camera.clock", cause)
    assert finding.says == f"camera needs timecode, and none arrives: {says}."
    assert finding.fixes[0].says == fix


def test_leaves_a_lead_without_the_wire_to_the_fit_rules() -> None:
    rig = edit_text(SOUND, ("house/lead-timecode,", "house/lead-timecode-cut,"))

    assert {finding.code for finding in check_text(rig, PARTS).findings} == {"fit:no-wire"}


def test_is_silent_where_the_item_makes_it_itself() -> None:
    rig = edit_text(SOUND, (T1, ""), ("timecode: [camera]", "timecode: [clock]"))

    assert_silent(check_text(rig, PARTS), CODE)


@pytest.mark.parametrize("state", ["off", "out"])
def test_is_silent_where_the_item_is_off_or_left_in_the_case(state: str) -> None:
    rig = edit_text(FAULT, ("needs:", f"setups: {{day: {{{state}: [camera]}}}}\nneeds:"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_lists_the_setups_whose_needs_name_it() -> None:
    rig = edit_text(
        FAULT, ("needs: {timecode: [camera]}\n", "setups: {day: {}, night: {needs: {timecode: [camera]}}}\n")
    )

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.clock", cause="camera.set.tc")
    assert finding.setups == ("night",)


def test_takes_any_place_of_an_item_without_an_end() -> None:
    """A sender that the job needs a picture at shows none itself: that it comes in is enough."""
    rig = """\
rigmint: 1
rig: Saltmarsh, picture to the sender
kit: {camera: house/camera, sender: house/sender}
leads:
  S1: {part: house/coax, from: camera.sdi, to: sender.sdi_in}
needs: {picture: [sender]}
"""
    assert_silent(check_text(rig, PARTS), CODE)

    missing = edit_text(rig, ("leads:\n  S1: {part: house/coax, from: camera.sdi, to: sender.sdi_in}\n", ""))
    (finding,) = [one for one in check_text(missing, PARTS).findings if one.code == CODE]
    assert (finding.at, finding.cause) == ("sender", "sender")
