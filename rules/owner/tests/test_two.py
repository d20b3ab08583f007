"""`owner:two`: two hands on one axis."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import TWO_UP

CODE = "owner:two"
FAULT = edit_text(TWO_UP, ("desk.lens_control: off", "desk.lens_control: on  # here"))
SECOND_HAND = (
    ("  hand: house/hand\n", "  hand: house/hand\n  hand_b: house/hand\n"),
    ("{between: [driver.radio, hand.radio]}", "{between: [driver.radio, hand.radio, hand_b.radio]}  # here"),
    ("first_ac: [hand]", "first_ac: [hand], second_ac: [hand_b]"),
)


def test_finds_a_desk_whose_lens_control_was_left_on() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="lens.focus", cause="desk.set.lens_control",
        grade=Grade.FIGHT,
    )  # fmt: skip
    assert finding.path == (
        "desk.lens_wheel", "desk.line", "D3", "head.control", "head.accessory", "D1", "driver.head", "driver.bus",
        "D2", "motor.bus_1", "motor.shaft",
    )  # fmt: skip
    assert finding.says == (
        "lens.focus answers to operator on desk.lens_wheel (absolute) and first_ac on hand.knob (absolute): they pull"
        " against each other. first_ac is meant to have it."
    )
    assert finding.fixes[0].says == "Set desk.lens_control to off: the other hands stay."
    assert [edit.value for edit in finding.fixes[0].edits] == ["off"]


def test_is_silent_where_it_is_off() -> None:
    assert_silent(check_text(TWO_UP, PARTS), CODE)


@pytest.mark.parametrize("hand", ["house/hand-touch", "house/hand-button"])
def test_is_silent_where_one_takes_over_by_agreement(hand: str) -> None:
    rig = edit_text(FAULT, ("hand: house/hand\n", f"hand: {hand}\n"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_where_both_take_over_by_touch() -> None:
    rig = edit_text(
        TWO_UP, *SECOND_HAND, ("hand: house/hand\n", "hand: house/hand-touch\n"),
        ("hand_b: house/hand\n", "hand_b: house/hand-touch\n"), ("focus: first_ac", "focus: [first_ac, second_ac]"),
    )  # fmt: skip

    assert_silent(check_text(rig, PARTS), CODE)


def test_counts_controls_not_persons() -> None:
    rig = edit_text(TWO_UP, *SECOND_HAND[:2], ("first_ac: [hand]", "first_ac: [hand, hand_b]"))

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause="link:lens_control")


def test_finds_two_hand_units_on_one_receiver() -> None:
    rig = edit_text(TWO_UP, *SECOND_HAND)

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause="link:lens_control"
    )
    assert finding.fixes[0].says == "Take hand_b out of the link lens_control."
    assert [(one.do, one.path) for one in finding.fixes[0].edits] == [
        ("remove", ("links", "lens_control", "between", 2))
    ]


def test_is_silent_where_the_receiver_holds_one_of_them() -> None:
    """The hub's peers are taken: the second unit does not get in, and `radio:too-many` says so."""
    parts = edit_text(PARTS, ("peers: 2", "peers: 1"))

    codes = {one.code for one in check_text(edit_text(TWO_UP, *SECOND_HAND), parts).findings}
    assert codes <= {"radio:too-many"}


def test_is_silent_where_an_automatic_control_steps_back() -> None:
    assert_silent(check_text(_with_finder("house/finder"), PARTS), CODE)


def test_finds_an_automatic_control_that_does_not_step_back() -> None:
    rig = _with_finder("house/finder-stubborn")

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause="D4")
    assert "finder.assist by itself (absolute)" in finding.says


def test_is_silent_on_several_hands_on_record() -> None:
    """Desk, hand unit, head trigger and the camera's own button: a record that toggles may have them all."""
    rig = edit_text(TWO_UP, ("record: [operator, first_ac, carrier]", "record: [operator, carrier]"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_lists_the_setups_and_the_axes_of_one_setting() -> None:
    parts = edit_text(PARTS, ("lens_wheel: {sends: absolute, axis: focus,", "lens_wheel: {sends: absolute, axis: [focus, iris],"),
                      ("{from: lens_wheel, to: line, axes: focus}", "{from: lens_wheel, to: line, axes: [focus, iris]}"))  # fmt: skip
    rig = edit_text(
        TWO_UP,
        ("  lens: house/lens\n", "  lens: house/lens\n  motor_i: {part: house/motor, set: {axis: iris}}\n"),
        ("  D3:", "  D4: {part: house/lead-data, from: motor.bus_2, to: motor_i.bus_1}\n  D3:"),
        ("fitted: {motor: lens.focus}", "fitted: {motor: lens.focus, motor_i: lens.iris}"),
        ("      desk.lens_control: off\n", ""),
        ("setups:", "settings:\n  desk.lens_control: on  # here\nsetups:\n  boat:\n    set: {head.dial: none}\n    who: {focus: first_ac}"),
    )  # fmt: skip

    finding = assert_finds(
        check_text(rig, parts), CODE, line=find_line(rig), at="lens.focus", cause="desk.set.lens_control"
    )
    assert finding.also == ("lens.iris",)
    assert finding.setups == ("boat", "two_up")


def test_finds_it_on_leads_written_in_one_line() -> None:
    parts = """
parts:
  - {rigmint_part: 1, id: house/lens, name: Lens, kind: lens, rings: {focus: {}}}
  - {rigmint_part: 1, id: house/motor, name: Motor, kind: lens_motor,
     ports: {bus: {connector: usb-c, speaks: [lens-bus]}}, moves: {shaft: {axis: focus}},
     passes: [{from: bus, to: shaft}]}
  - {rigmint_part: 1, id: house/receiver, name: Receiver, kind: motor_driver,
     ports: {bus_1: {connector: usb-c, speaks: [lens-bus]}, bus_2: {connector: usb-c, speaks: [lens-bus]}},
     radios: {radio: {speaks: [lens-air]}}, passes: [{from: [radio, bus_2], to: bus_1}]}
  - {rigmint_part: 1, id: house/hand, name: Hand unit, kind: hand_unit, radios: {radio: {speaks: [lens-air]}},
     controls: {knob: {sends: absolute, axis: focus}}, passes: [{from: knob, to: radio}]}
  - {rigmint_part: 1, id: house/wheel, name: Wired wheel, kind: hand_unit,
     ports: {bus: {connector: usb-c, speaks: [lens-bus]}},
     controls: {wheel: {sends: absolute, axis: focus}}, passes: [{from: wheel, to: bus}]}
"""
    rig = """\
rigmint: 1
rig: Saltmarsh, written short
kit: {lens: house/lens, motor: house/motor, receiver: house/receiver, hand: house/hand, wheel: house/wheel}
leads:
  D1: receiver.bus_1 > motor.bus
  D2: wheel.bus > receiver.bus_2  # here
links:
  lens_control: {between: [receiver.radio, hand.radio]}
fitted: {motor: lens.focus}
"""
    assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="lens.focus", cause="D2")


def test_speaks_where_no_value_of_an_unknown_setting_would_help() -> None:
    """The dial is not written down, and whatever it stands at, desk and hand unit fight."""
    rig = edit_text(FAULT, ("      head.dial: none\n", ""))

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lens.focus", cause="desk.set.lens_control")


def _with_finder(part: str) -> str:
    return edit_text(
        TWO_UP,
        ("  lens: house/lens\n", f"  lens: house/lens\n  finder: {part}\n"),
        ("  D3:", "  D4: {part: house/lead-data, from: finder.bus, to: motor.bus_2}  # here\n  D3:"),
    )
