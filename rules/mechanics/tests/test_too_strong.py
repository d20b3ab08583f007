"""`drive:too-strong`: calibration breaks the ring."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import LENS

CODE = "drive:too-strong"
MARKED = edit_text(LENS, ("set: {axis: focus}}", "set: {axis: focus}}  # here"))
DELICATE = edit_text(PARTS, ("stands: 1.5 N*m", "stands: 0.3 N*m"))
BY_DRIVER = ("part: house/motor,", "part: house/motor-bare,")


def test_finds_stops_that_stand_less() -> None:
    """0.1 N*m x 130 / 40 = 0.325 N*m."""
    finding = assert_finds(
        check_text(MARKED, DELICATE), CODE, line=find_line(MARKED), at="lens.focus", cause="motor", grade=Grade.BURN
    )
    assert finding.says == (
        "motor seeks the stops of lens.focus with 0.33 N*m through 40 : 130 teeth; they stand 0.3 N*m."
    )
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(0.325)
    assert [fix.says for fix in finding.fixes[:2]] == [
        "Set motor.calibration to manual, and set the ends of lens.focus by hand.",
        "Fit a gear of 44 teeth or more to motor instead of 40: it then brings 0.59 N*m to the ring and takes 0.9 s"
        " from end to end.",
    ]
    assert finding.fixes[0].edits[0].path == ("settings", "motor.calibration")


def test_is_silent_where_the_stops_stand_it() -> None:
    assert_silent(check_text(LENS, PARTS), CODE, "drive:no-stops")


@pytest.mark.parametrize("setting", ["motor.calibration: manual", "driver.calibration: manual"])
def test_is_silent_where_it_is_calibrated_by_hand(setting: str) -> None:
    rig = edit_text(LENS, ("setups:", f"settings: {{{setting}}}\nsetups:"))

    assert_silent(check_text(rig, DELICATE), CODE)


def test_finds_a_bare_motor_that_its_driver_calibrates() -> None:
    rig = edit_text(MARKED, BY_DRIVER)

    finding = assert_finds(check_text(rig, DELICATE), CODE, line=find_line(rig), at="lens.focus", cause="motor")
    assert finding.fixes[0].says.startswith("Set driver.calibration to manual")


def test_is_silent_on_a_bare_motor_whose_driver_is_set_to_manual() -> None:
    rig = edit_text(
        LENS, BY_DRIVER, ("driver: house/driver", "driver: {part: house/driver, set: {calibration: manual}}")
    )

    assert_silent(check_text(rig, DELICATE), CODE)


def test_is_silent_on_a_bare_motor_in_a_setup_without_the_desk() -> None:
    """The driver is set to manual whoever sends to it."""
    rig = edit_text(
        LENS,
        BY_DRIVER,
        ("driver: house/driver", "driver: {part: house/driver, set: {calibration: manual}}"),
        ("    who: {focus: operator}", "    who: {}\n    out: [desk]"),
    )

    assert_silent(check_text(rig, DELICATE), CODE)


@pytest.mark.parametrize(
    ("change", "needs", "at"),
    [
        ((", stands: 0.3 N*m", ""), "stands", "lens.focus"),
        (("calibration: 0.1 N*m,\n            calibrates: {when: {calibration: automatic}}", "teeth: 40"), "calibration", "motor"),
        (("      calibration: {values: [automatic, manual], default: automatic}\n    moves", "      calibration: {values: [automatic, manual]}\n    moves"), "calibration", "motor.set.calibration"),
    ],
)  # fmt: skip
def test_does_not_know_without_a_figure_or_a_setting(change: tuple[str, str], needs: str, at: str) -> None:
    parts = edit_text(DELICATE, change)
    if "teeth: 40" in change[1]:
        parts = edit_text(parts, ("module: 0.8 mm, teeth: 40, torque", "module: 0.8 mm, torque"))
    report = check_text(LENS, parts)

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [(needs, at)]


def test_is_silent_on_a_motor_that_never_calibrates() -> None:
    parts = edit_text(DELICATE, ("calibrates: {when: {calibration: automatic}}}\n\n  - rigmint_part: 1\n    id: house/motor-bare", "calibrates: never}\n\n  - rigmint_part: 1\n    id: house/motor-bare"))  # fmt: skip

    assert_silent(check_text(LENS, parts), CODE)
