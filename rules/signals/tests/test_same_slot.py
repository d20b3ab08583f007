"""`radio:same-slot`: two receivers on one slot of a sender."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import AIR

CODE = "radio:same-slot"
AC = "  mon_ac: {part: house/monitor-air, set: {slot: b}}\n"
FAULT = edit_text(AIR, (AC, "  mon_ac:\n    part: house/monitor-air\n    set:\n      slot: a  # here\n"))


def test_finds_two_monitors_on_one_slot() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE,
        line=find_line(FAULT), at="link:picture", cause="mon_ac.set.slot", grade=Grade.DEAD,
    )  # fmt: skip
    assert finding.says == (
        "mon_op and mon_ac sit on slot a of link:picture, which answers one: they shut each other out."
    )
    assert finding.also == ("mon_ac.radio", "mon_op.radio")
    assert finding.fixes[0].says == "Set mon_ac.slot to b."
    assert [(edit.path, edit.value) for edit in finding.fixes[0].edits] == [(("kit", "mon_ac", "set", "slot"), "b")]


def test_sets_the_slot_in_the_setup_that_states_it() -> None:
    rig = edit_text(
        AIR, ("    who: {focus: first_ac}", "    set:\n      mon_ac.slot: a  # here\n    who: {focus: first_ac}")
    )

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="link:picture", cause="mon_ac.set.slot"
    )
    assert [edit.path for edit in finding.fixes[0].edits] == [("setups", "day", "set", "mon_ac.slot")]


def test_is_silent_on_slots_of_their_own() -> None:
    assert_silent(check_text(AIR, PARTS), CODE)


def test_is_silent_on_a_shared_slot() -> None:
    rig = edit_text(AIR, ("slot: a", "slot: watch"), ("slot: b", "slot: watch"))

    assert_silent(check_text(rig, PARTS), CODE)


@pytest.mark.parametrize("state", ["off: [mon_ac]", "out: [mon_op]"])
def test_is_silent_where_one_of_them_is_not_on(state: str) -> None:
    assert_silent(check_text(edit_text(FAULT, ("  day:\n", f"  day:\n    {state}\n")), PARTS), CODE)


def test_is_silent_in_two_links() -> None:
    """Each sender has slots of its own."""
    rig = edit_text(
        FAULT,
        ("  sender: house/sender\n", "  sender: house/sender\n  sender_2: house/sender\n"),
        (", mon_ac.radio], distance", "], distance"),
        ("leads:\n", "leads:\n  S2: {part: house/coax, from: camera.sdi_hd, to: sender_2.sdi_in}\n"),
        ("fitted:", "  second: {between: [sender_2.radio, mon_ac.radio], distance: 100 m, channel: 40}\nfitted:"),
    )

    assert_silent(check_text(rig, PARTS), CODE)


def test_says_which_slot_nobody_states() -> None:
    report = check_text(edit_text(AIR, (AC, "  mon_ac: house/monitor-air\n")), PARTS)

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("slot", "mon_ac.set.slot")]


def test_gives_way_to_a_hub_that_is_full() -> None:
    parts = edit_text(PARTS, ("peers: 3", "peers: 1"))

    codes = {finding.code for finding in check_text(FAULT, parts).findings}

    assert "radio:too-many" in codes
    assert CODE not in codes
