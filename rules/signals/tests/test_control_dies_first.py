"""`radio:control-dies-first`: the picture goes on where control has stopped."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import AIR

CODE = "radio:control-dies-first"
LINK = "lens_control: {between: [driver.radio, hand.radio], distance: 100 m, channel: 1}"
BARE = LINK.replace(", distance: 100 m", "")
FAULT = edit_text(AIR, (LINK, f"{BARE}  # here"))


def test_finds_control_that_the_picture_outlives_at_an_unknown_distance() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE,
        line=find_line(FAULT), at="hand.radio", cause="link:lens_control", grade=Grade.THIN,
    )  # fmt: skip
    assert finding.says == (
        "hand loses link:lens_control at about 150 m, while the picture on mon_ac.screen goes on to 600 m or further,"
        " and nobody states how far away they work."
    )
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit) == (150.0, 600.0)
    assert finding.fixes[0].says == "Keep hand within 150 m of driver, or use radios that reach further."


def test_is_silent_where_the_distance_is_stated_and_short() -> None:
    assert_silent(check_text(AIR, PARTS), CODE)


def test_is_silent_where_the_job_is_near() -> None:
    assert_silent(check_text(edit_text(FAULT, ("where: open", "needs: {distance: 100 m}\nwhere: open")), PARTS), CODE)


def test_leaves_a_stated_distance_beyond_the_reach_to_near_reach() -> None:
    rig = edit_text(AIR, (LINK, LINK.replace("100 m", "250 m")))

    assert {finding.code for finding in check_text(rig, PARTS).findings} == {"radio:near-reach"}


def test_is_silent_where_the_picture_ends_first() -> None:
    parts = edit_text(PARTS, ("speaks: [picture-air]\n        band: 5150 to 5850 MHz\n        reach: {eu: 1200 m, us: 3000 m}\n        peers: 3",
                              "speaks: [picture-air]\n        band: 5150 to 5850 MHz\n        reach: {eu: 250 m, us: 250 m}\n        peers: 3"))  # fmt: skip

    assert_silent(check_text(FAULT, parts), CODE)


def test_is_silent_where_only_somebody_else_sees_the_picture_further_out() -> None:
    """The first AC pulls by a monitor on a lead beside the camera; only the operator watches by radio."""
    rig = edit_text(
        FAULT,
        ("  mon_ac: {part: house/monitor-air, set: {slot: b}}\n", "  mon_ac: house/monitor\n"),
        ("leads:\n", "leads:\n  S2: {part: house/coax, from: camera.sdi_hd, to: mon_ac.sdi_in}\n"),
        (", mon_ac.radio]", "]"),
    )

    assert_silent(check_text(rig, PARTS), CODE)


def test_takes_a_screen_that_is_in_nobodys_crew() -> None:
    rig = edit_text(FAULT, ("crew: {operator: [mon_op], first_ac: [hand, mon_ac]}", "crew: {first_ac: [hand]}"))

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="hand.radio", cause="link:lens_control")


def test_does_not_need_to_know_the_place() -> None:
    """Whatever it is, it takes the same share of both: 1200 m outlive 300 m even at its worst."""
    rig = edit_text(FAULT, ("where: open\n", ""))

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="hand.radio", cause="link:lens_control")


def test_is_silent_where_nobody_is_meant_to_control_over_the_link() -> None:
    rig = edit_text(FAULT, ("who: {focus: first_ac}", "who: {focus: operator}"))

    codes = {finding.code for finding in check_text(rig, PARTS).findings}

    assert CODE not in codes
