"""The benchmark's rigs: always the same, all different, quiet where they are sound and found out where they are not."""

from __future__ import annotations

import datetime
import sys
from pathlib import Path

import pytest

from rigmint.lint.run import check_paths
from rigmint.words import Grade

sys.path.insert(0, str(Path(__file__).parent))

from make_library import is_faulty, make_rig, write_library


@pytest.fixture
def rigs(tmp_path: Path) -> list[Path]:
    return write_library(tmp_path / "library", 160)


def test_rigs_are_the_same_for_a_seed_and_differ_from_each_other() -> None:
    texts = [make_rig(number).split("\n", 1)[1] for number in range(100)]

    assert [make_rig(number).split("\n", 1)[1] for number in range(100)] == texts
    assert make_rig(0, seed=1) != make_rig(0)
    assert len(set(texts)) == 100
    assert sum(is_faulty(number) for number in range(1000)) == 50


def test_sound_rigs_are_quiet_and_faults_are_found(rigs: list[Path]) -> None:
    faulty = [rig for number, rig in enumerate(rigs) if is_faulty(number)]
    chosen = [*rigs[:6], *faulty]
    report = check_paths(chosen, library=None, today=datetime.date(2026, 5, 2), setup=None, prove=False)
    by_name = {Path(file.file).name: file for file in report.files}
    worst = {
        rig.name: min((one.grade for one in by_name[rig.name].findings), key=lambda one: one.rank, default=None)
        for rig in chosen
    }

    assert report.unread == ()
    assert [file.unread for file in report.files] == [()] * len(chosen)
    assert [file.items for file in report.files if not 20 <= file.items <= 60] == []
    assert [worst[rig.name] for rig in rigs[:6]] == [None] * 6
    assert len(faulty) == 8
    assert [rig.name for rig in faulty if not (worst[rig.name] or Grade.TIDY).is_at_least(Grade.FIGHT)] == []
