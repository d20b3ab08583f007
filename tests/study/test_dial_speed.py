"""Which wheels count, whose setting says how far a turn of one goes, and what each value of it does."""

from __future__ import annotations

import math

import pytest

from rigmint.study.dial_speed import DialSpeed, study_dial_speeds
from rigmint.study.study_hands import study_hands
from tests.builders import make_studies

PARTS = """
house/lens:
  kind: lens
  rings: {focus: {module: 0.8 mm, teeth: 130, turn: 270 deg}}
house/motor:
  kind: lens_motor
  ports: {bus: {connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}}
  moves: {shaft: {axis: focus, takes: [absolute, rate], steps: 1000}}
  passes: [{from: bus, to: shaft}]
  drive: {module: 0.8 mm, teeth: 40}
house/motor-plain: {kind: lens_motor, like: house/motor, drive: null}
house/desk:
  kind: desk
  ports: {line: {connector: usb-c, sex: socket, pins: data, speaks: [head-bus]}}
  settings: {dial_speed: {values: [1, 2, 3], default: 2}, other: {values: [1, 2, 3], default: 1}}
  controls: {wheel: {sends: absolute, axis: focus, turn: 330 deg}}
  passes: [{from: wheel, to: line}]
  speeds: {3: 2.4, 1: 0.6, 2: 1.2}
house/desk-renamed:
  kind: desk
  like: house/desk
  settings: {dial_speed: null, other: null, gain: {values: [1, 2, 3], default: 3}, colour: {values: [red, 1]}}
house/desk-doubtful: {kind: desk, like: house/desk, settings: {dial_speed: null, more: {values: [1, 2, 3]}}}
house/desk-plain: {kind: desk, like: house/desk, speeds: null, settings: null}
house/box:
  kind: motor_driver
  ports:
    line: {connector: usb-c, sex: socket, pins: data, speaks: [head-bus]}
    bus: {connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}
  settings: {pace: {values: [slow, fast], default: slow}}
  passes: [{from: line, to: bus, axes: focus, as: rate}]
  speeds: {slow: 0.5, fast: 1.5}
house/box-plain: {kind: motor_driver, like: house/box, speeds: null}
"""


def study(desk: str = "house/desk", box: str = "house/box-plain", motor: str = "house/motor") -> tuple[DialSpeed, ...]:
    """The wheels of a desk that reaches a motor through a box that makes speed of position."""
    rig = f"""
kit: {{lens: house/lens, motor: {motor}, box: {box}, desk: {desk}}}
leads: {{L1: desk.line > box.line, L2: box.bus > motor.bus}}
fitted: {{motor: lens.focus}}
"""
    studies, setup = make_studies(rig, PARTS)
    return study_dial_speeds(studies.rig, setup, study_hands(studies.rig, setup, studies.house))


def test_a_wheel_that_arrives_as_speed() -> None:
    (dial,) = study()

    assert (dial.place, dial.item, dial.setting, dial.value) == ("lens.focus", "desk", "dial_speed", "2")
    assert [speed.value for speed in dial.speeds] == ["1", "2", "3"]
    assert [speed.covers for speed in dial.speeds] == [False, True, True]
    assert dial.now == dial.lowest


def test_what_the_lowest_speed_does() -> None:
    """1.2 ring lengths a turn: 300 of 330 deg; 1000 x 3.25 x 0.75 = 2437.5 steps, x 1.2 / 360 = 8.125 a degree."""
    (dial,) = study()
    assert dial.lowest is not None
    assert dial.lowest.steps is not None

    assert dial.lowest.coverage == pytest.approx(1.1)
    assert math.degrees(dial.lowest.leftover) == pytest.approx(30.0)
    assert math.radians(dial.lowest.steps) == pytest.approx(8.125)


@pytest.mark.parametrize(
    ("desk", "box", "item", "setting"),
    [
        ("house/desk", "house/box", "desk", "dial_speed"),
        ("house/desk-renamed", "house/box-plain", "desk", "gain"),
        ("house/desk-doubtful", "house/box-plain", "desk", None),
        ("house/desk-plain", "house/box", "box", "pace"),
        ("house/desk-plain", "house/box-plain", "desk", None),
    ],
)
def test_whose_setting_it_is(desk: str, box: str, item: str, setting: str | None) -> None:
    """The hand's own part says it, else the first on the way; of several settings the one of the usual name."""
    (dial,) = study(desk, box)

    assert (dial.item, dial.setting) == (item, setting)


def test_a_motor_without_a_gear_has_no_steps() -> None:
    (dial,) = study(motor="house/motor-plain")

    assert [speed.steps for speed in dial.speeds] == [None, None, None]
