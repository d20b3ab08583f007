"""Records as plain JSON values and back."""

from __future__ import annotations

import datetime
import json
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from types import MappingProxyType

import pytest

from rigmint.lint.outcome import Outcome
from rigmint.lint.records import from_plain, to_plain
from rigmint.lint.results import FileReport
from rigmint.lint.run import check_paths
from tests.report.results import ACCEPTED, OVER, make_file, make_report

EXAMPLES = Path(__file__).parents[2] / "examples"


def go_there_and_back(report: FileReport) -> FileReport:
    return from_plain(FileReport, json.loads(json.dumps(to_plain(report))))


def test_reports_of_the_examples_come_back_equal() -> None:
    report = check_paths(
        [EXAMPLES / "faults"], library=None, today=datetime.date(2026, 5, 2), setup=None, prove=False, plan=True
    )

    assert len(report.files) > 50
    assert sum(len(fix.text_edits) for file in report.files for one in file.findings for fix in one.fixes) > 20
    assert [go_there_and_back(file) for file in report.files] == list(report.files)


def test_what_is_accepted_and_what_an_outcome_rests_on_come_back_equal() -> None:
    report = make_report(make_file(findings=(OVER, ACCEPTED))).files[0]
    outcome = Outcome(report, "0" * 64, (("/a", "1" * 64),), lasts=True)

    assert from_plain(Outcome, json.loads(json.dumps(to_plain(outcome)))) == outcome


class _Colour(StrEnum):
    RED = "red"


@dataclass(frozen=True, slots=True)
class _Inner:
    number: float | tuple[float, float] | None
    colour: _Colour | None


@dataclass(frozen=True, slots=True)
class _Outer:
    inner: tuple[_Inner, ...]
    pair: tuple[int, str]
    own: _Outer | None = None


def test_all_forms_come_back() -> None:
    inner = (_Inner(1.5, _Colour.RED), _Inner((0.1, float("inf")), None), _Inner(None, None), _Inner(2, None))
    outer = _Outer(inner, (1, "x\udc80"), _Outer((), (2, "")))

    assert from_plain(_Outer, json.loads(json.dumps(to_plain(outer)))) == outer
    assert to_plain(MappingProxyType({"a": (1, None)})) == {"a": [1, None]}


@pytest.mark.parametrize("value", [object(), {1: 2}, (b"x",), {"a": {1, 2}}])
def test_what_json_does_not_have_is_refused(value: object) -> None:
    with pytest.raises(TypeError):
        to_plain(value)


@pytest.mark.parametrize("plain", [None, [], [[], [1]], [[[1, "blue"]], [1, "x"], None], [[], [1, "x"], None, 4]])
def test_what_is_no_form_of_a_record_is_refused(plain: object) -> None:
    with pytest.raises((TypeError, ValueError)):
        from_plain(_Outer, plain)
