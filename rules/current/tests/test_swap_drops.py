"""`runtime:swap-drops`: changing a battery takes down what must stay up."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD, TWO_BATTERIES

CODE = "runtime:swap-drops"
FAULT = (
    edit_text(HAND_HELD, ("battery: house/battery", "battery: house/battery  # here")) + "needs: {stays_up: [camera]}\n"
)


def test_finds_a_camera_on_one_battery() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="camera", cause="battery", grade=Grade.DEAD
    )
    assert finding.says == "Changing battery takes down camera, which must stay up."


def test_is_silent_on_a_hot_swap_plate() -> None:
    assert_silent(check_text(TWO_BATTERIES, PARTS), CODE)


def test_is_silent_where_nothing_must_stay_up() -> None:
    assert_silent(check_text(HAND_HELD, PARTS), CODE)


def test_is_silent_on_a_mains_supply() -> None:
    """A supply is not changed."""
    rig = """\
rigmint: 1
rig: Saltmarsh, on the mains
kit: {mains: house/mains-supply, camera: house/camera}
leads: {P1: {part: house/lead, from: mains.out, to: camera.dc_in}}
needs: {stays_up: [camera]}
"""

    assert_silent(check_text(rig, PARTS), CODE)


def test_finds_the_second_of_two_batteries_when_the_first_is_off() -> None:
    rig = edit_text(TWO_BATTERIES, ("battery_b: house/battery", "battery_b: house/battery  # here"))
    rig += "setups: {one: {off: [battery_a]}}\n"

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="camera", cause="battery_b")
