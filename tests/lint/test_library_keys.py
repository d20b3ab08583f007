"""Every key of the library file does what it says, seen from a whole run."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path

import pytest

import rigmint.lint.run
from rigmint.lint.packs import load_packs
from rigmint.lint.results import FileReport, Report
from rigmint.lint.run import check_paths
from rigmint.words import Grade

DAY = datetime.date(2026, 5, 2)
RIG = """\
rigmint: 1
rig: Saltmarsh, bare
on: hand
stance: underslung
kit:
  battery: generic/battery-98wh-wedge
  plate: generic/plate-wedge-two-tap
  camera: generic/camera-compact
  sender: {part: house/sender, set: {flip: off}}
docks: [battery.mount > plate.battery]
leads:
  P1: {part: generic/lead-tap-to-2pin, from: plate.tap_1, to: camera.dc_in}
needs: {runtime: 4 h}
"""
PARTS = "rigmint_part: 1\nid: house/sender\nkind: accessory\nsettings: {flip: {values: [on, off]}}\n"


def run(folder: Path, library: str, rig: str = RIG) -> Report:
    for name in ("parts", "more"):
        (folder / name).mkdir()
    (folder / "more" / "sender.part.yaml").write_text(PARTS, encoding="utf-8")
    (folder / "rigmint.yaml").write_text(f"rigmint_library: 1\nparts: [parts, more]\n{library}", encoding="utf-8")
    (folder / "a.rig.yaml").write_text(rig, encoding="utf-8")
    return check_paths([folder], library=None, today=DAY, setup=None, prove=False)


def grade_of(report: FileReport, code: str) -> str | None:
    """The grade at which a code is reported; None where it is not."""
    return next((finding.grade.value for finding in report.findings if finding.code == code), None)


@pytest.mark.parametrize(
    ("library", "code", "grade"),
    [
        ("", "runtime:short", "thin"),
        ("rules: {runtime:short: off}", "runtime:short", None),
        ("rules: {runtime:short: {grade: tidy}}", "runtime:short", "tidy"),
        ("", "fit:required", None),
        ("requires: [{when: {stance: underslung}, set: {sender.flip: on}, why: picture is upside down, grade: dead}]", "fit:required", "dead"),
        ("requires: [{when: {stance: upright}, set: {sender.flip: on}, why: picture is upside down}]", "fit:required", None),
    ],
)  # fmt: skip
def test_rules_and_requirements(tmp_path: Path, library: str, code: str, grade: str | None) -> None:
    report = run(tmp_path, library)

    assert report.unread == ()
    assert grade_of(report.files[0], code) == grade


@pytest.mark.parametrize(
    ("library", "found"),
    [
        ("", None),
        ("rules: {runtime:short: {at_least: 3 h}}", "thin"),
        ("rules: {runtime:short: {at_least: 30 min}}", None),
    ],
)
def test_parameters(tmp_path: Path, library: str, found: str | None) -> None:
    rig = RIG.replace("runtime: 4 h", "distance: 10 m")
    report = run(tmp_path, library, rig)

    assert report.unread == ()
    assert grade_of(report.files[0], "runtime:short") == found


@pytest.mark.parametrize(
    ("library", "missing"),
    [
        ("", ["current"]),
        ("packs: {without: [current]}", []),
        ("packs: {without: [current], need: [kestrel-none]}", ["kestrel-none"]),
    ],
)
def test_packs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, library: str, missing: list[str]) -> None:
    installed = load_packs()
    others = replace(installed, packs=tuple(pack for pack in installed.packs if pack.name != "current"))
    monkeypatch.setattr(rigmint.lint.run, "load_packs", lambda: others)
    report = run(tmp_path, library)

    assert [(fault.code, fault.file) for fault in report.unread] == [("pack:missing", name) for name in missing]


@pytest.mark.parametrize(("fail_on", "status"), [("thin", 1), ("fight", 0), ("tidy", 1), ("hurt", 0)])
def test_fail_on(tmp_path: Path, fail_on: str, status: int) -> None:
    report = run(tmp_path, f"fail_on: {fail_on}")

    assert {finding.grade for finding in report.files[0].findings} == {Grade.THIN}
    assert report.status(strict=False) == status


def measure_runtime(report: Report) -> float:
    measured = next(one.measured for one in report.files[0].findings if one.code == "runtime:short")
    assert measured is not None
    return measured.value


def test_power_figures_change_what_is_computed(tmp_path: Path) -> None:
    for name in ("new", "old"):
        (tmp_path / name).mkdir()
    new = run(tmp_path / "new", "power: {age: 100 %, change_at: 0 %}")
    old = run(tmp_path / "old", "power: {age: 50 %, change_at: 0 %}")

    assert measure_runtime(old) == pytest.approx(measure_runtime(new) / 2, rel=1e-6)


@pytest.mark.parametrize(
    ("library", "code", "line", "says"),
    [
        ("packs: {need: [kestrel-none]}", "pack:missing", 1, "the library needs the pack `kestrel-none`, which is not installed"),
        ("rules:\n  runtime:shirt: off", "file:unknown-name", 4, "did you mean `runtime:short`?"),
        ("rules:\n  current:over:\n    marge: 20 %", "file:unknown-key", 5, "`current:over` has no parameter `marge`"),
        ("parts2: [a]", "file:unknown-key", 3, "did you mean `parts`?"),
        ("house: {rigs: a.json}", "file:unknown-key", 3, "did you mean `rig`?"),
        ("rules: {runtime:short: {grade: bad}}", "file:bad-value", 3, "`bad` is not one of"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_a_library_is_told_at_its_line(
    tmp_path: Path, library: str, code: str, line: int, says: str
) -> None:
    report = run(tmp_path, library)
    faults = [(fault.code, fault.line, says in fault.says) for fault in report.unread]

    assert (code, line, True) in faults
    assert report.status(strict=False) == 2
