"""JUnit XML: valid in the form that CI systems share, and what they make of it.

The schema in `junit_schema.xsd` is from memory: there is no published standard.
"""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import xmlschema

from rigmint.library.faults import Fault
from rigmint.lint.results import Report, ReportedFinding, State
from rigmint.report.junit import render_junit
from rigmint.words import Grade
from tests.report.results import (
    ACCEPTED,
    HOSTILE,
    OVER,
    REACHABLE,
    RIG_FILE,
    UNKNOWN_NAME,
    WANTS_FIGURE,
    make_file,
    make_report,
)

CODES = ("backfeed:into-output", "follow:reachable", "voltage:over", "voltage:under")
CRASH = Fault(RIG_FILE, 1, 1, "rule:crashed", "rule voltage:under of pack voltage 0.1.0 failed: KeyError: 'a'")
BROKEN_PACK = Fault("kestrel-house", 1, 1, "pack:broken", "pack kestrel-house 0.1.0 cannot be imported")


@cache
def load_xsd() -> xmlschema.XMLSchema:
    return xmlschema.XMLSchema(Path(__file__).parent / "junit_schema.xsd")


def report_on(*findings: ReportedFinding, **changes: Any) -> Report:
    file = make_file(findings=findings, **changes)
    return make_report(file, codes={file.file: CODES})


def render(report: Report, *, strict: bool = False) -> ET.Element:
    """The parsed document, which must be valid."""
    text = render_junit(report, strict=strict)
    load_xsd().validate(text.encode())
    return ET.fromstring(text.encode())


def show_cases(root: ET.Element) -> dict[str, str]:
    """Name of each case to its outcome."""
    outcomes = ("failure", "error", "skipped")
    return {
        str(case.get("name")): next((one for one in outcomes if case.find(one) is not None), "passed")
        for case in root.iter("testcase")
    }


@pytest.mark.parametrize(
    ("findings", "cases"),
    [
        ((), {}),
        ((OVER,), {"voltage:over": "failure"}),
        # Below the library's `fail_on`: the run does not fail, and neither does the case.
        ((REACHABLE,), {}),
        ((ACCEPTED,), {"backfeed:into-output": "skipped"}),
        ((replace(OVER, state=State.UNCHANGED),), {}),
        ((replace(OVER, state=State.NEW),), {"voltage:over": "failure"}),
        ((OVER, replace(OVER, accepted=ACCEPTED.accepted, setups=("solo",))), {"voltage:over": "failure"}),
    ],
)
def test_a_case_for_each_rule(findings: tuple[ReportedFinding, ...], cases: dict[str, str]) -> None:
    report = report_on(*findings)

    assert show_cases(render(report)) == {**dict.fromkeys(CODES, "passed"), **cases}
    assert ("failure" in cases.values()) is (report.status(strict=False) == 1)


def test_counts_are_those_of_the_cases() -> None:
    root = render(replace(report_on(OVER, ACCEPTED, unread=(UNKNOWN_NAME,)), unread=(BROKEN_PACK,)))
    keys = ("tests", "failures", "errors", "skipped")
    suites = [(suite.get("name"), *(suite.get(key) for key in keys)) for suite in root]

    assert suites == [(RIG_FILE, "5", "1", "1", "1"), ("packs", "1", "0", "1", "0")]
    assert [root.get(key) for key in keys] == ["6", "1", "2", "1"]


def test_what_a_failure_says() -> None:
    other = replace(
        OVER, says="camera.dc_in is destroyed above 18 V.", cause="P5", at="camera.dc_in", path=(), fixes=()
    )
    case = next(
        one for one in render(report_on(OVER, other, REACHABLE)).iter("testcase") if one.find("failure") is not None
    )
    failure = case.find("failure")
    assert failure is not None

    assert (case.get("classname"), case.get("name")) == ("saltmarsh-two-up", "voltage:over")
    assert (failure.get("type"), failure.get("message")) == ("burn", f"{OVER.says} And 1 more.")
    assert str(failure.text).splitlines() == [
        f"burn, line 48, two_up, solo: {OVER.says}",
        "battery > plate.tap_2 > P4 > motor_f.bus_1 > motor_f.bus_2 > D6 > handgrip.usb",
        "Fix: take out P4. The handgrip already feeds motor_f through D6.",
        f"burn, line 48, two_up, solo: {other.says}",
    ]


def test_what_passes_is_told_all_the_same() -> None:
    root = render(report_on(REACHABLE))
    (printed,) = [
        case.findtext("system-out") for case in root.iter("testcase") if case.get("name") == "follow:reachable"
    ]

    assert str(printed).startswith("thin, line 7, solo: desk.mode_button steps head to pan_follow")


def test_who_signed_is_said() -> None:
    (skipped,) = render(report_on(ACCEPTED)).iter("skipped")

    assert skipped.get("message") == "accepted: Diode fitted inside the sleeve (signed by prep lead, until 2027-03-01)"


@pytest.mark.parametrize(("strict", "outcome"), [(False, "skipped"), (True, "error")])
def test_what_could_not_be_judged(strict: bool, outcome: str) -> None:
    root = render(report_on(unknown=(WANTS_FIGURE,)), strict=strict)

    assert show_cases(root)["voltage:under"] == outcome


def test_a_file_that_cannot_be_read_is_an_error_and_claims_nothing_else() -> None:
    faults = (UNKNOWN_NAME, replace(UNKNOWN_NAME, line=20))
    root = render(report_on(setups=(), unread=faults))
    (error,) = root.iter("error")

    assert show_cases(root) == {"file:unknown-name": "error"}
    assert len(str(error.text).splitlines()) == 2
    assert str(error.text).startswith(f"{RIG_FILE}, line 12: `camera.dcin`")


def test_where_a_rule_crashed_no_silent_rule_is_called_clear() -> None:
    cases = show_cases(render(report_on(OVER, REACHABLE, unread=(CRASH,))))

    assert cases == {
        "rule:crashed": "error",
        "backfeed:into-output": "skipped",
        "follow:reachable": "passed",
        "voltage:over": "failure",
        "voltage:under": "skipped",
    }


def test_a_file_name_is_no_package() -> None:
    (case, *_) = render(make_report(make_file(file="rigs/a.rig.yaml", findings=(OVER,)), fail_on={"rigs/a.rig.yaml": Grade.FIGHT})).iter("testcase")  # fmt: skip

    assert case.get("classname") == "rigs/a"


def test_what_xml_has_no_place_for_is_shown_as_its_escape() -> None:
    """XML 1.0, section 2.2: of the characters below U+0020 only tab and line breaks; no surrogates, no U+FFFE."""
    says = f"{HOSTILE}\x00\x0b\ufffe]]>&lt;"
    finding = replace(OVER, says=says, path=(HOSTILE,), fixes=(replace(OVER.fixes[0], says=HOSTILE),))
    unread = Fault(f"{HOSTILE}.rig.yaml", 3, 1, "file:not-yaml", HOSTILE)
    report = replace(report_on(finding, file=f"{HOSTILE}.rig.yaml"), unread=(unread,))
    report = replace(report, fail_on={report.files[0].file: Grade.FIGHT})
    text = render_junit(report, strict=False)
    (failure,) = render(report).iter("failure")

    assert {character for character in text if not character.isprintable()} == {"\n"}
    assert "<script>" not in text
    assert r"\x00\x0b\ufffe]]>&lt;" in str(failure.get("message"))


def test_the_same_report_gives_the_same_bytes_whatever_the_order() -> None:
    one, other = (make_file(file=f"{name}.rig.yaml", findings=(OVER, REACHABLE)) for name in "ab")
    fail_on = {file.file: Grade.FIGHT for file in (one, other)}
    first = render_junit(make_report(one, other, fail_on=fail_on), strict=False)
    turned = [replace(file, findings=file.findings[::-1]) for file in (other, one)]

    assert render_junit(make_report(*turned, fail_on=fail_on), strict=False) == first


def test_the_schema_refuses_what_is_not_of_the_form() -> None:
    suite = '<testsuite name="a" tests="1" failures="0" errors="0" time="0">CASE</testsuite>'
    case = '<testcase name="x" classname="a" time="0"/>'

    assert load_xsd().is_valid(suite.replace("CASE", case))
    assert not load_xsd().is_valid(suite.replace("CASE", case + case))
    assert not load_xsd().is_valid(suite.replace("CASE", "<testcase name='x'/>"))
