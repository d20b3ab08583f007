"""The bar that shows where in its window a port sits."""

from __future__ import annotations

import pytest

from rigmint.report.power_bar import NARROW, WIDE, draw_bar, name_outside
from rigmint.report.style import Style
from rigmint.rig.electric import Window

TWELVE = Window(11.0, 17.0)


@pytest.mark.parametrize(
    ("volts", "bar"),
    [
        (11.0, "[o-----------]"),
        (11.2, "[o-----------]"),
        (14.0, "[------o-----]"),
        (16.9, "[-----------o]"),
        (17.0, "[-----------o]"),
        (10.9, "o too low     "),
        (0.0, "o too low     "),
        (-0.3, "o too low     "),
        (-0.4, "o reversed    "),
        (17.1, "    too high o"),
    ],
)
def test_bar(volts: float, bar: str) -> None:
    assert draw_bar(volts, TWELVE, WIDE, Style()) == bar


@pytest.mark.parametrize("volts", [-14.0, 0.0, 11.0, 12.3, 17.0, 24.0])
@pytest.mark.parametrize("width", [NARROW, WIDE])
@pytest.mark.parametrize("is_ascii", [True, False])
def test_a_bar_has_its_width_and_a_word_outside(volts: float, width: int, is_ascii: bool) -> None:
    bar = draw_bar(volts, TWELVE, width, Style(is_ascii=is_ascii))

    assert len(bar) == width
    assert bar.isascii() is is_ascii
    assert (name_outside(volts, TWELVE) != "") is any(word in bar for word in ("too low", "too high", "reversed"))


def test_a_window_of_no_width() -> None:
    assert draw_bar(12.0, Window(12.0, 12.0), NARROW, Style()) == "[o-------]"
