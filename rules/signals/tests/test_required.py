"""`fit:required`: what a rig, a part or a library requires of settings."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

CODE = "fit:required"
PARTS = """
parts:
  - rigmint_part: 1
    id: house/sender
    name: Sender
    kind: sender
    settings: {flip: {values: [on, off]}, slot: {values: [a, b, c]}}
    requires: [{when: {stance: underslung}, set: {flip: on}, why: The picture is upside down., grade: dead}]

  - rigmint_part: 1
    id: house/camera
    name: Camera
    kind: camera
    settings: {rate: {values: [24, 25, 50]}, stabiliser: {values: [on, off]}}

  - rigmint_part: 1
    id: house/sync
    name: Sync box
    kind: timecode
    settings: {rate: {values: [24, 25, 50]}}
"""
SOUND = """\
rigmint: 1
rig: Saltmarsh, underslung
on: crane
stance: underslung
kit:
  sender: {part: house/sender, set: {flip: on, slot: a}}
  sender_b: {part: house/sender, set: {flip: on, slot: b}}
  camera: {part: house/camera, set: {rate: 25, stabiliser: off}}
  sync: {part: house/sync, set: {rate: 25}}
requires:
  - {alike: [[camera.rate, sync.rate]], why: Sound drifts from picture, grade: fight}
  - {unlike: [[sender.slot, sender_b.slot]], why: Two senders on one slot, grade: dead}
  - {when: {on: [crane, cable], camera.rate: 25}, set: {camera.stabiliser: off}, why: Two stabilisers fight, grade: tidy}
"""
FAULT = edit_text(
    SOUND,
    (
        "sender: {part: house/sender, set: {flip: on, slot: a}}",
        "sender: {part: house/sender, set: {flip: off, slot: a}}  # here",
    ),
)


def test_finds_what_a_part_requires() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="sender.set.flip", cause="sender.set.flip",
        grade=Grade.DEAD,
    )  # fmt: skip
    assert finding.says == "The picture is upside down: sender.flip is off, and on is required."
    assert finding.fixes[0].says == "Set sender.flip to on."
    assert [edit.value for edit in finding.fixes[0].edits] == ["on"]


def test_is_silent_where_all_is_as_required() -> None:
    assert_silent(check_text(SOUND, PARTS), CODE)


def test_is_silent_where_the_condition_does_not_hold() -> None:
    assert_silent(check_text(edit_text(FAULT, ("stance: underslung", "stance: upright")), PARTS), CODE)


def test_is_silent_on_an_item_that_is_off() -> None:
    assert_silent(check_text(FAULT + "setups: {spare: {off: [sender]}}\n", PARTS), CODE)


def test_finds_two_that_must_be_alike() -> None:
    rig = edit_text(
        SOUND, ("sync: {part: house/sync, set: {rate: 25}}", "sync: {part: house/sync, set: {rate: 24}}  # here")
    )

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="sync.set.rate", cause="sync.set.rate", grade=Grade.FIGHT
    )
    assert finding.says == "Sound drifts from picture: sync.rate is 24 and camera.rate is 25, and they must be alike."
    assert [edit.value for edit in finding.fixes[0].edits] == ["25"]


def test_finds_two_that_must_differ() -> None:
    rig = edit_text(SOUND, ("set: {flip: on, slot: b}}", "set: {flip: on, slot: a}}  # here"))

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="sender_b.set.slot", cause="sender_b.set.slot"
    )
    assert finding.says == "Two senders on one slot: sender_b.slot and sender.slot are both a, and they must differ."
    assert [edit.value for edit in finding.fixes[0].edits] == ["b"]


@pytest.mark.parametrize("grade", [grade.value for grade in Grade])
def test_takes_the_grade_of_the_requirement(grade: str) -> None:
    rig = edit_text(
        SOUND.replace("grade: tidy", f"grade: {grade}"),
        ("stabiliser: off}}\n  sync", "stabiliser: on}}  # here\n  sync"),
    )

    report = check_text(rig, PARTS)
    assert [(one.grade.value, one.cause) for one in report.findings if one.code == CODE] == [
        (grade, "camera.set.stabiliser")
    ]


def test_cannot_judge_a_setting_that_nobody_wrote_down() -> None:
    report = check_text(edit_text(SOUND, ("{flip: on, slot: a}", "{slot: a}")), PARTS)

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("flip", "sender.set.flip")]


def test_cannot_judge_a_condition_that_nobody_wrote_down() -> None:
    report = check_text(edit_text(FAULT, ("stance: underslung\n", "")), PARTS)

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("stance", "rig")]


def test_says_that_the_rig_has_no_such_setting() -> None:
    report = check_text(edit_text(SOUND, ("set: {camera.stabiliser: off}", "set: {camera.stabilizer: off}")), PARTS)

    assert [one.needs for one in report.unknown if one.code == CODE] == ["camera.stabilizer"]


def test_finds_what_the_library_requires_of_a_kind() -> None:
    library = """\
rigmint_library: 1
parts: [parts]
requires: [{when: {kind: sender}, set: {camera.stabiliser: off, lens.breathing: off}, why: House rule, grade: fight}]
"""
    rig = edit_text(SOUND, ("camera: {part: house/camera, set: {rate: 25, stabiliser: off}}",
                            "cam_a: {part: house/camera, set: {rate: 25, stabiliser: on}}  # here"),
                    ("  - {alike: [[camera.rate, sync.rate]], why: Sound drifts from picture, grade: fight}\n", ""),
                    ("  - {when: {on: [crane, cable], camera.rate: 25}, set: {camera.stabiliser: off}, why: Two stabilisers fight, grade: tidy}\n", ""))  # fmt: skip

    finding = assert_finds(
        check_text(rig, PARTS, library_yaml=library), CODE, line=find_line(rig), at="cam_a.set.stabiliser",
        cause="cam_a.set.stabiliser", grade=Grade.FIGHT,
    )  # fmt: skip
    assert finding.says == "House rule: cam_a.stabiliser is on, and off is required."
    assert_silent(check_text(rig, PARTS), CODE)


def test_judges_each_setup() -> None:
    rig = edit_text(SOUND, ("{flip: on, slot: a}", "{slot: a}"))
    rig += "setups:\n  hangs: {set: {sender.flip: off}}  # here\n  stands: {stance: upright, set: {sender.flip: off}}\n"

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="sender.set.flip", cause="sender.set.flip"
    )
    assert finding.setups == ("hangs",)


def test_mends_a_setting_of_the_kit_for_all_setups() -> None:
    """Two setups have it from the kit: the fix is written there, and not in the first setup alone."""
    rig = FAULT + "setups: {day: {}, night: {}}\n"

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="sender.set.flip", cause="sender.set.flip"
    )
    assert finding.setups == ("day", "night")
    assert [edit.path for edit in finding.fixes[0].edits] == [("kit", "sender", "set", "flip")]
