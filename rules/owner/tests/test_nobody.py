"""`owner:nobody`: an axis that nobody who is meant to can move, with the nearest miss."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import TWO_UP

CODE = "owner:nobody"
D2 = "D2: {part: house/lead-data, from: driver.bus, to: motor.bus_1}"
FAULT = edit_text(
    TWO_UP, ("motor: {part: house/motor, set: {axis: focus}}", "motor: {part: house/motor, set: {axis: zoom}}  # here")
)


def test_finds_a_motor_that_answers_to_another_axis() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="lens.focus", cause="motor.set.axis",
        grade=Grade.DEAD,
    )  # fmt: skip
    assert finding.says == (
        "first_ac is meant to have lens.focus: hand.knob would reach it, but motor is set to zoom, not focus."
    )
    assert [edit.value for edit in finding.fixes[0].edits] == ["focus"]


def test_leaves_a_lead_without_data_wires_to_the_rule_of_its_own() -> None:
    """`fit:no-wire` of the pack signals names the lead; where that pack is left out, the nearest miss does."""
    rig = edit_text(TWO_UP, (D2, "D2: {part: house/lead-charge, from: driver.bus, to: motor.bus_1}  # here"))

    report = check_text(rig, PARTS)
    assert [(one.cause, one.position.line) for one in report.findings if one.grade is Grade.DEAD] == [
        ("D2", find_line(rig))
    ]


def test_is_silent_where_the_motor_answers_to_it() -> None:
    assert_silent(check_text(TWO_UP, PARTS), CODE)


def test_is_silent_where_the_axis_is_meant_for_nobody() -> None:
    assert_silent(check_text(edit_text(FAULT, ("focus: first_ac", "focus: nobody")), PARTS), CODE)


@pytest.mark.parametrize(
    ("change", "cause", "says", "fix"),
    [
        pytest.param(
            ("links:\n  lens_control: {between: [driver.radio, hand.radio]}\n", ""), "hand",
            "no link joins hand.radio and driver.radio", "Pair hand under `links:`.", id="no link",
        ),
        pytest.param(
            (f"  {D2}\n", ""), "motor",
            "no lead joins driver.bus and motor.bus_1", "Plug a lead that carries focus into motor.bus_1.", id="no lead",
        ),
        pytest.param(
            ("    set:\n", "    off: [driver]\n    set:\n"), "driver",
            "driver is off", "Leave driver on in this setup.", id="off",
        ),
        pytest.param(
            (", set: {axis: focus}}", ", set: {axis: zoom}}"), "motor.set.axis",
            "motor is set to zoom, not focus", "Set motor.axis to focus.", id="motor on another axis",
        ),
    ],
)  # fmt: skip
def test_names_the_nearest_miss(change: tuple[str, str], cause: str, says: str, fix: str) -> None:
    rig = edit_text(TWO_UP, change)
    marked = {
        "hand": ("  hand: house/hand\n", "  hand: house/hand  # here\n"),
        "motor": ("set: {axis: focus}}\n", "set: {axis: focus}}  # here\n"),
        "motor.set.axis": ("set: {axis: zoom}}\n", "set: {axis: zoom}}  # here\n"),
        "driver": ("  driver: house/driver\n", "  driver: house/driver  # here\n"),
    }
    rig = edit_text(rig, marked[cause])

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause=cause)
    assert says in finding.says
    assert [one.says for one in finding.fixes] == [fix]


def test_does_not_offer_the_control_of_another() -> None:
    """The desk would reach focus if its lens control were on; but the first AC is meant to have it."""
    rig = edit_text(TWO_UP, ("  lens: house/lens\n", "  lens: house/lens  # here\n")) + "    out: [hand]\n"

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause="lens")
    assert "desk" not in finding.says
    assert finding.fixes[0].says == "Give first_ac a control that reaches lens.focus, or write down who has it."


def test_one_hand_on_record_is_enough() -> None:
    rig = edit_text(TWO_UP, ("  R1: head.record > camera.rec\n", ""), ("[operator, first_ac, carrier]", "carrier"),
                    ("  camera: house/camera\n", "  camera: house/camera  # here\n"))  # fmt: skip
    by_button = edit_text(rig, ("carrier: [head]", "carrier: [head, camera]"))

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera.record", cause="camera")
    assert_silent(check_text(by_button, PARTS), CODE)


def test_is_silent_where_a_missing_lead_leaves_who_has_it_to_another_path() -> None:
    """The desk reaches the motor through the head, whether the hand unit is there or not."""
    rig = edit_text(TWO_UP, ("lens_control: off", "lens_control: on"), ("focus: first_ac", "focus: operator"))

    assert_silent(check_text(rig + "    out: [hand]\n", PARTS), CODE)


def test_names_the_mode_in_which_an_axis_does_not_follow_who_holds_the_head() -> None:
    parts = """\
parts:
  - rigmint_part: 1
    id: house/head-follow
    kind: head
    settings: {mode: {values: [lock, pan_follow]}}
    joints: {pan: {}}
    follow: {mode: {setting: mode}, modes: {lock: {}, pan_follow: {pan: on}}}
"""
    rig = """\
rigmint: 1
rig: solo by follow mode, and the mode is lock
kit: {head: house/head-follow}
crew: {operator: [head]}
setups:
  solo:
    set: {head.mode: lock}  # here
    who: {pan: operator}
"""

    assert_finds(check_text(rig, parts), "owner:nobody", line=find_line(rig), at="head.pan", cause="head.set.mode")
    assert_silent(check_text(rig.replace("mode: lock}", "mode: pan_follow}"), parts), "owner:nobody")


def test_an_item_that_is_off_is_switched_on() -> None:
    rig = edit_text(TWO_UP, ("    set:\n", "    off: [driver]\n    set:\n"))
    finding = next(one for one in check_text(rig, PARTS, prove=True).findings if one.at == "lens.focus")

    assert [(one.do, one.path[-1]) for one in finding.fixes[0].edits] == [("remove", "off")]
    assert finding.fixes[0].proved


def test_a_hand_unit_is_paired_with_the_only_link_that_it_speaks() -> None:
    rig = edit_text(
        TWO_UP,
        ("  hand: house/hand\n", "  hand: house/hand\n  other: house/hand\n"),
        ("between: [driver.radio, hand.radio]", "between: [driver.radio, other.radio]"),
        ("    set:\n", "    off: [other]\n    set:\n"),
    )
    finding = next(one for one in check_text(rig, PARTS, prove=True).findings if one.at == "lens.focus")

    assert [(one.do, one.path, one.value) for one in finding.fixes[0].edits] == [
        ("add", ("links", "lens_control", "between"), "hand.radio")
    ]
    assert finding.fixes[0].proved
