"""`payload:under`: a head or an arm carries less than it works with."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import FLOWN

CODE = "payload:under"
MARKED = edit_text(FLOWN, ("arm: house/arm", "arm: house/arm  # here"))
HEAVY_ARM = edit_text(PARTS, ("payload: {min: 5 kg, max: 12 kg}", "payload: {min: 8 kg, max: 20 kg}"))
WEIGHT = (
    "docks:",
    "  weight: {part: generic/counterweight-1kg, bond: true}\n  more: {part: generic/counterweight-1kg, bond: true}\ndocks:",
)


def test_finds_an_arm_under_its_minimum() -> None:
    """head 3 kg, camera 2 kg, lens 1 kg."""
    finding = assert_finds(
        check_text(MARKED, HEAVY_ARM), CODE, line=find_line(MARKED), at="arm", cause="arm", grade=Grade.THIN
    )
    assert finding.says == (
        "arm carries 6.0 kg (head 3.0 kg, camera 2.0 kg, lens 1.0 kg), and works from 8.0 kg: it stays at its upper stop,"
        " and takes no shock."
    )
    assert finding.fixes[0].says == "Add 2.0 kg of counterweight, near the balance point."
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(6.0)


def test_is_silent_with_the_counterweight() -> None:
    parts = edit_text(HEAVY_ARM, ("payload: {min: 1 kg, max: 4 kg}", "payload: {min: 1 kg, max: 9 kg}"))

    assert_silent(check_text(edit_text(FLOWN, WEIGHT), parts), CODE)


def test_finds_a_head_under_its_minimum_whatever_rides_below() -> None:
    rig = edit_text(
        FLOWN,
        ("head: {part: house/head, bond: true}", "head: {part: house/head, bond: true}  # here"),
        ("docks:", "  below: {part: house/battery, rides: base, bond: true}\ndocks:"),
    )
    parts = edit_text(PARTS, ("payload: {min: 1 kg, max: 4 kg}", "payload: {min: 3.5 kg, max: 9 kg}"))

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="head", cause="head")
    assert "its motors hunt" in finding.says


def test_is_silent_on_an_arm_that_carries_nothing() -> None:
    """Looks empty: the head went to another mount in this setup."""
    rig = edit_text(FLOWN, ("    says: As it stands", "    out: [head, camera, lens]"))

    assert_silent(check_text(rig, PARTS), CODE, "payload:no-bond")


def test_does_not_know_where_something_has_no_mass() -> None:
    parts = edit_text(HEAVY_ARM, ("kind: lens\n    mass: 1 kg\n", "kind: lens\n"))
    report = check_text(FLOWN, parts)

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("mass of lens", "arm")]
