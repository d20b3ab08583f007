"""Rigs of one job: which of those that are checked together count for one another."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path

import pytest

from rigmint.library.build_rig import read_rig
from rigmint.library.library_file import load_library
from rigmint.lint.changes import NameWho, PackSpares
from rigmint.lint.edits import list_edits
from rigmint.lint.job import find_job_rigs
from rigmint.lint.run import check_paths
from rigmint.rig.rig import Rig
from tests.builders import make_rig

TEXT = "rigmint: 1\nrig: Saltmarsh\nkit: {camera: {part: generic/camera-compact, asset: CAM-07}}\n"


def make(file: str, job: str | None, job_file: str | None = None) -> Rig:
    """A rig of a job."""
    return replace(make_rig("kit: {camera: generic/camera-compact}\n"), file=file, job=job, job_file=job_file or file)


def test_the_others_of_a_job_in_the_order_of_their_files() -> None:
    own = make("b.rig.yaml", "Saltmarsh")
    others = [make("c.rig.yaml", "saltmarsh "), make("a.rig.yaml", "Saltmarsh"), make("d.rig.yaml", "Oat Field"), own]

    assert [rig.file for rig in find_job_rigs(own, others)] == ["a.rig.yaml", "c.rig.yaml"]


def test_a_rig_without_a_job_is_alone() -> None:
    assert find_job_rigs(make("a.rig.yaml", None), [make("b.rig.yaml", None)]) == ()


def test_rigs_that_have_their_job_from_one_file_are_one_rig() -> None:
    stem = make("a.rig.yaml", "Saltmarsh")
    low, high = (make(name, "Saltmarsh", "a.rig.yaml") for name in ("low.rig.yaml", "high.rig.yaml"))
    b_unit = make("b.rig.yaml", "Saltmarsh")

    assert [find_job_rigs(one, [stem, low, high]) for one in (stem, low, high)] == [(), (), ()]
    assert find_job_rigs(b_unit, [stem, low]) == (stem, low)
    assert find_job_rigs(low, [stem, b_unit]) == (b_unit,)


def test_the_reader_says_which_file_states_the_job(tmp_path: Path) -> None:
    (tmp_path / "rigmint.yaml").write_text("rigmint_library: 1\n", encoding="utf-8")
    (tmp_path / "a.rig.yaml").write_text(TEXT + "job: Saltmarsh\n", encoding="utf-8")
    (tmp_path / "low.rig.yaml").write_text("rigmint: 1\nrig: Low\nlike: a.rig.yaml\n", encoding="utf-8")
    (tmp_path / "b.rig.yaml").write_text("rigmint: 1\nrig: B\nlike: a.rig.yaml\njob: Saltmarsh\n", encoding="utf-8")
    library = load_library(tmp_path / "rigmint.yaml")
    rigs = [read_rig(tmp_path / f"{name}.rig.yaml", library).rig for name in ("a", "low", "b")]

    assert [Path(rig.job_file or "").name for rig in rigs if rig is not None] == [
        "a.rig.yaml",
        "a.rig.yaml",
        "b.rig.yaml",
    ]


@pytest.mark.parametrize(("names", "due"), [(("a", "b"), ["tidy:asset-twice"]), (("b",), [])])
def test_only_files_of_the_run_count(tmp_path: Path, names: tuple[str, ...], due: list[str]) -> None:
    (tmp_path / "rigmint.yaml").write_text("rigmint_library: 1\n", encoding="utf-8")
    for name in ("a", "b"):
        (tmp_path / f"{name}.rig.yaml").write_text(TEXT + "job: Saltmarsh\n", encoding="utf-8")
    paths = [tmp_path / f"{name}.rig.yaml" for name in names]
    report = check_paths(paths, library=None, today=datetime.date(2026, 5, 2), setup=None, prove=True)
    found = [finding.code for one in report.files for finding in one.findings if finding.code.startswith("tidy:asset")]

    assert found == due


def test_two_libraries_share_no_job(tmp_path: Path) -> None:
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "rigmint.yaml").write_text("rigmint_library: 1\n", encoding="utf-8")
        (tmp_path / name / "one.rig.yaml").write_text(TEXT + "job: Saltmarsh\n", encoding="utf-8")
    report = check_paths([tmp_path], library=None, today=datetime.date(2026, 5, 2), setup=None, prove=False)

    assert len(report.files) == 2
    assert not [one for file in report.files for one in file.findings if one.code == "tidy:asset-twice"]


def test_naming_a_person_keeps_those_who_are_named() -> None:
    rig = make_rig(
        "kit: {head: generic/head-handheld, desk: generic/desk-wheels}\n"
        "crew: {operator: [desk], carrier: [head]}\n"
        "setups: {two_up: {who: {pan: operator}}, walk: {}}\n"
    )
    edits = list_edits((NameWho("head.pan", "pan", "carrier", "operator", "walk"),), rig, {}, ("two_up", "walk"))

    assert [(edit.path, edit.value) for edit in edits] == [
        (("setups", "two_up", "who", "pan"), ["operator", "carrier"]),
        (("setups", "walk", "who", "pan"), ["operator", "carrier"]),
    ]


def test_packing_spares_adds_an_entry_or_raises_its_count() -> None:
    rig = make_rig("kit: {camera: generic/camera-compact}\n")
    added, raised = (
        list_edits((PackSpares("house/battery", 3, "day", index),), rig, {}, ("as_wired",))[0] for index in (None, 1)
    )

    assert (added.do, added.path, added.value) == (
        "add",
        ("also",),
        {"part": "house/battery", "count": 3, "why": "day"},
    )
    assert (raised.do, raised.path, raised.value) == ("set", ("also", 1, "count"), 3)
