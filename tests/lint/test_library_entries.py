"""What is said of the library's own acceptances: once, in its file, and of an entry that matches nothing only where all
rigs of the library were checked."""

from __future__ import annotations

import datetime
import shutil
from pathlib import Path

import pytest

from rigmint.lint.run import check_paths

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
TODAY = datetime.date(2026, 5, 2)
LIBRARY = """\
rigmint_library: 1
title: Kestrel Hire
parts: [parts]
accepted:
"""
FOLLOWS = "settings: {head.follow_pan: on}\n"
SHORT_PAIR = "leads: {P2: {part: generic/lead-2pin-plus-first}}\n"
BY_PART = 'code: "follow:on", at: "kestrel/head-large-pan-stop.*"'


def check(folder: Path, entry: str, rigs: dict[str, str], only: str | None = None) -> list[tuple[str, str, int, str]]:
    """(file, code, line, words) of what is found, of accepted findings the word `signed`. Each rig starts from one that
    is sound."""
    shutil.copytree(EXAMPLES / "parts", folder / "parts")
    (folder / "rigmint.yaml").write_text(f"{LIBRARY}  - {{{entry}, why: meant, by: prep lead}}\n", encoding="utf-8")
    base = (EXAMPLES / "rigs" / "saltmarsh-two-up.rig.yaml").read_text(encoding="utf-8")
    (folder / "base.rig.yaml").write_text(base, encoding="utf-8")
    for name, text in rigs.items():
        head = "rigmint: 1\nrig: Saltmarsh\nlike: base.rig.yaml\n"
        (folder / f"{name}.rig.yaml").write_text(head + text, encoding="utf-8")
    paths = [folder / f"{only}.rig.yaml" if only else folder]
    report = check_paths(paths, library=None, today=TODAY, setup=None, prove=False)
    return [
        (Path(file.file).name, one.code, one.position.line, "signed" if one.accepted else one.says)
        for file in report.files
        for one in file.findings
    ]


def test_signs_by_part_and_pattern_in_every_rig(tmp_path: Path) -> None:
    found = check(tmp_path, BY_PART, {"a": FOLLOWS, "b": FOLLOWS})

    assert found == [("a.rig.yaml", "follow:on", 4, "signed"), ("b.rig.yaml", "follow:on", 4, "signed")]


def test_says_once_that_an_entry_has_expired(tmp_path: Path) -> None:
    found = check(tmp_path, f"{BY_PART}, until: 2026-05-01", {"a": FOLLOWS, "b": FOLLOWS})

    assert [one[:3] for one in found] == [
        ("a.rig.yaml", "follow:on", 4),
        ("b.rig.yaml", "follow:on", 4),
        ("rigmint.yaml", "accepted:expired", 5),
    ]


def test_says_why_an_entry_without_a_day_does_not_count_for_what_burns(tmp_path: Path) -> None:
    found = check(tmp_path, 'code: "polarity:shorted", at: "generic/lead-2pin-plus-first"', {"a": SHORT_PAIR})

    told = [one for one in found if not one[1].startswith("misplug:")]
    assert [one[:3] for one in told] == [
        ("a.rig.yaml", "polarity:shorted", 4),
        ("rigmint.yaml", "accepted:expired", 5),
    ]
    assert "signed for only `until` a day" in told[1][3]


@pytest.mark.parametrize(("only", "is_said"), [(None, True), ("base", False)])
def test_an_entry_that_matches_nothing(tmp_path: Path, only: str | None, is_said: bool) -> None:
    found = check(tmp_path, BY_PART, {"a": ""}, only)

    assert [one[:3] for one in found] == ([("rigmint.yaml", "accepted:stale", 5)] if is_said else [])


def test_nothing_is_said_of_an_entry_for_a_code_of_no_installed_rule(tmp_path: Path) -> None:
    assert check(tmp_path, 'code: "house:a", at: "*"', {"a": ""}) == []
