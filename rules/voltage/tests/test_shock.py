"""`voltage:shock`: above 60 V d.c. this tool stops."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD

CODE = "voltage:shock"
LIMIT = 60.0
"""V d.c.: IEC 62368-1, class ES1 (from memory)."""
FAULT = edit_text(HAND_HELD, ("kit:\n", "kit:\n  supply: house/supply-110v  # here\n"))


def test_finds_a_source_above_the_limit() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="supply.out", cause="supply", grade=Grade.HURT
    )
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit) == (110.0, LIMIT)


def test_is_silent_without_it() -> None:
    assert_silent(check_text(HAND_HELD, PARTS), CODE)


def test_is_silent_just_below_the_limit() -> None:
    rig = edit_text(FAULT, ("house/supply-110v", "house/supply-48v"))

    assert_silent(check_text(rig, PARTS), CODE)
