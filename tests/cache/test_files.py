"""Cached results of files: found as long as all that they rest on is as it was, and not a change longer."""

from __future__ import annotations

import datetime
import os
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from rigmint.lint.job import guess_job
from rigmint.lint.lasting import Days, find_days
from rigmint.rig.rig import Acceptance
from tests.cache.library import BASE, DAY, LIBRARY, PART, RIGS, Runs, lay_down


@pytest.fixture
def runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Runs:
    monkeypatch.chdir(lay_down(tmp_path / "library"))
    return Runs(tmp_path / "library", tmp_path / "cache")


def write(runs: Runs, name: str, text: str) -> None:
    path = runs.folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def edit(name: str, old: str, new: str) -> Callable[[Runs], None]:
    def change(runs: Runs) -> None:
        text = (runs.folder / name).read_text(encoding="utf-8")
        assert text.count(old) == 1
        write(runs, name, text.replace(old, new))

    return change


def test_an_unchanged_library_is_not_checked_again(runs: Runs) -> None:
    first, at_first = runs.run()
    again, later = runs.run()

    assert (at_first, later) == (len(RIGS), 0)
    assert again == first


@pytest.mark.parametrize(
    ("change", "checked"),
    [
        (edit("e.rig.yaml", "rig: E", "rig: F"), 1),
        (edit("a.rig.yaml", "rig: Saltmarsh", "says: x\nrig: Saltmarsh"), 2),  # b starts from it
        (edit("c.rig.yaml", "rig: C", "rig: G"), 2),  # d is on its job
        (edit("c.rig.yaml", "job: Oat Field", "job: Tin Kite"), 3),  # c, d that it leaves, e that it joins
        (edit("c.rig.yaml", "job: Oat Field\n", ""), 2),
        (lambda runs: write(runs, "g.rig.yaml", RIGS["e"].replace("rig: E", "rig: G")), 2),
        (lambda runs: (runs.folder / "d.rig.yaml").unlink(), 1),
        (edit("parts/plate.part.yaml", "kind: plate", "kind: plate\nmass: 200 g"), 7),
        (lambda runs: write(runs, "parts/z.part.yaml", PART.replace("house/plate", "house/other")), 7),
        (lambda runs: (runs.folder / "parts/plate.part.yaml").rename(runs.folder / "parts/p.part.yaml"), 7),
        (lambda runs: write(runs, "parts/own.protocols.yaml", "rigmint_protocols: 1\nprotocols: {}\n"), 7),
        (edit("rigmint.yaml", "rigmint_library: 1", "rigmint_library: 1\nfail_on: thin"), 7),
        (edit("rigmint.yaml", "rigmint_library: 1", "rigmint_library: 1\n# nothing"), 7),
        (lambda runs: (runs.folder / "rigmint.yaml").rename(runs.folder / "gone.yaml"), 7),
    ],
)
def test_what_a_result_rests_on(runs: Runs, change: Callable[[Runs], None], checked: int) -> None:
    runs.run()
    change(runs)
    report, anew = runs.run()
    fresh, all_of_them = runs.run(fresh=True)
    again, none = runs.run()

    assert (anew, none) == (checked, 0)
    assert report == fresh == again
    assert all_of_them == len(list(runs.folder.glob("*.rig.yaml")))


def test_going_back_to_an_older_state_finds_it(runs: Runs) -> None:
    runs.run()
    for text in (RIGS["c"].replace("rig: C", "rig: G"), RIGS["c"]):
        write(runs, "c.rig.yaml", text)
        _, checked = runs.run()

    assert checked == 0


@pytest.mark.parametrize("asked", [{"setup": "as_wired"}, {"prove": True}])
def test_what_was_asked_counts(runs: Runs, asked: dict[str, object]) -> None:
    runs.run()
    report, checked = runs.run(**asked)  # type: ignore[arg-type]
    again, none = runs.run(**asked)  # type: ignore[arg-type]

    assert (checked, none) == (7, 0)
    assert again == report


def test_a_run_of_fewer_files_takes_what_does_not_rest_on_the_rest(runs: Runs) -> None:
    runs.run()
    few = replace(runs, paths=("a.rig.yaml", "c.rig.yaml"))
    report, checked = few.run()
    fresh, _ = few.run(fresh=True)

    assert checked == 1  # c is alone on its job now
    assert report == fresh


def test_a_nearer_library_counts(runs: Runs) -> None:
    (runs.folder / "inner").mkdir()
    (runs.folder / "a.rig.yaml").rename(runs.folder / "inner" / "a.rig.yaml")
    write(runs, "b.rig.yaml", RIGS["e"])
    inner = replace(runs, paths=("inner",))
    inner.run()
    write(runs, "inner/rigmint.yaml", "rigmint_library: 1\nfail_on: thin\n")
    report, checked = inner.run()

    assert checked == 1
    assert [fault.code for file in report.files for fault in file.unread] == ["file:unknown-name"]  # house/plate


def test_house_files_count(runs: Runs) -> None:
    write(runs, "rigmint.yaml", LIBRARY + "house: {rig: house/rig.schema.json, checks: [house/checks.py]}\n")
    write(runs, "house/rig.schema.json", "{}")
    write(runs, "house/checks.py", "from rigmint import Grade, Rule\n" + _HOUSE_RULE)
    runs.run(house_checks=True)
    steps = [runs.run(house_checks=True)[1], runs.run(house_checks=False)[1]]
    write(runs, "house/checks.py", "from rigmint import Grade, Rule\n# other\n" + _HOUSE_RULE)
    steps.append(runs.run(house_checks=True)[1])
    write(runs, "house/rig.schema.json", '{"type": "object"}')
    steps.append(runs.run(house_checks=True)[1])

    assert steps == [0, 7, 7, 7]


_HOUSE_RULE = """
RULES = (Rule("desk:none", (Grade.TIDY,), "A", "B.", "C.", "D.", "house rule", lambda case: ()),)
"""


def test_the_code_of_a_pack_counts_also_where_it_is_installed_editable(
    runs: Runs, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site, source = tmp_path / "site", tmp_path / "source"
    info = site / "desk_pack-0.1.0.dist-info"
    info.mkdir(parents=True)
    source.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: desk-pack\nVersion: 0.1.0\n")
    (info / "entry_points.txt").write_text("[rigmint.packs]\ndesk = desk_pack\n")
    hook = "from rigmint import Grade, Rule, hookimpl\nPACK_API = 1\n@hookimpl\ndef rigmint_rules(): return RULES\n"
    (source / "desk_pack.py").write_text(hook + _HOUSE_RULE)
    monkeypatch.syspath_prepend(str(site))
    monkeypatch.syspath_prepend(str(source))
    monkeypatch.delitem(sys.modules, "desk_pack", raising=False)
    with_pack = runs.run(), runs.run()
    monkeypatch.delitem(sys.modules, "desk_pack")
    before = (source / "desk_pack.py").stat()
    (source / "desk_pack.py").write_text((hook + _HOUSE_RULE).replace("D.", "d."))
    os.utime(source / "desk_pack.py", ns=(before.st_atime_ns, before.st_mtime_ns))  # size and time tell nothing
    changed = runs.run()
    monkeypatch.delitem(sys.modules, "desk_pack")

    assert "desk" in with_pack[0][0].packs
    assert [checked for _, checked in (*with_pack, changed)] == [7, 0, 7]


def test_an_acceptance_counts_until_its_day(runs: Runs) -> None:
    entry = "accepted: [{code: lens:none, at: camera, why: x, by: prep, until: 2026-06-30}]\n"
    write(runs, "e.rig.yaml", RIGS["e"] + entry)
    days = [DAY, datetime.date(2026, 6, 30), datetime.date(2026, 7, 1), datetime.date(2027, 1, 1), DAY]

    assert [runs.run(today=day)[1] for day in days] == [7, 0, 1, 0, 1]


def test_a_file_that_cannot_be_read_is_tried_again(runs: Runs) -> None:
    write(runs, "b.rig.yaml", "rigmint: 1\nrig: B\nlike: gone.rig.yaml\n")
    runs.run()
    _, again = runs.run()
    write(runs, "gone.rig.yaml", BASE)
    report, checked = runs.run()

    assert (again, checked) == (1, 2)
    assert [file.unread for file in report.files if file.file == "b.rig.yaml"] == [()]


def test_what_the_cache_holds_may_be_nonsense(runs: Runs) -> None:
    first, _ = runs.run()
    for number, entry in enumerate(sorted(runs.cache.rglob("*.json"))):
        entry.write_bytes([b"", b"{}", b"\x00" * 100, entry.read_bytes()[:-1]][number % 4])
    again, checked = runs.run()

    assert checked == 7
    assert again == first


@pytest.mark.parametrize(
    ("text", "guess"),
    [
        ("rig: A\n", (True, None)),
        ("rig: A\njob: Oat  Field\nkit: {}\n", (True, "oat field")),
        ("job: Oat Field # the last\nkit: {}\n", (True, "oat field")),
        ("job: 12\n", (True, "12")),
        ("job: Oat Field", (True, "oat field")),
        ("job: Oat\n  Field\n", (False, None)),
        ("job: Oat\n\n  Field\n", (False, None)),
        ("job: 'Oat Field'\n", (False, None)),
        ("job: |\n  Oat\n", (False, None)),
        ("{rig: A, job: Oat}\n", (False, None)),
        ("? job\n: Oat\n", (False, None)),
        ("like: a.rig.yaml\n", (False, None)),
        ("rig: the job\njob: Oat\n", (False, None)),
        ('"\\x6aob": Oat\n', (False, None)),
        ("rig: A\rjob: Oat\r", (False, None)),
        ("job: Oat\r\nkit: {}\r\n", (False, None)),
    ],
)
def test_the_job_is_guessed_only_where_it_is_sure(text: str, guess: tuple[bool, str | None]) -> None:
    assert guess_job(text) == guess


def test_the_days_on_which_acceptances_stand_alike() -> None:
    ends = ["2026-01-31", "2026-04-30", "2026-05-02", "2026-12-31", None]
    entries = [Acceptance("a:b", "x", None, "why", "by", end, None, "here") for end in ends]
    days = find_days(entries, DAY)

    assert days == Days("2026-04-30", "2026-05-02")
    assert [days.hold(day) for day in ("2026-04-30", "2026-05-01", "2026-05-02", "2026-05-03")] == [
        False,
        True,
        True,
        False,
    ]
