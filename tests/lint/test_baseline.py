"""`--since`: what an earlier log says is known, and what of this run is new, unchanged or gone."""

from __future__ import annotations

import datetime
import json
import shutil
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from rigmint.lint.baseline import BadBaseline, Baseline, read_baseline
from rigmint.lint.compare_runs import compare_with_baseline
from rigmint.lint.fingerprint import FINGERPRINT, make_fingerprint
from rigmint.lint.results import FileReport, Report, ReportedFinding, Since, State
from rigmint.lint.run import check_paths
from rigmint.report.sarif import render_sarif
from rigmint.rig.place import Position
from rigmint.words import Grade
from tests.report.results import ACCEPTED, OVER, REACHABLE, RIG_FILE, make_file, make_packs, make_report

DAY = datetime.date(2026, 5, 2)
EXAMPLES = Path(__file__).parents[2] / "examples"
CODES = ("backfeed:into-output", "follow:reachable", "voltage:over")


@pytest.fixture(autouse=True)
def stand_beside_the_rig(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path(RIG_FILE).touch()


def report_on(*findings: ReportedFinding, **changes: Any) -> Report:
    file = make_file(findings=findings, **changes)
    return make_report(file, codes={file.file: CODES})


def make_baseline(*findings: ReportedFinding, **changes: Any) -> Baseline:
    """What a run that found these would have written, read again."""
    log = Path("before.sarif")
    log.write_text(render_sarif(report_on(*findings, **changes), make_packs(), strict=False), encoding="utf-8")
    return read_baseline(log)


def compare(report: Report, baseline: Baseline, setup: str | None = None) -> tuple[list[State | None], list[str]]:
    """The states of the findings of the only file, and what is gone."""
    compared = compare_with_baseline(report, baseline, setup)
    assert compared.since is not None
    return [one.state for one in compared.files[0].findings], [one.code for one in compared.since.gone]


NOW_EXPIRED = replace(ACCEPTED, accepted=None)


@pytest.mark.parametrize(
    ("before", "now", "state", "status"),
    [
        ((OVER,), OVER, State.UNCHANGED, 0),
        ((), OVER, State.NEW, 1),
        ((REACHABLE,), OVER, State.NEW, 1),
        ((OVER,), replace(OVER, position=Position(99, 1), says="19 V", setups=("solo",)), State.UNCHANGED, 0),
        ((OVER,), replace(OVER, cause="P5"), State.NEW, 1),
        # It has become worse: known as thin, now a burn.
        ((replace(OVER, grade=Grade.THIN),), OVER, State.NEW, 1),
        ((OVER,), replace(OVER, grade=Grade.THIN), State.UNCHANGED, 0),
        # Somebody had signed for it, and does not any more.
        ((ACCEPTED,), NOW_EXPIRED, State.NEW, 1),
        ((ACCEPTED,), ACCEPTED, State.UNCHANGED, 0),
        ((NOW_EXPIRED,), ACCEPTED, State.UNCHANGED, 0),
        ((), ACCEPTED, State.NEW, 0),
        # Signed for in one setup, open in another.
        ((replace(ACCEPTED, setups=("solo",)), replace(NOW_EXPIRED, setups=("two_up",))), NOW_EXPIRED, State.UNCHANGED, 0),
    ],
)  # fmt: skip
def test_state_and_exit_status(
    before: tuple[ReportedFinding, ...], now: ReportedFinding, state: State, status: int
) -> None:
    compared = compare_with_baseline(report_on(now), make_baseline(*before), None)

    assert [one.state for one in compared.files[0].findings] == [state]
    assert compared.status(strict=False) == status


def test_a_file_that_cannot_be_read_is_status_2_whatever_is_known() -> None:
    fault = make_report().unread
    unread = replace(make_file(setups=()), unread=fault)
    compared = compare_with_baseline(make_report(unread), make_baseline(OVER), None)

    assert compared.since is not None
    # What was found on it before is not gone: nobody looked.
    assert compared.since.gone == ()


@pytest.mark.parametrize(
    ("now", "setup", "gone"),
    [
        ((), None, ["voltage:over"]),
        ((OVER,), None, []),
        ((replace(OVER, cause="P5"),), None, ["voltage:over"]),
        # It showed in two setups, and this run looked at one.
        ((), "solo", []),
    ],
)
def test_what_is_gone(now: tuple[ReportedFinding, ...], setup: str | None, gone: list[str]) -> None:
    assert compare(report_on(*now), make_baseline(OVER), setup)[1] == gone


def test_a_finding_of_one_setup_is_gone_when_that_setup_is_checked() -> None:
    assert compare(report_on(), make_baseline(REACHABLE), "solo")[1] == ["follow:reachable"]


def test_what_no_rule_looked_for_is_not_gone() -> None:
    report = replace(report_on(), codes={RIG_FILE: ("follow:reachable",)})

    assert compare(report, make_baseline(OVER))[1] == []


def test_a_file_that_this_run_leaves_out_is_not_gone_and_one_that_was_removed_is() -> None:
    before = make_baseline(OVER, file="other.rig.yaml")
    removed = compare(report_on(), before)[1]
    Path("other.rig.yaml").touch()
    left_out = compare(report_on(), before)[1]

    assert (removed, left_out) == (["voltage:over"], [])


def test_a_log_written_in_another_folder_is_noticed() -> None:
    elsewhere = compare_with_baseline(report_on(OVER), make_baseline(OVER, file="rigs/a.rig.yaml"), None).since
    here = compare_with_baseline(report_on(OVER), make_baseline(OVER), None).since
    empty = compare_with_baseline(report_on(OVER), make_baseline(), None).since

    assert [one is not None and one.is_elsewhere for one in (elsewhere, here, empty)] == [True, False, False]


def test_what_an_earlier_log_calls_absent_is_not_known() -> None:
    compared = compare_with_baseline(report_on(), make_baseline(OVER), None)
    log = Path("second.sarif")
    log.write_text(render_sarif(compared, make_packs(), strict=False), encoding="utf-8")

    assert compare(report_on(OVER), read_baseline(log)) == ([State.NEW], [])


@pytest.mark.parametrize(
    "name", ["rigs/two up/50%#1.rig.yaml", "./rigs/ä.rig.yaml", "../a.rig.yaml", "a:b.rig.yaml", "n\udcff.rig.yaml"]
)
def test_names_of_files_come_back(name: str) -> None:
    (known,) = make_baseline(OVER, file=name).findings

    assert known.file == name.removeprefix("./")
    assert known.home == name.removeprefix("./")


def write_faulty_library(top: Path) -> Path:
    """A library of its own with one faulty rig; the folder of that rig."""
    for name in ("parts", "rigmint.yaml", "rigs/saltmarsh-two-up.rig.yaml", "faults/owner-mixed-head-dial.rig.yaml"):
        source, target = EXAMPLES / name, top / name
        target.parent.mkdir(parents=True, exist_ok=True)
        (shutil.copytree if source.is_dir() else shutil.copy)(source, target)
    (top / "faults" / "owner-mixed-head-dial.rig.yaml").rename(top / "faults" / "a.rig.yaml")
    return top / "faults"


def test_a_log_of_another_checkout_and_another_folder_is_known(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same library twice, once checked from its top, once from the folder of its rigs, once from above."""
    one, other = write_faulty_library(tmp_path / "one"), write_faulty_library(tmp_path / "far" / "other")
    found = {}
    for folder, named in (
        (one.parent, "faults/a.rig.yaml"),
        (other, "a.rig.yaml"),
        (tmp_path, "one/faults/a.rig.yaml"),
    ):
        monkeypatch.chdir(folder)
        found[named] = check_paths([Path(named)], library=None, today=DAY, setup=None, prove=False)
    monkeypatch.chdir(one.parent)
    log = tmp_path / "before.sarif"
    log.write_text(render_sarif(found["faults/a.rig.yaml"], make_packs(), strict=False), encoding="utf-8")
    states = {}
    for folder, named in ((other, "a.rig.yaml"), (tmp_path, "one/faults/a.rig.yaml")):
        monkeypatch.chdir(folder)
        compared = compare_with_baseline(found[named], read_baseline(log), None)
        assert compared.since is not None
        states[named] = ({one.state for one in compared.files[0].findings}, compared.since)

    expected = ({State.UNCHANGED}, Since(str(log), (), False))
    assert any(one.code == "owner:mixed" for one in found["a.rig.yaml"].files[0].findings)
    assert states == {"a.rig.yaml": expected, "one/faults/a.rig.yaml": expected}


@pytest.mark.parametrize(
    ("first", "second", "is_same"),
    [("requires.0", "requires.3", True), ("accepted.0", "accepted.1", True), ("P1", "P2", False)],
)
def test_a_place_in_a_list_is_no_part_of_the_fingerprint(first: str, second: str, is_same: bool) -> None:
    one, two = (make_fingerprint(replace(OVER, cause=cause), RIG_FILE) for cause in (first, second))

    assert (one == two) is is_same


def write_log(**changes: Any) -> dict[str, Any]:
    log: dict[str, Any] = json.loads(render_sarif(report_on(OVER), make_packs(), strict=False))
    return log | changes


def drop(log: dict[str, Any], *path: str | int) -> dict[str, Any]:
    """The log without what stands at a path of its first result."""
    here: Any = log["runs"][0]["results"][0]
    for key in path[:-1]:
        here = here[key]
    del here[path[-1]]
    return log


def by_other_tool() -> dict[str, Any]:
    log = write_log()
    log["runs"][0]["tool"]["driver"]["name"] = "paper-checker"
    return log


BAD: list[tuple[Any, str]] = [
    ("not json", "is no SARIF log: it is not JSON"),
    (b"\xff\xfe\x00", "is no SARIF log: it is not JSON"),
    ("[" * 100_000, "is no SARIF log: it is not JSON"),
    ("", "is no SARIF log: it is not JSON"),
    ([], "is no SARIF log: it has no `runs`"),
    ({"files": []}, "is no SARIF log: it has no `runs`"),
    (write_log(version="2.0.0"), "is SARIF of version '2.0.0'; 2.1.0 is read"),
    (write_log(runs=[]), "is a log of no tool at all"),
    (write_log(runs=[5, None]), "is a log of `no tool`"),
    (by_other_tool(), "is a log of `paper-checker`, not one that `rigmint check --as sarif` wrote"),
    (drop(write_log(), "partialFingerprints", FINGERPRINT), "is not as `rigmint check --as sarif` writes it (KeyError"),
    (drop(write_log(), "properties", "grade"), "is not as `rigmint check --as sarif` writes it (KeyError"),
    (drop(write_log(), "locations", 0), "is not as `rigmint check --as sarif` writes it (IndexError"),
    (write_log(runs=[{**write_log()["runs"][0], "results": 5}]), "(TypeError: 'int' object is not iterable): write it anew"),
    (write_log(runs=[{**write_log()["runs"][0], "results": ["a"]}]), "(AttributeError: "),
]  # fmt: skip


@pytest.mark.parametrize(("content", "says"), BAD)
def test_a_file_that_is_no_log_of_ours(content: Any, says: str) -> None:
    log = Path("bad.sarif")
    if isinstance(content, bytes):
        log.write_bytes(content)
    else:
        log.write_text(content if isinstance(content, str) else json.dumps(content), encoding="utf-8")
    with pytest.raises(BadBaseline) as caught:
        read_baseline(log)

    assert str(caught.value).startswith("bad.sarif ")
    assert says in str(caught.value)


def test_a_file_that_is_not_there() -> None:
    with pytest.raises(BadBaseline) as caught:
        read_baseline(Path("none.sarif"))

    assert str(caught.value) == "none.sarif cannot be read: no such file or directory"


def test_our_run_is_found_among_those_of_other_tools() -> None:
    log = write_log(runs=[by_other_tool()["runs"][0], *write_log()["runs"]])
    Path("many.sarif").write_text(json.dumps(log), encoding="utf-8")

    assert [one.code for one in read_baseline(Path("many.sarif")).findings] == ["voltage:over"]


def test_the_file_report_of_a_plain_run_has_no_states() -> None:
    file: FileReport = report_on(OVER).files[0]

    assert [one.state for one in file.findings] == [None]
