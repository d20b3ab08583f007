"""The pack as a whole: texts, tests and README of every rule; and that its sound rigs are quiet."""

from __future__ import annotations

from pathlib import Path

import pytest

from rigmint.testing import assert_pack, assert_silent, check_text, show_report

from .parts import PARTS
from .rigs import HAND_HELD, TWO_BATTERIES, VEHICLE, WITH_MONITOR


def test_every_rule_is_explained_tested_and_listed() -> None:
    assert_pack("current", Path(__file__).parent.parent)


@pytest.mark.parametrize("rig", [HAND_HELD, WITH_MONITOR, VEHICLE, TWO_BATTERIES])
def test_sound_rigs_are_quiet(rig: str) -> None:
    report = check_text(rig, PARTS)

    assert_silent(report)
    families = {finding.code.partition(":")[0] for finding in report.findings}
    assert not families & {"current", "ground", "runtime"}, show_report(report)
