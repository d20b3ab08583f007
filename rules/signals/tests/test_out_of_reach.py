"""`radio:out-of-reach`: a link is asked to reach further than its makers say it does."""

from __future__ import annotations

import math

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import RECORD, put

CODE = "radio:out-of-reach"
LINK = "lens_control: {between: [driver.radio, hand.radio], distance: 50 m, channel: 1}"
FAR = LINK.replace("50 m", "400 m")
FAULT = edit_text(RECORD, (LINK, f"{FAR}  # here"))


def test_finds_a_distance_beyond_the_stated_reach() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE,
        line=find_line(FAULT), at="hand.radio", cause="link:lens_control", grade=Grade.DEAD,
    )  # fmt: skip
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit, finding.measured.unit) == (400.0, 300.0, "m")
    assert finding.says == (
        "hand.radio is 400 m away from driver.radio on link:lens_control; its reach is 300 m in region eu."
    )
    assert finding.fixes[0].says == "Keep hand within 150 m of driver, or use radios that reach further."


def test_is_silent_at_the_distance_of_the_fix() -> None:
    rig = edit_text(FAULT, ("400 m", "150 m"))

    assert_silent(check_text(rig, PARTS), CODE, "radio:near-reach", "radio:control-dies-first")


def test_is_silent_in_a_region_with_more_power() -> None:
    """The us version reaches 600 m: beyond what open ground leaves of it, and not beyond what is stated."""
    assert_silent(check_text(edit_text(FAULT, ("region: eu", "region: us")), PARTS), CODE)


def test_speaks_before_near_reach() -> None:
    codes = {finding.code for finding in check_text(FAULT, PARTS).findings}

    assert codes == {CODE}


@pytest.mark.parametrize(("needs", "found"), [("400 m", True), ("100 m", False)])
def test_takes_what_the_job_needs_where_the_link_states_no_distance(needs: str, found: bool) -> None:
    rig = edit_text(RECORD, (", distance: 50 m", ""), ("where: open", f"needs: {{distance: {needs}}}\nwhere: open"))

    codes = {finding.code for finding in check_text(rig, PARTS).findings}

    assert (CODE in codes) is found


def test_the_distance_of_the_link_wins_over_the_job() -> None:
    rig = edit_text(RECORD, ("where: open", "needs: {distance: 5 km}\nwhere: open"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_a_setup_has_distances_of_its_own() -> None:
    rig = edit_text(
        RECORD,
        ("  day:\n", "  near: {}\n  day:\n    distance:\n      lens_control: 400 m\n"),
        (LINK, f"{LINK}  # here"),
    )

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="hand.radio", cause="link:lens_control"
    )
    assert finding.setups == ("day",)


@pytest.mark.parametrize(("metres", "found"), [(700, True), (400, False)])
def test_without_a_region_only_what_is_out_in_all_of_them_is_found(metres: int, found: bool) -> None:
    rig = edit_text(put(FAULT, "400 m", f"{metres} m"), ("region: eu\n", ""))

    codes = {finding.code for finding in check_text(rig, PARTS).findings}

    assert (CODE in codes) is found


def test_takes_a_free_space_budget_where_no_reach_is_stated() -> None:
    """10 dBm against -90 dBm with 20 dB kept back: 80 dB, at 2410 MHz just under 100 m."""
    limit = 299_792_458 / (4 * math.pi * 2.41e9) * 10 ** (80 / 20)  # free space, Recommendation ITU-R P.525
    rig = edit_text(FAULT, ("driver: house/driver\n", "driver: house/driver-budget\n"),
                    ("hand: house/hand\n", "hand: house/hand-budget\n"))  # fmt: skip

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="hand.radio", cause="link:lens_control"
    )
    assert finding.measured is not None
    assert finding.measured.limit == pytest.approx(limit)
    assert finding.assumed == ("link:lens_control reach",)
    assert "a free-space budget with 20 dB in reserve gives ~99 m" in finding.says


@pytest.mark.parametrize("state", ["off: [hand]", "off: [driver]", "out: [hand]"])
def test_is_silent_where_nobody_sends(state: str) -> None:
    rig = edit_text(FAULT, ("  day:\n", f"  day:\n    {state}\n"), ("{focus: first_ac, record: first_ac}", "{}"))

    assert_silent(check_text(rig, PARTS), CODE)
