"""`payload:no-bond`: nothing holds it when its mount lets go."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import FLOWN

CODE = "payload:no-bond"
BARE = edit_text(
    FLOWN,
    ("head: {part: house/head, bond: true}", "head: house/head  # here"),
    ("lens: {part: house/lens, bond: true}", "lens: house/lens"),
)


@pytest.mark.parametrize("on", ["vehicle", "crane", "overhead", "cable"])
def test_finds_head_and_lens_without_a_bond_in_one_roll_up(on: str) -> None:
    rig = edit_text(BARE, ("on: vehicle", f"on: {on}  # what it is on"))

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="head", cause="head", grade=Grade.HURT)
    assert finding.says.startswith("head and lens have no safety bonds of their own ")
    assert finding.also == ("lens",)
    assert finding.fixes[0].edits == ()  # to write it down is not to fit it


def test_finds_one_item_whose_entry_is_a_mapping() -> None:
    rig = edit_text(FLOWN, ("lens: {part: house/lens, bond: true}", "lens: {part: house/lens}  # here"))

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lens", cause="lens")
    assert finding.says == "lens has no safety bond of its own on a vehicle."


def test_is_silent_with_bonds() -> None:
    assert_silent(check_text(FLOWN, PARTS), CODE)


@pytest.mark.parametrize("on", ["hand", "tripod", "studio"])
def test_is_silent_where_nothing_falls_on_people(on: str) -> None:
    assert_silent(check_text(edit_text(BARE, ("on: vehicle", f"on: {on}  # what it is on")), PARTS), CODE)


def test_is_silent_on_what_is_light_or_away() -> None:
    rig = edit_text(FLOWN, ("docks:", "  cue: generic/cue-light\n  spare: {part: house/battery, rides: away}\ndocks:"))

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_right_per_setup() -> None:
    rig = edit_text(BARE, ("  chase:\n    says: As it stands", "  chase: {on: hand}\n  crane: {on: crane}"))

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="head", cause="head")
    assert finding.setups == ("crane",)


def test_asks_what_the_rig_is_on() -> None:
    report = check_text(edit_text(BARE, ("on: vehicle\n", "")), PARTS)

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("on", "head")]


def test_asks_once_for_the_masses_of_items_without_a_bond() -> None:
    rig = edit_text(FLOWN, ("lens: {part: house/lens, bond: true}", "lens: house/lens\n  second: house/lens-bare"))
    report = check_text(rig, edit_text(PARTS, ("kind: lens\n    mass: 1 kg\n", "kind: lens\n")))

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("mass of lens and second", "lens")]
