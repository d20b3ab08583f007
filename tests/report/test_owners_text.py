"""Who has what, for a person."""

from __future__ import annotations

from typing import Any

import pytest

from rigmint.report.owner_marks import Mark, describe_holding
from rigmint.report.owners import render_owners
from rigmint.report.style import Style
from rigmint.rig.device import SignalKind
from rigmint.study.hands import Stopped
from tests.report.results import HOSTILE, RIG_FILE, make_axis, make_claim, make_hands

WHEEL = make_claim("hand.wheel", "first_ac", reach=80.0)
KNOB = make_claim("desk.knob", "operator", sends=SignalKind.RATE, arrives=SignalKind.RATE)
DIAL = make_claim("handgrip.dial", None)
FOLLOW = make_claim("head", "carrier", "head.pan", sends=SignalKind.FOLLOW, arrives=SignalKind.FOLLOW)


def test_matrix_first_then_each_hand() -> None:
    stop = Stopped("desk.knob", "desk.set.lens_control", "desk.lens_control is off, not on")
    two_up = make_hands(
        make_axis("lens.focus", WHEEL, meant=("first_ac",), stopped=(stop,)),
        make_axis("head.pan", FOLLOW, meant=("operator",)),
        make_axis("lens.iris", meant=("first_ac",)),
        make_axis("lens.zoom"),
    )
    solo = make_hands(
        make_axis("lens.focus", KNOB, DIAL, meant=("operator",)), make_axis("lens.iris", meant=("nobody",))
    )

    assert render_owners(RIG_FILE, {"two_up": two_up, "solo": solo}, Style()) == (
        """\
saltmarsh-two-up.rig.yaml   who has what, 2 setups

axis   two_up     solo
focus  first_ac   operator + by hand at handgrip !! *
iris   nobody !   nobody
zoom   -
pan    carrier *

!!  two hands on one axis
!   nobody has it, and somebody is meant to
*   somebody has it who is not meant to

two_up

  focus: meant for first_ac
    first_ac, hand.wheel, absolute, reaches 80 m
      hand.wheel > D6 > motor_f.shaft
    held back: desk.knob at desk.set.lens_control: desk.lens_control is off, not on

  iris: meant for first_ac
    nobody has it

  pan: meant for operator
    carrier, by the follow mode of head
      head > D6 > head.pan

solo

  focus: meant for operator
    operator, desk.knob, rate
      desk.knob > D6 > motor_f.shaft
    by hand at handgrip, handgrip.dial, absolute
      handgrip.dial > D6 > motor_f.shaft

  iris: meant for nobody
    nobody has it
"""
    )


UNSTATED = make_claim("desk.knob", "operator", assumes={("desk", "lens_control"): "on"})
TOUCH = make_claim("desk.knob", "operator", takes_over="touch")
AUTOMATIC = make_claim("camera.autofocus", None, automatic=True)
STEPS_BACK = make_claim("camera.autofocus", None, automatic=True, takes_over="never")
BUTTON = make_claim("hand.button", "first_ac", "camera.record", sends=SignalKind.TRIGGER)
TRIGGER = make_claim("desk.button", "operator", "camera.record", sends=SignalKind.TRIGGER)


@pytest.mark.parametrize(
    ("place", "claims", "meant", "names", "marks"),
    [
        ("lens.focus", [WHEEL], ["first_ac"], "first_ac", []),
        ("lens.focus", [WHEEL], [], "first_ac", []),
        ("lens.focus", [WHEEL, KNOB], [], "first_ac + operator", [Mark.TWO]),
        ("lens.focus", [WHEEL, KNOB], ["first_ac", "operator"], "first_ac + operator", [Mark.TWO]),
        ("lens.focus", [WHEEL, TOUCH], ["first_ac", "operator"], "first_ac + operator", []),
        ("lens.focus", [WHEEL, make_claim("hand.slider", "first_ac")], ["first_ac"], "first_ac", [Mark.TWO]),
        ("lens.focus", [WHEEL, make_claim("hand.wheel", "first_ac", "motor_g.shaft")], ["first_ac"], "first_ac", []),
        ("lens.focus", [WHEEL, UNSTATED], ["first_ac"], "first_ac", [Mark.UNSTATED]),
        ("lens.focus", [AUTOMATIC], ["automatic"], "automatic at camera", []),
        ("lens.focus", [AUTOMATIC], ["first_ac"], "automatic at camera", [Mark.OTHER]),
        ("lens.focus", [WHEEL, STEPS_BACK], ["first_ac"], "first_ac + automatic at camera", []),
        ("lens.focus", [WHEEL], ["nobody"], "first_ac", [Mark.OTHER]),
        ("lens.focus", [], ["nobody"], "nobody", []),
        ("lens.focus", [], ["first_ac"], "nobody", [Mark.NOBODY]),
        ("lens.focus", [], [], "-", []),
        ("camera.record", [BUTTON, TRIGGER], ["first_ac", "operator"], "first_ac + operator", []),
    ],
)
def test_who_holds_an_axis(place: str, claims: Any, meant: Any, names: str, marks: Any) -> None:
    holding = describe_holding(make_axis(place, *claims, meant=tuple(meant)))

    assert (holding.names, list(holding.marks)) == (names, marks)


def test_an_unstated_setting_is_said_in_the_details() -> None:
    text = render_owners(RIG_FILE, {"two_up": make_hands(make_axis("lens.focus", UNSTATED))}, Style())

    assert (
        "    held back: desk.knob at desk.set.lens_control: desk.lens_control is not stated;"
        " with\n      desk.lens_control at on it reaches lens.focus\n"
    ) in text


def test_an_axis_is_named_in_full_where_its_short_name_differs() -> None:
    setups = {
        "one": make_hands(make_axis("lens.focus", WHEEL)),
        "both": make_hands(make_axis("lens.focus", name="lens.focus"), make_axis("lens_b.focus", name="lens_b.focus")),
    }
    rows = [line.split()[0] for line in render_owners(RIG_FILE, setups, Style()).splitlines()[3:5]]

    assert rows == ["lens.focus", "lens_b.focus"]


@pytest.mark.parametrize("width", [60, 80, 100])
def test_many_setups_fit_the_width(width: int) -> None:
    hands = make_hands(make_axis("lens.focus", WHEEL, KNOB, DIAL, meant=("first_ac", "operator")))
    text = render_owners(RIG_FILE, {f"setup_number_{index}": hands for index in range(12)}, Style(width))
    heads = [line for line in text.splitlines() if line.startswith("axis ")]

    assert max(len(line) for line in text.splitlines()) <= width
    assert [name for head in heads for name in head.split()[1:]] == [f"setup_number_{index}" for index in range(12)]


def test_hostile_names_are_harmless() -> None:
    claim = make_claim(HOSTILE, HOSTILE, path=(HOSTILE,), mover=HOSTILE)
    axis = make_axis("lens.focus", claim, meant=(HOSTILE,), stopped=(Stopped(HOSTILE, HOSTILE, HOSTILE),))
    text = render_owners(HOSTILE, {HOSTILE: make_hands(axis)}, Style())

    assert {character for character in text if not character.isprintable()} == {"\n"}


def test_colour_changes_no_column() -> None:
    setups = {"two_up": make_hands(make_axis("lens.focus", WHEEL, KNOB)), "solo": make_hands(make_axis("lens.focus"))}
    coloured = render_owners(RIG_FILE, setups, Style(colour=True))

    assert "\x1b[31mfirst_ac + operator !!\x1b[0m" in coloured
    assert coloured.replace("\x1b[31m", "").replace("\x1b[0m", "") == render_owners(RIG_FILE, setups, Style())
