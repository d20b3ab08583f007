"""`owner:no-stop`: a driven head that can hit people, and nobody can stop it."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import TWO_UP

CODE = "owner:no-stop"
STOPS = (
    PARTS
    + """
  - rigmint_part: 1
    id: house/head-stop
    name: Head that takes a stop, with a button of its own
    kind: head
    like: house/head
    controls: {red_button: {sends: trigger, axis: stop}}
    moves: {halt: {axis: stop, takes: [trigger]}}
    passes:
      - {from: control, to: [pan_motor, tilt_motor, roll_motor], axes: [pan, tilt, roll]}
      - {from: [control, red_button], to: halt, axes: stop}
      - {from: [trigger, control], to: record, axes: record}

  - rigmint_part: 1
    id: house/desk-stop
    name: Desk with a stop
    kind: desk
    like: house/desk
    settings: {stop: {values: [on, off], default: on}}
    controls: {stop_button: {sends: trigger, axis: stop, when: {stop: on}}}
    passes:
      - {from: wheels, to: line, axes: [pan, tilt, roll]}
      - {from: stop_button, to: line, axes: stop}
      - {from: rec, to: line, axes: record}
"""
)
ON_CRANE = edit_text(
    TWO_UP,
    ("rig: Saltmarsh, two-up\n", "rig: Saltmarsh, two-up\non: crane\n"),
    ("head: house/head\n", "head: {part: house/head-stop, bond: true}\n"),
    ("desk: house/desk\n", "desk: house/desk-stop\n"),
)
FAULT = edit_text(ON_CRANE, ("desk: house/desk-stop\n", "desk: house/desk  # here\n"))


def test_finds_a_head_on_a_crane_whose_desk_has_no_stop() -> None:
    finding = assert_finds(
        check_text(FAULT, STOPS), CODE, line=find_line(FAULT), at="head", cause="desk", grade=Grade.HURT
    )
    assert finding.says == "head is driven by desk.wheels on a crane, and no stop in the crew's hands reaches it."


def test_blames_a_head_that_takes_no_stop() -> None:
    rig = edit_text(
        ON_CRANE, ("head: {part: house/head-stop, bond: true}\n", "head: {part: house/head, bond: true}  # here\n")
    )

    assert_finds(check_text(rig, STOPS), CODE, line=find_line(rig), at="head", cause="head")


def test_is_silent_where_the_desk_has_one() -> None:
    assert_silent(check_text(ON_CRANE, STOPS), CODE)


@pytest.mark.parametrize("on", ["overhead", "cable", "vehicle"])
def test_finds_it_wherever_the_head_can_hit_people(on: str) -> None:
    rig = edit_text(FAULT, ("on: crane", f"on: {on}"))

    assert_finds(check_text(rig, STOPS), CODE, line=find_line(rig), at="head", cause="desk")


@pytest.mark.parametrize("on", ["hand", "tripod", "studio"])
def test_is_silent_where_somebody_stands_beside_it(on: str) -> None:
    assert_silent(check_text(edit_text(FAULT, ("on: crane", f"on: {on}")), STOPS), CODE)


def test_is_silent_where_nobody_drives_the_head() -> None:
    rig = edit_text(FAULT, ("      pan: operator\n", ""), ("    who:", "    off: [desk]\n    who:"))

    assert_silent(check_text(rig, STOPS), CODE)


def test_names_the_setting_that_is_in_the_way() -> None:
    rig = edit_text(ON_CRANE, ("      head.dial: none\n", "      head.dial: none\n      desk.stop: off  # here\n"))

    finding = assert_finds(check_text(rig, STOPS), CODE, line=find_line(rig), at="head", cause="desk.set.stop")
    assert finding.says.endswith(": desk.stop_button would, but desk.stop is off, not on.")


def test_says_that_it_cannot_judge_where_nobody_wrote_what_it_is_on() -> None:
    report = check_text(edit_text(FAULT, ("on: crane\n", "")), STOPS)

    assert_silent(report, CODE)
    assert [(one.code, one.needs, one.at) for one in report.unknown if one.code == CODE] == [(CODE, "on", "head")]
