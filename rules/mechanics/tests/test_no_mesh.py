"""`drive:no-mesh`: the motor's gear and the ring have different teeth."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import LENS

CODE = "drive:no-mesh"
MARKED = edit_text(
    LENS,
    ("  motor: {part: house/motor, set: {axis: focus}}", "  motor: {part: house/motor, set: {axis: focus}}  # here"),
)
GEAR = "drive: {module: 0.8 mm, teeth: 40"


def with_module(text: str) -> str:
    """The parts with another module on the motor's gear."""
    return edit_text(PARTS, (GEAR, f"drive: {{ module: {text}, teeth: 40"))


def test_finds_a_gear_of_another_module() -> None:
    finding = assert_finds(
        check_text(MARKED, with_module("0.5 mm")), CODE, line=find_line(MARKED), at="lens.focus", cause="motor",
        grade=Grade.DEAD,
    )  # fmt: skip
    assert finding.says == (
        "motor has a gear of module 0.5 mm, and lens.focus teeth of module 0.8 mm: they do not run together."
    )


@pytest.mark.parametrize("module", ["0.8 mm", "0.08 cm", "0.0315 in", "31.75 DP"])
def test_is_silent_where_the_modules_are_one(module: str) -> None:
    """25.4 mm / 31.75 = 0.8 mm."""
    assert_silent(check_text(LENS, with_module(module)), CODE)


def test_finds_32_dp_on_module_0_8() -> None:
    """It looks like it and is not: 32 DP is module 0.79375, 0.8 % off in pitch."""
    finding = assert_finds(
        check_text(MARKED, with_module("32 DP")), CODE, line=find_line(MARKED), at="lens.focus", cause="motor"
    )
    assert "module 0.794 mm" in finding.says
    assert "they go together by hand, but bind and wear" in finding.says


def test_speaks_alone_of_a_motor_that_is_weak_too() -> None:
    parts = edit_text(with_module("0.5 mm"), ("torque: 0.2 N*m, speed", "torque: 0.01 N*m, speed"))

    assert [finding.code for finding in check_text(MARKED, parts).findings] == [CODE]


def test_does_not_know_of_a_lens_that_states_nothing_and_says_so_once() -> None:
    report = check_text(edit_text(LENS, ("lens: house/lens", "lens: house/lens-bare")), PARTS)

    assert_silent(report, CODE)
    assert [(one.code, one.needs, one.at) for one in report.unknown if one.code.startswith("drive:")] == [
        (CODE, "rings.focus", "lens.focus")
    ]


def test_is_silent_in_a_setup_without_the_lens_or_with_the_motor_off() -> None:
    wrong = with_module("0.5 mm")
    rig = edit_text(
        MARKED,
        (
            "    who: {focus: operator}",
            "    who: {focus: operator}\n  iris_only: {out: [lens]}\n  by_hand: {off: [motor]}",
        ),
    )

    finding = assert_finds(check_text(rig, wrong), CODE, line=find_line(rig), at="lens.focus", cause="motor")
    assert finding.setups == ("two_up",)
