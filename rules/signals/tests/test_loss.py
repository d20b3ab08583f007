"""`radio:loss`: what a head does when its link drops, where that can hit people."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import put

CODE = "radio:loss"
FAULT = """\
rigmint: 1
rig: Saltmarsh, head on a crane
on: crane
where: open
region: eu
kit:
  head: {part: house/head, bond: true}  # here
  desk: house/desk
links:
  control: {between: [head.radio, desk.radio], distance: 50 m}
crew: {operator: [desk]}
setups:
  day:
    who: {pan: operator}
"""


def test_finds_a_head_that_does_not_state_what_it_does() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="head", cause="head", grade=Grade.HURT
    )
    assert finding.says == "head does what nobody states when link:control drops, on a crane, where it can hit people."
    assert finding.fixes[0].says.startswith("Try it: drive head, switch the hand's radio off, and see that it holds;")


def test_is_silent_where_the_head_holds() -> None:
    assert_silent(check_text(edit_text(FAULT, ("house/head,", "house/head-holds,")), PARTS), CODE)


@pytest.mark.parametrize(
    ("place", "said"),
    [("crane", "on a crane"), ("overhead", "overhead"), ("cable", "on a cable"), ("vehicle", "on a vehicle")],
)
def test_finds_a_head_that_goes_on(place: str, said: str) -> None:
    rig = put(edit_text(FAULT, ("house/head,", "house/head-goes-on,")), "on: crane", f"on: {place}")

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="head", cause="head")
    assert finding.says == f"head goes on moving when link:control drops, {said}, where it can hit people."
    assert finding.fixes[0].says == "Drive head by a line, or use a head that holds when its link drops."


@pytest.mark.parametrize("place", ["hand", "tripod", "studio"])
def test_is_silent_where_it_hits_nobody(place: str) -> None:
    assert_silent(check_text(edit_text(FAULT, ("on: crane", f"on: {place}")), PARTS), CODE)


def test_says_so_where_nobody_states_what_it_stands_on() -> None:
    report = check_text(edit_text(FAULT, ("on: crane\n", "")), PARTS)

    assert_silent(report, CODE)
    assert [(one.code, one.needs, one.at) for one in report.unknown if one.code == CODE] == [(CODE, "on", "head")]


@pytest.mark.parametrize("state", ["out: [desk]", "off: [head]", "off: [desk]"])
def test_is_silent_where_nobody_drives_it_by_radio(state: str) -> None:
    rig = edit_text(FAULT, ("  day:\n", f"  day:\n    {state}\n"), ("who: {pan: operator}", "who: {}"))

    assert_silent(check_text(rig, PARTS), CODE)
