"""Who has what in rigs that are hard to read: each judged by code and cause, and each beside the rig that is fine."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import TWO_UP

OWNER = ("owner:mixed", "owner:two", "owner:wrong-ring", "owner:unintended", "owner:nobody")

MORE_PARTS = (
    PARTS
    + """
  - rigmint_part: 1
    id: house/desk-link
    name: Desk whose radio carries focus alone
    kind: desk
    controls: {rocker: {sends: rate, axis: focus}}
    radios: {radio: {speaks: [lens-air]}}
    passes: [{from: rocker, to: radio, axes: focus}]

  - rigmint_part: 1
    id: house/lens-zoom
    name: Zoom lens
    kind: lens
    rings: {focus: {}, iris: {}, zoom: {}}

  - rigmint_part: 1
    id: house/head-motors
    name: Head with a socket for bus motors
    kind: head
    like: house/head
    ports: {accessory: {speaks: [head-bus, lens-bus]}}
"""
)

SHARED_BUS = """\
rigmint: 1
rig: Saltmarsh, two motors on a shared bus
kit:
  head: house/head-motors
  desk: house/desk
  driver: house/driver
  hand: house/hand
  motor_f: {part: house/motor, set: {axis: focus}}
  motor_i: {part: house/motor, set: {axis: iris}}
  lens: house/lens
leads:
  B1: {part: house/lead-data, from: driver.bus, to: motor_f.bus_1}
  B2: {part: house/lead-data, from: motor_f.bus_2, to: motor_i.bus_1}
  B3: {part: house/lead-data, from: motor_i.bus_2, to: head.accessory}
  D3: {part: house/lead-data, from: desk.line, to: head.control}
links:
  lens_control: {between: [driver.radio, hand.radio]}
fitted: {motor_f: lens.focus, motor_i: lens.iris}
crew: {operator: [desk], first_ac: [hand], carrier: [head]}
setups:
  two_up:
    set:
      head.dial: none
      desk.lens_control: off
    who: {focus: first_ac, iris: first_ac, pan: operator}
"""
"""Driver, focus motor, iris motor and head in one chain: whoever reaches one of them reaches all."""

ONE_AXIS_LINK = """\
rigmint: 1
rig: Saltmarsh, zoom over a link that carries focus
kit:
  driver: house/driver
  driver_z: house/driver
  hand: house/hand
  desk: house/desk-link
  motor_f: {part: house/motor, set: {axis: focus}}
  motor_z: {part: house/motor, set: {axis: focus}}
  lens: house/lens-zoom
leads:
  B1: {part: house/lead-data, from: driver.bus, to: motor_f.bus_1}
  B2: {part: house/lead-data, from: driver_z.bus, to: motor_z.bus_1}
links:
  lens_control: {between: [driver.radio, hand.radio]}
  zoom_control: {between: [driver_z.radio, desk.radio]}
fitted: {motor_f: lens.focus, motor_z: lens.zoom}
crew: {operator: [desk], first_ac: [hand]}
setups:
  two_up:
    who: {focus: first_ac, zoom: operator}
"""
JOINED = (
    "to: motor_z.bus_1}\n",
    "to: motor_z.bus_1}\n  B3: {part: house/lead-data, from: motor_f.bus_2, to: motor_z.bus_2}  # here\n",
)


def test_shared_bus_with_a_hand_unit_and_a_desk_that_is_off() -> None:
    assert_silent(check_text(SHARED_BUS, MORE_PARTS), *OWNER)


def test_shared_bus_with_a_hand_unit_and_a_desk_that_is_on() -> None:
    """The desk comes from the far end of the chain, through the iris motor, and fights on focus."""
    rig = edit_text(SHARED_BUS, ("desk.lens_control: off", "desk.lens_control: on  # here"))

    finding = assert_finds(
        check_text(rig, MORE_PARTS), "owner:two", line=find_line(rig), at="lens.focus", cause="desk.set.lens_control",
        grade=Grade.FIGHT,
    )  # fmt: skip
    assert finding.path == (
        "desk.lens_wheel", "desk.line", "D3", "head.control", "head.accessory", "B3", "motor_i.bus_2",
        "motor_i.bus_1", "B2", "motor_f.bus_2", "motor_f.shaft",
    )  # fmt: skip
    assert [edit.value for edit in finding.fixes[0].edits] == ["off"]


def test_bus_lead_taken_out_leaves_the_iris_without_a_hand() -> None:
    """Of the chain only the half behind the driver still answers to the hand unit."""
    rig = edit_text(
        SHARED_BUS,
        ("    who:", "    unplugged: [B2]\n    who:"),
        (
            "  motor_i: {part: house/motor, set: {axis: iris}}",
            "  motor_i: {part: house/motor, set: {axis: iris}}  # here",
        ),
    )

    finding = assert_finds(
        check_text(rig, MORE_PARTS), "owner:nobody", line=find_line(rig), at="lens.iris", cause="motor_i",
        grade=Grade.DEAD,
    )  # fmt: skip
    assert finding.path == ("hand.slider", "motor_i.bus_1")
    assert "no lead joins motor_f.bus_2 and motor_i.bus_1" in finding.says


def test_bus_lead_taken_out_ends_the_fight() -> None:
    """With the lead out, the desk on focus reaches only the iris motor, which does not answer to it."""
    rig = edit_text(
        SHARED_BUS,
        ("desk.lens_control: off", "desk.lens_control: on"),
        ("    who: {focus: first_ac, iris: first_ac,", "    unplugged: [B2]\n    who: {focus: first_ac,"),
    )

    assert_silent(check_text(rig, MORE_PARTS), *OWNER)


def test_focus_link_on_the_zoom_ring_where_who_says_so() -> None:
    """Motor set to focus, link that carries focus, ring of zoom, and zoom is the operator's: as it is meant."""
    assert_silent(check_text(ONE_AXIS_LINK, MORE_PARTS), *OWNER)


def test_focus_link_on_the_zoom_ring_that_is_meant_for_nobody() -> None:
    rig = edit_text(
        ONE_AXIS_LINK,
        ("zoom: operator", "zoom: nobody"),
        (
            "motor_z: {part: house/motor, set: {axis: focus}}",
            "motor_z: {part: house/motor, set: {axis: focus}}  # here",
        ),
    )

    finding = assert_finds(
        check_text(rig, MORE_PARTS), "owner:wrong-ring", line=find_line(rig), at="lens.zoom", cause="motor_z.set.axis",
        grade=Grade.FIGHT,
    )  # fmt: skip
    assert finding.says == (
        "desk.rocker sends focus and turns lens.zoom: motor_z, which answers to focus, sits on that ring."
    )


def test_focus_link_on_the_zoom_ring_of_whoever_is_to_have_focus() -> None:
    """The operator is to have focus and gets the zoom ring. Setting the motor to zoom would leave the desk without
    anything, so the motor moves."""
    rig = edit_text(
        ONE_AXIS_LINK,
        ("  motor_f: {part: house/motor, set: {axis: focus}}\n", ""),
        ("  B1: {part: house/lead-data, from: driver.bus, to: motor_f.bus_1}\n", ""),
        ("fitted: {motor_f: lens.focus, motor_z: lens.zoom}", "fitted:\n  motor_z: lens.zoom  # here"),
        ("who: {focus: first_ac, zoom: operator}", "who: {focus: operator, zoom: operator}"),
    )

    finding = assert_finds(
        check_text(rig, MORE_PARTS), "owner:wrong-ring", line=find_line(rig), at="lens.zoom", cause="motor_z.fitted"
    )
    assert finding.also == ("lens.focus",)
    assert finding.fixes[0].says == "Move motor_z to lens.focus, whose axis it answers to."
    assert [(edit.path, edit.value) for edit in finding.fixes[0].edits] == [(("fitted", "motor_z"), "lens.focus")]


def test_focus_motor_on_the_zoom_ring_of_a_joined_bus_has_two_hands() -> None:
    """A lead between the two buses lets each control reach both motors, since both answer to focus."""
    rig = edit_text(ONE_AXIS_LINK, JOINED)

    finding = assert_finds(check_text(rig, MORE_PARTS), "owner:mixed", line=find_line(rig), at="lens.focus", cause="B3")
    assert finding.also == ("lens.zoom",)


def test_second_hand_unit_on_one_driver() -> None:
    rig = edit_text(
        TWO_UP,
        ("  hand: house/hand\n", "  hand: house/hand\n  hand_b: house/hand\n"),
        ("{between: [driver.radio, hand.radio]}", "{between: [driver.radio, hand.radio, hand_b.radio]}  # here"),
    )

    finding = assert_finds(
        check_text(rig, PARTS), "owner:two", line=find_line(rig), at="lens.focus", cause="link:lens_control",
        grade=Grade.FIGHT,
    )  # fmt: skip
    assert finding.path[0] == "hand_b.knob"
    assert "somebody on hand_b.knob" in finding.says


def test_second_hand_unit_on_a_link_of_its_own() -> None:
    """Paired by another link to the same radio of the driver, it fights all the same."""
    rig = edit_text(
        TWO_UP,
        ("  hand: house/hand\n", "  hand: house/hand\n  hand_b: house/hand\n"),
        (
            "[driver.radio, hand.radio]}\n",
            "[driver.radio, hand.radio]}\n  spare: {between: [driver.radio, hand_b.radio]}  # here\n",
        ),
    )

    assert_finds(check_text(rig, PARTS), "owner:two", line=find_line(rig), at="lens.focus", cause="link:spare")


def test_second_hand_unit_that_stays_in_the_case() -> None:
    rig = edit_text(
        TWO_UP,
        ("  hand: house/hand\n", "  hand: house/hand\n  hand_b: house/hand\n"),
        ("{between: [driver.radio, hand.radio]}", "{between: [driver.radio, hand.radio, hand_b.radio]}"),
        ("    who:", "    out: [hand_b]\n    who:"),
    )

    assert_silent(check_text(rig, PARTS), *OWNER)
