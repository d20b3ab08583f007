"""What `owners` says of a wheel that drives a ring by speed."""

from __future__ import annotations

import math

import pytest

from rigmint.physics.gears import compute_coverage, compute_leftover
from rigmint.report.owners import render_owners
from rigmint.report.style import Style
from rigmint.report.wheels import describe_wheel
from rigmint.rig.device import SignalKind
from rigmint.study.dial_speed import DialSpeed, Speed
from tests.report.results import RIG_FILE, make_axis, make_claim, make_hands

WHEEL = make_claim("desk.wheel", "operator", arrives=SignalKind.RATE)
TURN = math.radians(330.0)


def make_dial(value: str | None, speeds: dict[str, float], setting: str | None = "dial_speed") -> DialSpeed:
    """A wheel of 330 deg, 8 motor steps to a degree at one ring length a turn."""
    rated = tuple(
        Speed(name, compute_coverage(lengths, TURN), compute_leftover(lengths, TURN), math.degrees(8.0) * lengths)
        for name, lengths in speeds.items()
    )
    return DialSpeed(WHEEL, "lens.focus", TURN, "desk", setting, value, rated)


@pytest.mark.parametrize(
    ("dial", "says"),
    [
        (
            make_dial("2", {"1": 0.9, "2": 1.2, "3": 2.0}),
            "330 deg of wheel at desk.dial_speed 2 cover 110 % of the ring, 30 deg left over, 9.6 motor steps a degree;"
            " a lower speed does not cover it",
        ),
        (
            make_dial("3", {"1": 0.9, "2": 1.2, "3": 2.0}),
            "330 deg of wheel at desk.dial_speed 3 cover 183 % of the ring, 150 deg left over, 16 motor steps a degree;"
            " 2 is the lowest that covers it, 30 deg left over, 9.6 motor steps a degree",
        ),
        (
            make_dial("1", {"1": 0.9, "2": 1.2}),
            "330 deg of wheel at desk.dial_speed 1 cover 82 % of the ring; 2 is the lowest that covers it, 30 deg left"
            " over, 9.6 motor steps a degree",
        ),
        (
            make_dial("1", {"1": 0.9}),
            "330 deg of wheel at desk.dial_speed 1 cover 82 % of the ring; no speed covers it",
        ),
        (
            make_dial(None, {"1": 0.9}),
            "330 deg of wheel at a desk.dial_speed that nobody stated; no speed covers it",
        ),
        (
            make_dial("7", {"1": 0.9}),
            "330 deg of wheel at desk.dial_speed 7, of which no speed is stated; no speed covers it",
        ),
        (make_dial(None, {}, None), "330 deg of wheel: no part states how far a turn of it takes the ring"),
    ],
)
def test_describe_wheel(dial: DialSpeed, says: str) -> None:
    assert describe_wheel(dial) == says


def test_it_stands_below_the_hand_that_turns_the_wheel() -> None:
    other = make_claim("hand.knob", "first_ac")
    hands = make_hands(make_axis("lens.focus", WHEEL, other, meant=("operator",)))
    text = render_owners(RIG_FILE, {"solo": hands}, Style(), {"solo": (make_dial("2", {"2": 1.2}),)})
    lines = [line.strip() for line in text.splitlines()]
    first = lines.index("desk.wheel > D6 > motor_f.shaft")

    assert lines[first + 1].startswith("330 deg of wheel at desk.dial_speed 2 cover 110 % of the ring")
    assert text.count("330 deg") == 1
