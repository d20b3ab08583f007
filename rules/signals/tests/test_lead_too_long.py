"""`picture:lead-too-long`: coax that loses more than the standard's budget."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import CABLE

CODE = "picture:lead-too-long"
S1 = "S1: {part: house/coax, from: camera.sdi, to: monitor.sdi_in}"


def lay(metres: int, part: str = "coax") -> str:
    """The rig with a lead of this length: 0.2 dB a metre at 742.5 MHz, half the clock of SMPTE ST 292-1."""
    return edit_text(
        CABLE, (S1, f"S1: {{part: house/{part}, from: camera.sdi, to: monitor.sdi_in, length: {metres} m}}  # here")
    )


FAULT = lay(110)


def test_finds_22_db_against_a_budget_of_20() -> None:
    """1080p25: 110 m at 0.2 dB, against the 20 dB of SMPTE ST 292-1."""
    finding = assert_finds(check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="S1", cause="S1", grade=Grade.THIN)
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(22.0)
    assert (finding.measured.limit, finding.measured.unit) == (20.0, "dB")
    assert finding.says == "S1 loses 22 dB at 0.743 GHz, half the clock of 1080p25; the budget is 20 dB."
    assert finding.fixes[0].says == "Use at most 100 m of this coax for S1."


def test_is_silent_at_the_length_of_the_fix() -> None:
    assert_silent(check_text(lay(100), PARTS), CODE)


@pytest.mark.parametrize(
    ("name", "metres", "found"),
    [
        # The root of the frequency: twice the clock costs 1.414, and 100 m shrink to 70.7 m.
        ("1080p50", 70, False),
        ("1080p50", 72, True),
        # 6 Gbit/s: twice the loss of 1.5 Gbit/s, against 40 dB (SMPTE ST 2081-1): 100 m again.
        ("2160p25", 99, False),
        ("2160p25", 102, True),
    ],
)
def test_the_format_decides(name: str, metres: int, found: bool) -> None:
    rig = lay(metres) + f"settings: {{camera.format: {name}}}\n"

    codes = {finding.code for finding in check_text(rig, PARTS).findings}

    assert (CODE in codes) is found


def test_adds_up_leads_that_a_passive_loop_joins() -> None:
    rig = """\
rigmint: 1
rig: Saltmarsh, a loop half way
kit: {camera: house/camera, loop: house/monitor, monitor: house/monitor}
leads:
  S1: {part: house/coax, from: camera.sdi, to: loop.sdi_in, length: 50 m}
  S2: {part: house/coax, from: loop.sdi_out, to: monitor.sdi_in, length: 60 m}  # here
"""
    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="S2", cause="S2")
    assert finding.says.startswith("S1 and S2 together lose 22 dB at")
    assert finding.also == ("S1",)
    assert finding.fixes[0].says == "Use at most 50 m of this coax for S2."


def test_is_silent_where_a_device_renews_the_signal_half_way() -> None:
    rig = """\
rigmint: 1
rig: Saltmarsh, a converter half way
kit: {camera: house/camera, scaler: house/scaler, monitor: house/monitor}
leads:
  S1: {part: house/coax, from: camera.sdi, to: scaler.sdi_in, length: 50 m}
  S2: {part: house/coax, from: scaler.sdi_out, to: monitor.sdi_in, length: 60 m}
"""
    assert_silent(check_text(rig, PARTS), CODE)


def test_says_where_a_long_lead_states_no_loss() -> None:
    report = check_text(lay(60, "coax-plain"), PARTS)

    assert_silent(report, CODE)
    assert [(one.code, one.needs, one.at) for one in report.unknown] == [(CODE, "loss", "S1")]


def test_says_nothing_of_a_short_lead_without_a_loss() -> None:
    assert check_text(lay(10, "coax-plain"), PARTS).unknown == ()


def test_a_house_sets_its_own_budget() -> None:
    library = "rigmint_library: 1\nparts: [parts]\nrules: {picture:lead-too-long: {budget: 30 dB}}\n"

    assert_silent(check_text(FAULT, PARTS, library_yaml=library), CODE)
