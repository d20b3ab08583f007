"""`follow:on`: an axis follows the carrier while somebody operates it."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import REMOTE

CODE = "follow:on"
FAULT = edit_text(REMOTE, ("head.follow_pan: off", "head.follow_pan: on  # here"))
SOLO = edit_text(
    REMOTE,
    ("head.mode: custom", "head.mode: pan_follow"),
    ("    who: {pan: operator, tilt: operator}\n", "    who: {pan: carrier, tilt: nobody}\n    out: [desk]\n"),
)


def test_finds_follow_on_a_remote_axis() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="head.pan", cause="head.set.follow_pan",
        grade=Grade.FIGHT,
    )  # fmt: skip
    assert finding.path == ("desk.wheels", "desk.line", "D1", "head.control", "head.pan_motor")
    assert finding.says == (
        "head.pan follows whoever carries it in the mode custom, while operator operates it from desk.wheels."
    )
    assert finding.fixes[0].says == "Set head.follow_pan to off."


def test_is_silent_where_it_is_off() -> None:
    assert_silent(check_text(REMOTE, PARTS), CODE, "follow:reachable")


def test_is_silent_where_a_solo_operator_flies_by_follow_mode() -> None:
    assert_silent(check_text(SOLO, PARTS), CODE, "follow:reachable", "owner:two", "owner:nobody")


def test_is_silent_where_the_solo_operator_holds_the_head_and_is_called_operator() -> None:
    rig = edit_text(
        SOLO,
        ("crew: {operator: [desk], carrier: [head]}", "crew: {operator: [head, desk]}"),
        ("pan: carrier", "pan: operator"),
    )

    assert_silent(check_text(rig, PARTS), CODE, "owner:nobody")


def test_is_silent_where_the_desk_is_off() -> None:
    rig = edit_text(SOLO, ("    out: [desk]\n", "    off: [desk]\n"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_finds_a_mode_that_always_follows() -> None:
    rig = edit_text(REMOTE, ("head.mode: custom", "head.mode: pan_follow  # here"))

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="head.pan", cause="head.set.mode")
    assert finding.fixes[0].says == "Set head.mode to locked, in which pan does not follow."


def test_counts_only_axes_that_somebody_operates() -> None:
    """Tilt follows and nobody is meant to operate it from the desk: the desk's claim on it is the owner rules' matter."""
    rig = edit_text(
        REMOTE,
        ("head.follow_tilt: off", "head.follow_tilt: on"),
        ("tilt: operator", "tilt: carrier"),
    )
    parts = edit_text(
        PARTS,
        ("wheels: {sends: rate, axis: [pan, tilt]}", "wheels: {sends: rate, axis: pan}"),
    )

    assert_silent(check_text(rig, parts), CODE)


def test_lists_the_setups_in_which_it_holds() -> None:
    rig = edit_text(
        REMOTE,
        ("      head.follow_pan: off\n", ""),
        ("setups:\n", "settings:\n  head.follow_pan: on  # here\nsetups:\n  boat: {set: {head.mode: custom},"
         " who: {pan: operator}}\n  walk: {set: {head.mode: locked, head.follow_pan: off}, who: {pan: operator}}\n"),
    )  # fmt: skip

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="head.pan", cause="head.set.follow_pan"
    )
    assert finding.setups == ("boat", "two_up")


def test_proposes_a_mode_with_the_switches_that_it_needs() -> None:
    parts = edit_text(
        PARTS, ("        locked: {}\n", ""), ("values: [locked, pan_follow", "values: [pan_follow"),
        ("cycle: [locked, custom]", "cycle: [custom]"),
        ("cycle: [locked, pan_follow]", "cycle: [custom, pan_follow]"),
    )  # fmt: skip
    rig = edit_text(REMOTE, ("head.mode: custom", "head.mode: pan_follow  # here"), ("pan: off", "pan: on"))

    finding = assert_finds(
        check_text(rig, parts, prove=True), CODE, line=find_line(rig), at="head.pan", cause="head.set.mode"
    )
    assert finding.fixes[0].says == (
        "Set head.mode to custom and head.follow_pan to off, in which pan does not follow."
    )
    assert finding.fixes[0].proved


def test_offers_no_mode_where_each_follows() -> None:
    parts = edit_text(
        PARTS, ("        locked: {}\n", "        locked: {pan: on}\n"), ("custom: {pan: {setting: follow_pan}", "custom: {pan: on")
    )  # fmt: skip
    rig = edit_text(REMOTE, ("head.mode: custom", "head.mode: pan_follow  # here"))

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="head.pan", cause="head.set.mode")
    assert [(fix.says, fix.edits) for fix in finding.fixes] == [
        ("Set head to a mode in which pan does not follow.", ())
    ]
