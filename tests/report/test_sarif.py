"""SARIF 2.1.0: valid by the published schema, and what a reader of it relies on.

The schema is the one that the package `@microsoft/sarif-multitool-linux` of the npm registry ships as
`sarif-2.1.0.json`. `RIGMINT_SARIF_SCHEMA` names a copy that is there already.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import tarfile
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from jsonschema.validators import validator_for

from rigmint.library.faults import Fault
from rigmint.library.text_edits import TextEdit
from rigmint.lint.core_codes import CORE_CODES
from rigmint.lint.fingerprint import FINGERPRINT
from rigmint.lint.results import Gone, Since, State
from rigmint.report.sarif import render_sarif
from rigmint.rig.place import Position
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
    make_packs,
    make_report,
)

PACKAGE = "@microsoft/sarif-multitool-linux"
MEMBER = "package/sarif-2.1.0.json"
WAIT = 120.0
"""s for the registry to answer."""


@pytest.fixture(scope="session")
def sarif_schema(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    given = os.environ.get("RIGMINT_SARIF_SCHEMA")
    if given:
        return dict(json.loads(Path(given).read_text(encoding="utf-8")))
    npm = shutil.which("npm")
    if npm is None:
        pytest.skip("npm is not installed, and RIGMINT_SARIF_SCHEMA names no copy of the schema")
    folder = tmp_path_factory.mktemp("sarif")
    try:
        subprocess.run([npm, "pack", PACKAGE], cwd=folder, check=True, capture_output=True, timeout=WAIT)
    except (subprocess.SubprocessError, OSError) as error:
        pytest.skip(f"the npm registry gave no {PACKAGE}: {error}")
    archive = next(folder.glob("*.tgz"))
    with tarfile.open(archive) as tar:
        member = tar.extractfile(MEMBER)
        assert member is not None, f"{PACKAGE} holds no {MEMBER}"
        schema = dict(json.load(member))
    archive.unlink()
    return schema


MENDED = replace(
    OVER,
    state=State.NEW,
    fixes=(
        replace(OVER.fixes[0], text_edits=(TextEdit(90, 112, "", 12, 3, 13, 1), TextEdit(130, 130, "x", 15, 1, 15, 1))),
    ),
)
"""A finding that is new and has a fix in two places of the file."""
GONE = Gone("voltage:over", Grade.BURN, "It {{was}} there.", "old one.rig.yaml", 5, 3, "handgrip.usb", "0123abcd")


def render(*findings: Any, strict: bool = False, file: str = RIG_FILE, **changes: Any) -> dict[str, Any]:
    """The log of one file, parsed."""
    report = make_report(make_file(file=file, findings=findings, **changes))
    return dict(json.loads(render_sarif(report, make_packs(), strict=strict)))


def run_of(log: dict[str, Any]) -> dict[str, Any]:
    return dict(log["runs"][0])


def test_a_log_with_everything_is_valid(sarif_schema: dict[str, Any]) -> None:
    stale = replace(REACHABLE, code="accepted:stale", grade=Grade.TIDY)
    hostile = replace(OVER, says=HOSTILE, at=HOSTILE, cause="P9")
    pack = Fault("kestrel-house", 1, 1, "pack:broken", "it cannot be imported")
    folder = Fault(HOSTILE, 1, 1, "file:unreadable", HOSTILE)
    file = make_file(
        findings=(MENDED, ACCEPTED, REACHABLE, stale, hostile), unknown=(WANTS_FIGURE,), unread=(UNKNOWN_NAME,)
    )
    since = Since("before.sarif", (GONE, replace(GONE, line=None, says=HOSTILE, file=HOSTILE)), is_elsewhere=False)
    report = make_report(file, make_file(file=f"rigs/{HOSTILE}"), unread=(pack, folder), since=since)
    log = json.loads(render_sarif(report, make_packs(pack), strict=True))
    validator = validator_for(sarif_schema)(sarif_schema)

    assert [error.message for error in validator.iter_errors(log)] == []


def test_a_log_without_anything_is_valid(sarif_schema: dict[str, Any]) -> None:
    validator = validator_for(sarif_schema)(sarif_schema)

    assert [error.message for error in validator.iter_errors(render())] == []


def test_the_schema_refuses_what_is_no_log(sarif_schema: dict[str, Any]) -> None:
    log = render(OVER)
    log["runs"][0]["results"][0]["level"] = "burn"
    validator = validator_for(sarif_schema)(sarif_schema)

    assert not validator.is_valid(log)


def test_every_rule_is_declared_and_every_reference_leads_to_its_rule() -> None:
    stale = replace(REACHABLE, code="accepted:stale", grade=Grade.TIDY)
    run = run_of(render(OVER, REACHABLE, stale, unread=(UNKNOWN_NAME,), unknown=(WANTS_FIGURE,)))
    tool = run["tool"]

    def resolve(reference: dict[str, Any], kind: str) -> str:
        component = reference.get("toolComponent")
        holder = tool["driver"] if component is None else tool["extensions"][component["index"]]
        assert component is None or holder["name"] == component["name"]
        return str(holder[kind][reference["index"]]["id"])

    invocation = run["invocations"][0]
    codes = [core.code for core in CORE_CODES]

    assert [result["ruleId"] for result in run["results"]] == ["voltage:over", "follow:reachable", "accepted:stale"]
    assert [resolve(result["rule"], "rules") for result in run["results"]] == [r["ruleId"] for r in run["results"]]
    assert {rule["id"] for extension in tool["extensions"] for rule in extension["rules"]} == {
        "voltage:over",
        "voltage:shock",
        "follow:reachable",
    }
    assert {d["id"] for d in tool["driver"]["rules"] + tool["driver"]["notifications"]} == set(codes)
    assert resolve(invocation["toolExecutionNotifications"][0]["descriptor"], "notifications") == "file:unknown-name"


@pytest.mark.parametrize(
    ("grade", "level"),
    [
        ("hurt", "error"),
        ("burn", "error"),
        ("dead", "error"),
        ("fight", "error"),
        ("thin", "warning"),
        ("tidy", "note"),
    ],
)
def test_level_by_grade(grade: str, level: str) -> None:
    run = run_of(render(replace(OVER, grade=Grade(grade))))

    assert run["results"][0]["level"] == level


def test_the_place_in_the_file_is_a_region_and_an_escaped_address() -> None:
    run = run_of(render(OVER, file="rigs/two up/50%#1.rig.yaml"))

    assert run["results"][0]["locations"] == [
        {
            "physicalLocation": {
                "artifactLocation": {"uri": "rigs/two%20up/50%25%231.rig.yaml"},
                "region": {"startLine": 48, "startColumn": 3},
            },
            "logicalLocations": [{"fullyQualifiedName": "handgrip.usb"}],
        }
    ]


def test_an_accepted_finding_is_suppressed_with_its_reason() -> None:
    results = run_of(render(OVER, ACCEPTED))["results"]

    assert [result.get("suppressions") for result in results] == [
        None,
        [
            {
                "kind": "inSource",
                "status": "accepted",
                "justification": "Diode fitted inside the sleeve (signed by prep lead, until 2027-03-01)",
            }
        ],
    ]


@pytest.mark.parametrize(
    ("change", "stays"),
    [
        ({"position": Position(99, 1)}, True),
        ({"says": "other words"}, True),
        ({"grade": Grade.THIN}, True),
        ({"setups": ("solo",)}, True),
        ({"code": "voltage:shock"}, False),
        ({"cause": "P5"}, False),
        ({"at": "camera.dc_in"}, False),
    ],
)
def test_fingerprints_survive_moves_and_nothing_else(change: dict[str, Any], stays: bool) -> None:
    first, second = (
        run_of(render(finding))["results"][0]["partialFingerprints"][FINGERPRINT]
        for finding in (OVER, replace(OVER, **change))
    )

    assert (first == second) is stays


def test_fingerprints_differ_between_files() -> None:
    first, second = (run_of(render(OVER, file=name))["results"][0]["partialFingerprints"] for name in ("a", "b"))

    assert first != second


@pytest.mark.parametrize(
    ("changes", "strict", "successful", "exit_code"),
    [
        ({}, False, True, 0),
        ({"findings": (OVER,)}, False, True, 1),
        ({"unread": (UNKNOWN_NAME,)}, False, False, 2),
        ({"unknown": (WANTS_FIGURE,)}, False, True, 0),
        ({"unknown": (WANTS_FIGURE,)}, True, False, 2),
    ],
)
def test_whether_the_run_succeeded(changes: dict[str, Any], strict: bool, successful: bool, exit_code: int) -> None:
    report = make_report(make_file(**changes))
    invocation = json.loads(render_sarif(report, make_packs(), strict=strict))["runs"][0]["invocations"][0]

    assert (invocation["executionSuccessful"], invocation["exitCode"]) == (successful, exit_code)


def test_an_acceptance_of_the_library_stands_elsewhere() -> None:
    assert ACCEPTED.accepted is not None
    of_library = replace(ACCEPTED, accepted=replace(ACCEPTED.accepted, is_in_rig=False))
    kinds = [one["suppressions"][0]["kind"] for one in run_of(render(ACCEPTED, of_library))["results"]]

    assert kinds == ["inSource", "external"]


def test_a_fix_is_a_replacement_of_regions() -> None:
    mended, plain = run_of(render(MENDED, replace(OVER, cause="P9")))["results"]

    assert "fixes" not in plain
    assert mended["fixes"] == [
        {
            "description": {"text": OVER.fixes[0].says},
            "artifactChanges": [
                {
                    "artifactLocation": {"uri": RIG_FILE},
                    "replacements": [
                        {
                            "deletedRegion": {"startLine": 12, "startColumn": 3, "endLine": 13, "endColumn": 1},
                            "insertedContent": {"text": ""},
                        },
                        {
                            "deletedRegion": {"startLine": 15, "startColumn": 1, "endLine": 15, "endColumn": 1},
                            "insertedContent": {"text": "x"},
                        },
                    ],
                }
            ],
            "properties": {"proved": True},
        }
    ]


def test_states_are_given_only_where_runs_are_compared() -> None:
    compared = make_report(make_file(findings=(MENDED,)), since=Since("before.sarif", (GONE,), is_elsewhere=False))
    new, gone = run_of(json.loads(render_sarif(compared, make_packs(), strict=False)))["results"]

    assert (new["baselineState"], gone["baselineState"]) == ("new", "absent")
    assert (gone["partialFingerprints"], gone["message"]) == ({FINGERPRINT: "0123abcd"}, {"text": "It {{was}} there."})
    assert gone["locations"][0]["physicalLocation"]["artifactLocation"] == {"uri": "old%20one.rig.yaml"}
    assert "baselineState" not in run_of(render(OVER))["results"][0]


def test_what_was_not_read_or_not_judged_is_a_notification() -> None:
    run = run_of(render(unread=(UNKNOWN_NAME,), unknown=(WANTS_FIGURE,)))
    shown = [
        (one["level"], one["message"]["text"], one["locations"][0]["physicalLocation"].get("region"))
        for one in run["invocations"][0]["toolExecutionNotifications"]
    ]

    assert shown == [
        ("error", UNKNOWN_NAME.says, {"startLine": 12, "startColumn": 9}),
        (
            "note",
            "Not judged: voltage:under at camera.dc_in needs works."
            " camera.dc_in does not state the window that it works in",
            None,
        ),
    ]


def test_the_fault_of_a_pack_names_no_file() -> None:
    pack = Fault("kestrel-house", 1, 1, "pack:broken", "it cannot be imported")
    log = json.loads(render_sarif(make_report(make_file(), unread=(pack,)), make_packs(pack), strict=False))
    (notification,) = log["runs"][0]["invocations"][0]["toolExecutionNotifications"]

    assert "locations" not in notification


def test_the_fix_is_in_the_message_and_braces_and_links_are_no_markup() -> None:
    hostile = replace(OVER, says="{0} and [here](http://x)", fixes=(replace(OVER.fixes[0], says="take it out"),))
    run = run_of(render(hostile))

    assert run["results"][0]["message"] == {"text": "{{0}} and [here] (http://x) Fix: take it out"}
