"""The day in `power`: one line."""

from __future__ import annotations

import pytest

from rigmint.report.power import render_power
from rigmint.report.style import Style
from tests.report.power_rigs import SINGLE, make_report
from tests.report.test_power_text import unwrap

SPARES = "also: [{part: house/pack, count: 3}]\n"


def render(rig: str, parts: str = "") -> str:
    """The text, each setup on one line."""
    return unwrap(render_power(make_report(rig, parts=parts), Style()))


def test_the_packs_that_the_day_takes_and_the_watt_hours() -> None:
    """98 Wh at 40 W and about 2 % in lead and battery, to 15 % left, aged to 85 %: 1.75 h, six packs for 10 h."""
    assert (
        "A day of 10 h in this setup takes 6 × house/pack for battery (4 there, 3 of them in the case). Packs for 588 Wh,"
        " 392 Wh there."
    ) in render(SINGLE + SPARES + "needs: {day: 10 h}\n")


def test_a_charger_is_told_by_its_bays() -> None:
    parts = "house/charger: {kind: supply, ports: {bay_1: {connector: 0b-2}, bay_2: {connector: 0b-2}}}\n"
    also = "also: [{part: house/charger, count: 2}]\n"

    assert "(1 there, 0 of them in the case, 4 bays to charge in)" in render(
        SINGLE + also + "needs: {day: 10 h}\n", parts
    )


@pytest.mark.parametrize("rig", [SINGLE, SINGLE + SPARES, "kit: {camera: house/camera}\nneeds: {day: 10 h}\n"])
def test_nothing_where_no_day_is_stated_or_no_battery_is_there(rig: str) -> None:
    assert "A day of" not in render(rig)
