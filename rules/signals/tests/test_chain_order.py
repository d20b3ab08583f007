"""`fit:chain-order`: a device that is not next to what it must be next to."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .fit_parts import FIT_PARTS
from .fit_rigs import LENS

CODE = "fit:chain-order"
BESIDE = edit_text(
    LENS,
    ("  lens: house/lens\n", "  lens: house/lens\n  finder: {part: house/finder, set: {assist: on}}\n"),
    ("  R1:", "  F1: {part: house/lead-finder, from: driver.finder, to: finder.data}\n  R1:"),
)
FAULT = edit_text(
    BESIDE,
    ("F1: {part: house/lead-finder, from: driver.finder, to: finder.data}",
     "F1: {part: house/lead-bus, from: motor.bus_2, to: finder.bus}  # here"),
)  # fmt: skip


def test_finds_a_range_finder_behind_a_motor() -> None:
    finding = assert_finds(
        check_text(FAULT, FIT_PARTS), CODE, line=find_line(FAULT), at="finder", cause="F1", grade=Grade.DEAD
    )
    assert finding.says == (
        "finder must be next to a motor driver in the chain (finder.assist is on), and F1 joins it to motor.bus_2."
    )
    assert finding.fixes[0].says == "Plug F1 into driver.bus_2 instead of motor.bus_2."
    assert [edit.value for edit in finding.fixes[0].edits] == ["driver.bus_2"]


def test_is_silent_where_it_sits_beside_the_driver() -> None:
    assert_silent(check_text(BESIDE, FIT_PARTS), CODE)


def test_is_silent_where_it_sits_between_driver_and_motor() -> None:
    """The chain may go on behind it."""
    parts = edit_text(
        FIT_PARTS,
        (
            "{from: assist, to: [data, bus], axes: focus}",
            "{from: assist, to: [data, bus], axes: focus}, {from: data, to: bus}",
        ),
    )
    rig = edit_text(BESIDE, ("from: driver.bus, to: motor.bus_1", "from: finder.bus, to: motor.bus_1"),
                    ("  D1: {part: house/lead-head, from: driver.head, to: head.accessory}\n", ""))  # fmt: skip

    assert not [one for one in check_text(rig, parts).findings if one.code == CODE]


def test_is_silent_where_the_assist_is_off() -> None:
    assert_silent(check_text(edit_text(FAULT, ("set: {assist: on}", "set: {assist: off}")), FIT_PARTS), CODE)


def test_is_silent_where_the_finder_is_off() -> None:
    assert_silent(check_text(FAULT + "    off: [finder]\n", FIT_PARTS), CODE)


def test_cannot_judge_an_assist_that_nobody_wrote_down() -> None:
    report = check_text(edit_text(FAULT, (", set: {assist: on}", "")), FIT_PARTS)

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("finder.set.assist", "finder")]


def test_finds_one_that_is_plugged_into_nothing() -> None:
    rig = edit_text(
        BESIDE,
        ("  F1: {part: house/lead-finder, from: driver.finder, to: finder.data}\n", ""),
        ("set: {assist: on}}", "set: {assist: on}}  # here"),
    )

    assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="finder", cause="finder")


def test_names_a_port_for_another_lead_where_this_one_finds_none() -> None:
    rig = edit_text(FAULT, ("  R1:", "  B2: {part: house/lead-bus, from: driver.bus_2, to: loose}\n  R1:"))

    finding = assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="finder", cause="F1")
    assert finding.fixes[0].says == "Join finder to driver.finder instead, by a lead of its own."
