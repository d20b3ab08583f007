"""`rigmint check`: options, forms, exit statuses."""

from __future__ import annotations

import datetime
import inspect
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

import rigmint.commands.check
import rigmint.lint.packs
from rigmint.commands import main
from rigmint.lint.packs import Pack
from rigmint.lint.results import Report
from rigmint.lint.run import check_paths
from rigmint.words import Grade
from tests.commands.engine import Engine
from tests.report.results import (
    ACCEPTED,
    OVER,
    REACHABLE,
    RIG_FILE,
    UNKNOWN_NAME,
    WANTS_FIGURE,
    make_file,
    make_packs,
    make_report,
    make_rule,
)


def run(monkeypatch: pytest.MonkeyPatch, report: Report, *arguments: str) -> tuple[Result, Engine]:
    """Run `check` on an engine that gives back `report`."""
    engine = Engine(report)
    monkeypatch.setattr(rigmint.commands.check, "check_paths", engine.check_paths)
    monkeypatch.setattr(rigmint.lint.packs, "load_packs", make_packs)
    return CliRunner().invoke(main, ["check", *arguments]), engine


def test_the_stand_in_has_the_signature_of_the_engine() -> None:
    stand_in = inspect.signature(Engine(make_report()).check_paths).parameters
    engine = inspect.signature(check_paths).parameters

    assert [(p.name, p.kind) for p in stand_in.values()] == [(p.name, p.kind) for p in engine.values()]


@pytest.mark.parametrize(
    ("changes", "fail_on", "arguments", "status"),
    [
        ({}, "fight", [], 0),
        ({"findings": (OVER,)}, "fight", [], 1),
        ({"findings": (ACCEPTED,)}, "fight", [], 0),
        ({"findings": (REACHABLE,)}, "fight", [], 0),
        ({"findings": (REACHABLE,)}, "thin", [], 1),
        ({"findings": (OVER,)}, "hurt", [], 0),
        ({"findings": (OVER,), "unread": (UNKNOWN_NAME,)}, "fight", [], 2),
        ({"unknown": (WANTS_FIGURE,)}, "fight", [], 0),
        ({"unknown": (WANTS_FIGURE,)}, "fight", ["--strict"], 2),
    ],
)
@pytest.mark.parametrize("form", ["text", "json", "sarif", "junit"])
def test_exit_status(
    monkeypatch: pytest.MonkeyPatch, form: str, changes: Any, fail_on: str, arguments: list[str], status: int
) -> None:
    report = make_report(make_file(**changes), fail_on={RIG_FILE: Grade(fail_on)})
    result, _ = run(monkeypatch, report, "--as", form, *arguments)

    assert result.exit_code == status


def test_no_rig_found_is_status_2_and_said(monkeypatch: pytest.MonkeyPatch) -> None:
    result, _ = run(monkeypatch, make_report())

    assert result.exit_code == 2
    assert "No rig file found. Checked with" in result.stdout


@pytest.mark.parametrize(
    "arguments",
    [["--as", "yaml"], ["--today", "tomorrow"], ["--today", "2026-02-30"], ["--nonsense"], ["--setup"]],
)
def test_wrong_usage_is_status_2(monkeypatch: pytest.MonkeyPatch, arguments: list[str]) -> None:
    result, engine = run(monkeypatch, make_report(make_file()), *arguments)

    assert (result.exit_code, engine.asked, result.stdout) == (2, [], "")


def test_what_the_engine_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    arguments = ["rigs", "b.rig.yaml", "--setup", "solo", "--library", "kestrel/rigmint.yaml", "--today", "2026-05-02"]
    _, engine = run(monkeypatch, make_report(make_file()), *arguments, "--no-house-checks")

    assert engine.asked == [
        {
            "paths": (Path("rigs"), Path("b.rig.yaml")),
            "library": Path("kestrel/rigmint.yaml"),
            "today": datetime.date(2026, 5, 2),
            "setup": "solo",
            "prove": True,
            "house_checks": False,
            "plan": False,
        }
    ]


def test_without_arguments_this_folder_is_checked_by_the_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    before = datetime.date.today()
    _, engine = run(monkeypatch, make_report(make_file()), "--as", "json")
    (asked,) = engine.asked

    assert (asked["paths"], asked["library"], asked["setup"], asked["prove"]) == ((Path(),), None, None, False)
    assert asked["today"] in (before, datetime.date.today())


def test_forms(monkeypatch: pytest.MonkeyPatch) -> None:
    report = make_report(make_file(findings=(OVER,)))
    text, as_json, as_sarif = (run(monkeypatch, report, "--as", form)[0].stdout for form in ("text", "json", "sarif"))

    assert text.startswith("saltmarsh-two-up.rig.yaml   23 items, 17 leads, 2 setups\n\nburn   voltage:over ")
    assert json.loads(as_json)["counts"]["burn"] == 1
    assert json.loads(as_sarif)["runs"][0]["results"][0]["ruleId"] == "voltage:over"


@pytest.mark.parametrize(
    ("arguments", "house_checks"), [([], None), (["--house-checks"], True), (["--no-house-checks"], False)]
)
def test_whether_to_run_house_checks_is_said_or_not(
    monkeypatch: pytest.MonkeyPatch, arguments: list[str], house_checks: bool | None
) -> None:
    _, engine = run(monkeypatch, make_report(make_file()), *arguments)

    assert [asked["house_checks"] for asked in engine.asked] == [house_checks]


@pytest.mark.parametrize(("form", "plan"), [("text", False), ("json", False), ("sarif", True), ("junit", False)])
def test_replacements_are_planned_where_they_are_shown(monkeypatch: pytest.MonkeyPatch, form: str, plan: bool) -> None:
    _, engine = run(monkeypatch, make_report(make_file()), "--as", form)

    assert [asked["plan"] for asked in engine.asked] == [plan]


def test_since_in_every_form(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    log = str(tmp_path / "before.sarif")
    run(monkeypatch, make_report(make_file(findings=(OVER,))), "--as", "sarif", "--out", log)
    worse = replace(OVER, cause="P5")
    report = make_report(make_file(findings=(OVER, worse)), codes={RIG_FILE: ("voltage:over",)})
    text, as_json, as_sarif, as_junit = (
        run(monkeypatch, report, "--as", form, "--since", log)[0] for form in ("text", "json", "sarif", "junit")
    )

    assert [one.exit_code for one in (text, as_json, as_sarif, as_junit)] == [1, 1, 1, 1]
    assert f"{log}: 1 new, 1 unchanged, 0 gone." in " ".join(text.stdout.split())
    assert text.stdout.count("new, line 48") == 1
    assert json.loads(as_json.stdout)["since"] == {"new": 1, "unchanged": 1, "gone": []}
    assert [one["state"] for one in json.loads(as_json.stdout)["files"][0]["findings"]] == ["unchanged", "new"]
    assert [one["baselineState"] for one in json.loads(as_sarif.stdout)["runs"][0]["results"]] == ["unchanged", "new"]
    assert as_junit.stdout.count("<failure") == 1
    known, _ = run(monkeypatch, make_report(make_file(findings=(OVER,))), "--since", log)
    assert known.exit_code == 0


def test_house_checks_that_did_not_run_are_said(monkeypatch: pytest.MonkeyPatch) -> None:
    result, _ = run(monkeypatch, make_report(make_file(), checks_left_out=("house/checks.py",)))

    assert "House checks not run, as asked: house/checks.py." in result.stdout


def test_rules_of_house_checks_are_declared_in_sarif(monkeypatch: pytest.MonkeyPatch) -> None:
    checks = Pack("house/checks.py", "0123abcd", ("house/checks.py",), (make_rule("desk:there"),))
    result, _ = run(monkeypatch, make_report(make_file(), house_packs=(checks,)), "--as", "sarif")
    extensions = json.loads(result.stdout)["runs"][0]["tool"]["extensions"]

    assert {one["name"]: [rule["id"] for rule in one["rules"]] for one in extensions}["house/checks.py"] == [
        "desk:there"
    ]


def test_out_writes_a_file_and_prints_nothing(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    out = tmp_path / "report.json"
    report = make_report(make_file(findings=(OVER,)))
    result, _ = run(monkeypatch, report, "--as", "json", "--out", str(out))
    printed, _ = run(monkeypatch, report, "--as", "json")

    assert (result.exit_code, result.output) == (1, "")
    assert out.read_bytes() == printed.stdout_bytes


def test_an_out_that_cannot_be_written_is_status_2(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    result, _ = run(monkeypatch, make_report(make_file()), "--out", str(tmp_path / "missing" / "report.txt"))

    assert result.exit_code == 2
    assert "report.txt cannot be written: no such file or directory" in result.stderr


def test_an_error_inside_rigmint_is_status_2_without_a_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    def break_off(*_paths: object, **_options: object) -> Report:
        msg = "pin\x1b[2J"
        raise KeyError(msg)

    monkeypatch.setattr(rigmint.commands.check, "check_paths", break_off)
    result = CliRunner().invoke(main, ["check"])

    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.startswith("rigmint itself broke off in test_check_command.py, line ")
    assert "Traceback" not in result.stderr
    assert "\x1b" not in result.stderr


def test_an_interruption_is_not_taken_for_findings(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupt(*_paths: object, **_options: object) -> Report:
        raise KeyboardInterrupt

    monkeypatch.setattr(rigmint.commands.check, "check_paths", interrupt)
    result = CliRunner().invoke(main, ["check"])

    assert result.exit_code == 2
