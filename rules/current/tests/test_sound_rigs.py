"""The sound rigs from which the tests of this pack start are quiet."""

from __future__ import annotations

import pytest

from rigmint.testing import assert_silent, check_text, show_report

from .parts import PARTS
from .rigs import HAND_HELD, TWO_BATTERIES, VEHICLE, WITH_MONITOR


@pytest.mark.parametrize("rig", [HAND_HELD, WITH_MONITOR, VEHICLE, TWO_BATTERIES])
def test_sound_rigs_are_quiet(rig: str) -> None:
    report = check_text(rig, PARTS)

    assert_silent(report)
    families = {finding.code.partition(":")[0] for finding in report.findings}
    assert not families & {"current", "ground", "runtime"}, show_report(report)
