"""The harness for authors of packs: no test that uses it passes on nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from rigmint import Grade
from rigmint.testing import (
    BadCase,
    assert_finds,
    assert_pack,
    assert_silent,
    check_text,
    check_texts,
    edit_text,
    find_line,
)

RIG = """\
rigmint: 1
rig: Marrow Lane
kit:
  battery: generic/battery-98wh-wedge
  plate: generic/plate-wedge-two-tap
  recorder: house/recorder
docks: [battery.mount > plate.battery]
leads:
  P1: {part: generic/lead-tap-to-usb-c-raw, from: plate.tap_1, to: recorder.usb}  # here
"""
PARTS = """
rigmint_part: 1
id: house/recorder
name: Recorder
kind: recorder
ports: {usb: {connector: usb-c, sex: socket, role: in}}
rails: {main: {load: 2 W}}
"""
RECORDER_ON_A_PLUG = """
rigmint_connectors: 1
connectors: {house-3: {name: House plug, contacts: [1, 2, 3]}}
"""


def test_gives_back_the_finding() -> None:
    report = check_text(RIG, PARTS)

    finding = assert_finds(report, "voltage:over", line=find_line(RIG), at="recorder.usb", cause="P1", grade=Grade.BURN)
    assert finding.setups == ("as_wired",)
    assert report.file == "case.rig.yaml"


@pytest.mark.parametrize(
    ("code", "line", "at", "cause", "grade"),
    [
        ("voltage:over", 1, "recorder.usb", "P1", None),
        ("voltage:over", 9, "plate.tap_1", "P1", None),
        ("voltage:over", 9, "recorder.usb", "battery", None),
        ("voltage:over", 9, "recorder.usb", "P1", Grade.THIN),
        ("polarity:reversed", 9, "recorder.usb", "P1", None),
    ],
)
def test_an_expectation_that_is_not_met_fails(code: str, line: int, at: str, cause: str, grade: Grade | None) -> None:
    with pytest.raises(AssertionError, match=r"case\.rig\.yaml\n  line 9: burn voltage:over"):
        assert_finds(check_text(RIG, PARTS), code, line=line, at=at, cause=cause, grade=grade)


def test_another_finding_beside_it_fails() -> None:
    rig = edit_text(RIG, ("  recorder:", "  driver: generic/motor-driver-one\n  recorder:"))
    rig += "  P2: {part: generic/lead-tap-to-2pin-plus-first, from: plate.tap_2, to: driver.dc_in}\n"

    with pytest.raises(AssertionError, match="polarity:reversed came"):
        assert_finds(check_text(rig, PARTS), "voltage:over", line=10, at="recorder.usb", cause="P1")


def test_silence_is_of_the_code_and_of_what_is_worse() -> None:
    report = check_text(RIG, PARTS)

    with pytest.raises(AssertionError, match="voltage:over was not due"):
        assert_silent(report, "voltage:over", worst=Grade.HURT)
    with pytest.raises(AssertionError, match="at `fight` or above"):
        assert_silent(report, "polarity:reversed")
    assert_silent(report, "polarity:reversed", worst=Grade.HURT)


@pytest.mark.parametrize(
    ("rig", "parts", "says"),
    [
        ("", PARTS, "could not be checked"),
        (RIG + "lead: {}\n", PARTS, "file:unknown-key"),
        (RIG, PARTS + "prots: {}\n", "file:unknown-key"),
        (RIG, None, "file:unknown-name"),
    ],
)
def test_text_that_cannot_be_read_is_no_case(rig: str, parts: str | None, says: str) -> None:
    with pytest.raises(BadCase, match=says):
        check_text(rig, parts)


def test_a_code_of_no_rule_is_no_case() -> None:
    report = check_text(RIG, PARTS)

    with pytest.raises(BadCase, match="voltage:ovr"):
        assert_silent(report, "voltage:ovr")
    with pytest.raises(BadCase, match="voltage:ovr"):
        assert_finds(report, "voltage:ovr", line=9, at="recorder.usb", cause="P1")


def test_no_rigs_are_no_case() -> None:
    with pytest.raises(BadCase, match="no rigs"):
        check_texts({}, {})


def test_checks_several_rigs_by_name() -> None:
    sound = edit_text(RIG, ("lead-tap-to-usb-c-raw", "lead-tap-to-usb-c-5v"))

    reports = check_texts({"raw": RIG, "regulated": sound}, {"own.part.yaml": PARTS})

    assert [report.file for report in reports.values()] == ["raw.rig.yaml", "regulated.rig.yaml"]
    assert_silent(reports["regulated"], "voltage:over")


def test_takes_connectors_and_protocols_of_its_own() -> None:
    parts = edit_text(PARTS, ("connector: usb-c", "connector: house-3, pins: {1: minus, 2: plus}, speaks: [house-bus]"))
    protocols = "rigmint_protocols: 1\nprotocols: {house-bus: {name: House bus, carries: [focus], wires: [data]}}\n"
    rig = edit_text(RIG, ("generic/lead-tap-to-usb-c-raw", "generic/lead-tap-to-2pin"))

    report = check_text(rig, parts, RECORDER_ON_A_PLUG, protocols)

    assert report.items == 3


@pytest.mark.parametrize("text", ["a\nb\n", "# here\n# here\n"])
def test_a_mark_stands_on_one_line(text: str) -> None:
    with pytest.raises(BadCase, match="must stand on one line"):
        find_line(text)


@pytest.mark.parametrize("change", [("x", "y"), ("b", "c"), ("a", "a"), ("", "c")])
def test_an_edit_changes_one_place(change: tuple[str, str]) -> None:
    with pytest.raises(BadCase, match="must stand in the text once"):
        edit_text("a b b", change)


def test_a_pack_without_its_files_is_not_whole(tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match=r"and no tests/test_no_return\.py"):
        assert_pack("polarity", tmp_path)
    with pytest.raises(BadCase, match="no pack `colour`"):
        assert_pack("colour", tmp_path)
