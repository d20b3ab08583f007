"""`fit:firmware`: a device whose firmware is not what another needs."""

from __future__ import annotations

import pytest
from rigmint_signals.firmware import meets

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .fit_parts import FIT_PARTS
from .test_chain_order import BESIDE

CODE = "fit:firmware"
FAULT = edit_text(BESIDE, ('firmware: "2.1"}', 'firmware: "2.0.9"}  # here'))


def test_finds_a_driver_that_is_behind() -> None:
    finding = assert_finds(
        check_text(FAULT, FIT_PARTS), CODE, line=find_line(FAULT), at="finder", cause="driver", grade=Grade.DEAD
    )
    assert finding.says == (
        "finder needs firmware 2.1 or later on driver while finder.assist is on, and driver has 2.0.9."
    )
    assert [fix.says for fix in finding.fixes] == [
        "Load firmware 2.1 or later on driver.", "Set finder.assist to off and do without.",
    ]  # fmt: skip
    assert [edit.value for edit in finding.fixes[1].edits] == ["off"]


def test_is_silent_where_it_is_new_enough() -> None:
    assert_silent(check_text(BESIDE, FIT_PARTS), CODE)


def test_is_silent_where_nothing_needs_it() -> None:
    assert_silent(check_text(edit_text(FAULT, ("set: {assist: on}", "set: {assist: off}")), FIT_PARTS), CODE)


def test_is_silent_on_a_driver_that_it_is_not_joined_to() -> None:
    rig = edit_text(
        BESIDE, ("  hand: house/hand\n", '  hand: house/hand\n  driver_b: {part: house/driver, firmware: "1.0"}\n')
    )

    assert_silent(check_text(rig, FIT_PARTS), CODE)


@pytest.mark.parametrize("firmware", ["", ', firmware: "2.1b"'])
def test_cannot_judge_a_firmware_that_is_not_known(firmware: str) -> None:
    report = check_text(edit_text(BESIDE, (', firmware: "2.1"', firmware)), FIT_PARTS)

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("firmware", "driver")]


@pytest.mark.parametrize(
    ("firmware", "needed", "due"),
    [
        ("2.10", ">=2.9", True),
        ("2.0", ">=2", True),
        ("2", ">=2.0.1", False),
        ("2.0.0", "==2", True),
        ("1.9.9", "<2.0", True),
        ("2.0", "<2", False),
        ("2.0", "<= 2", True),
        ("2.1", "> 2.1", False),
        (None, ">=1", None),
        ("beta", ">=1", None),
    ],
)
def test_compares_dotted_numbers(firmware: str | None, needed: str, due: bool | None) -> None:
    assert meets(firmware, needed) is due
