"""`follow:reachable`: one press, or a power cycle, from following."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import REMOTE

CODE = "follow:reachable"
LOCKED = ("head.mode: custom", "head.mode: locked")
FAULT = edit_text(
    REMOTE,
    LOCKED,
    ("head: house/head", "head: house/head-fixed"),
    ("    set:\n", "    set:\n      desk.mode_button: on  # here\n"),
)


def test_finds_follow_one_press_away_from_the_desk() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="head.pan", cause="desk.set.mode_button",
        grade=Grade.THIN,
    )  # fmt: skip
    assert finding.path == ("desk.mode_button", "desk.line", "D1", "head.control", "head.mode_switch")
    assert finding.says == (
        "One press on desk.mode_button puts head into pan_follow, in which pan follows while it is operated remotely."
    )
    assert finding.fixes[0].says == "Set desk.mode_button to off: it then no longer changes the mode."


def test_is_silent_where_the_button_is_off() -> None:
    assert_silent(check_text(edit_text(FAULT, ("desk.mode_button: on  # here", "desk.mode_button: off")), PARTS), CODE)


def test_is_silent_where_every_mode_of_the_cycle_is_harmless() -> None:
    rig = edit_text(FAULT, ("house/head-fixed", "house/head"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_on_the_heads_own_button_where_the_cycle_cannot_be_made_harmless() -> None:
    rig = edit_text(REMOTE, LOCKED, ("head: house/head", "head: house/head-fixed"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_finds_the_heads_own_button_where_the_cycle_could_be_made_harmless() -> None:
    rig = edit_text(REMOTE, LOCKED, ("head.follow_pan: off", "head.follow_pan: on  # here"))

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="head.pan", cause="head.set.follow_pan"
    )
    assert finding.fixes[0].says == "Set head.follow_pan to off, so that no mode of the cycle follows."


def test_blames_the_desk_where_its_button_cannot_be_switched_off() -> None:
    rig = edit_text(
        REMOTE,
        LOCKED,
        ("head: house/head", "head: house/head-fixed"),
        ("desk: house/desk", "desk: house/desk-hard-button  # here"),
    )

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="head.pan", cause="desk")
    assert finding.fixes[0].says.startswith("Tape over desk.mode_button")


def test_finds_what_a_power_cycle_brings_back() -> None:
    rig = edit_text(
        REMOTE, ("head: house/head", "head: house/head-forgetful"), ("head.mode: custom", "head.mode: custom  # here")
    )

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="head.pan", cause="head.set.mode")
    assert finding.says.startswith("head.mode is forgotten at power-off")


def test_is_silent_where_nobody_operates_remotely() -> None:
    """A solo operator goes in and out of follow mode by the button: that is how it is flown."""
    rig = edit_text(
        REMOTE,
        LOCKED,
        ("head: house/head", "head: house/head-fixed"),
        ("    who: {pan: operator, tilt: operator}\n", "    who: {}\n    out: [desk]\n"),
    )

    assert_silent(check_text(rig, PARTS), CODE)


def test_yields_to_follow_that_is_on() -> None:
    """The same setting is wrong already: no second finding says that it is one press away."""
    rig = edit_text(REMOTE, ("head.follow_pan: off", "head.follow_pan: on"))
    report = check_text(rig, PARTS)

    assert [finding.code for finding in report.findings] == ["follow:on"]
