"""`payload:over`: a head or a carrier carries more than it may."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import FLOWN

CODE = "payload:over"
HEAD = "head: {part: house/head, bond: true}"
MARKED = edit_text(FLOWN, (HEAD, f"{HEAD}  # here"))


def limit_head(text: str) -> str:
    """The parts with another payload of the head."""
    return edit_text(PARTS, ("payload: {min: 1 kg, max: 4 kg}", f"payload: {{min: 1 kg, max: {text}}}"))


@pytest.mark.parametrize(
    ("on", "limit", "grade"),
    [  # camera and lens: 3 kg
        ("vehicle", "2.9 kg", Grade.HURT),
        ("crane", "2.9 kg", Grade.HURT),
        ("overhead", "3.05 kg", Grade.THIN),
        ("cable", "2 kg", Grade.HURT),
        ("hand", "3.1 kg", Grade.THIN),
        ("hand", "2.9 kg", Grade.THIN),
        ("hand", "2.7 kg", Grade.DEAD),
        ("tripod", "2.7 kg", Grade.DEAD),
    ],
)
def test_finds_an_overloaded_head(on: str, limit: str, grade: Grade) -> None:
    rig = edit_text(MARKED, ("on: vehicle", f"on: {on}  # what it is on"))

    finding = assert_finds(
        check_text(rig, limit_head(limit)), CODE, line=find_line(rig), at="head", cause="head", grade=grade
    )
    assert finding.says.startswith("head carries 3.0 kg (camera 2.0 kg, lens 1.0 kg): ")
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(3.0)


@pytest.mark.parametrize(("on", "limit"), [("vehicle", "3.2 kg"), ("hand", "3.2 kg")])
def test_is_silent_where_it_takes_the_weight(on: str, limit: str) -> None:
    assert_silent(check_text(edit_text(FLOWN, ("on: vehicle", f"on: {on}  # what it is on")), limit_head(limit)), CODE)


def test_is_silent_where_the_weight_rides_below_the_head_or_away() -> None:
    """Looks overloaded: two more kilograms are in the kit, one at the base and one in the car."""
    rig = edit_text(
        FLOWN,
        ("docks:", "  below: {part: house/battery, rides: base, bond: true}\n  spare: {part: house/battery, rides: away}\ndocks:"),
    )  # fmt: skip

    assert_silent(check_text(rig, limit_head("3.5 kg")), CODE)


def test_counts_what_rides_on_pan_and_counterweights() -> None:
    rig = edit_text(
        MARKED,
        ("docks:", "  pack: {part: house/battery, rides: pan, bond: true}\n"
         "  weight: {part: generic/counterweight-250g, bond: true}\ndocks:"),
    )  # fmt: skip

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="head", cause="head")
    assert finding.grade is Grade.HURT
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(4.25)
    assert finding.fixes[0].says == "Move pack (1.0 kg) below the head."


def test_finds_an_arm_that_carries_the_head_and_all_that_rides_on_it() -> None:
    """head 3, camera 2, lens 1 and 1 kg at the base: 7 kg, and the mount below carries the arm too."""
    rig = edit_text(
        FLOWN,
        ("arm: house/arm", "arm: house/arm  # here"),
        ("docks:", "  below: {part: house/battery, rides: base, bond: true}\ndocks:"),
    )
    parts = edit_text(PARTS, ("payload: {min: 5 kg, max: 12 kg}", "payload: {min: 5 kg, max: 6.5 kg}"))

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="arm", cause="arm", grade=Grade.HURT)
    assert finding.says == (
        "arm carries 7.0 kg (head 3.0 kg, camera 2.0 kg, below 1.0 kg): 108 % of the 6.5 kg that it takes."
    )


def test_is_right_per_setup() -> None:
    """The heavy lens is out in one setup; the other is on the tripod."""
    rig = edit_text(
        MARKED,
        ("  chase:\n    says: As it stands", "  chase: {out: [lens]}\n  static: {on: tripod}"),
    )

    finding = assert_finds(check_text(rig, limit_head("2.9 kg")), CODE, line=find_line(rig), at="head", cause="head")
    assert (finding.setups, finding.grade) == (("static",), Grade.THIN)


def test_says_at_least_where_something_has_no_mass() -> None:
    parts = edit_text(limit_head("1.5 kg"), ("kind: lens\n    mass: 1 kg\n", "kind: lens\n"))
    report = check_text(MARKED, parts)

    finding = assert_finds(report, CODE, line=find_line(MARKED), at="head", cause="head")
    assert finding.says.startswith("head carries at least 2.0 kg (camera 2.0 kg): 133 %")


def test_does_not_know_where_the_sum_without_it_is_within() -> None:
    report = check_text(FLOWN, edit_text(PARTS, ("kind: lens\n    mass: 1 kg\n", "kind: lens\n")))

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE and one.at == "head"] == [
        ("mass of lens", "head")
    ]


def test_does_not_know_of_a_head_that_states_no_payload() -> None:
    report = check_text(FLOWN, edit_text(PARTS, ("    payload: {min: 1 kg, max: 4 kg}\n", "")))

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("payload", "head")]


def test_asks_what_the_rig_is_on() -> None:
    rig = edit_text(MARKED, ("on: vehicle\n", ""))
    report = check_text(rig, limit_head("2.9 kg"))

    assert_finds(report, CODE, line=find_line(rig), at="head", cause="head", grade=Grade.THIN)
    assert ("on", "head") in [(one.needs, one.at) for one in report.unknown if one.code == CODE]


def test_does_not_know_which_of_two_carriers_carries_the_head_without_docks() -> None:
    rig = edit_text(FLOWN, ("  - arm.base > mount.bowl\n  - head.base > arm.head\n", ""))
    report = check_text(rig, PARTS)

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("docks", "head")]
