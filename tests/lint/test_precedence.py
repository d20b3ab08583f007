"""Which finding speaks: the table of the rules that fall silent, row by row."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rigmint.lint.finding import Finding
from rigmint.lint.precedence import keep_speaking
from rigmint.words import Grade
from tests.lint.rules import make_finding

ROWS = [
    *("polarity:shorted polarity:reversed polarity:signal polarity:no-return voltage:over backfeed:tied-sources"
      " backfeed:into-output misplug:burns", "fit:port-taken fit:wrong-way-round fit:wrong-port fit:no-wire fit:chain-order",
      "owner:mixed owner:two owner:unintended owner:nobody", "owner:wrong-ring owner:nobody",
      "follow:on follow:reachable settings:unstated", "radio:out-of-reach radio:near-reach radio:control-dies-first",
      "voltage:collapse voltage:unpowered voltage:above-window voltage:under current:over"),
    *("drive:no-mesh drive:no-stops", "drive:no-mesh drive:too-strong", "drive:no-mesh drive:weak",
      "drive:no-mesh drive:slow"),
]  # fmt: skip
PAIRS = [(row.split()[i], row.split()[j]) for row in ROWS for j in range(len(row.split())) for i in range(j)]


def list_codes(*findings: Finding) -> list[str]:
    """The codes that speak."""
    return [finding.code for finding in keep_speaking(findings)]


@pytest.mark.parametrize(("speaks", "silent"), PAIRS)
def test_at_one_cause_the_left_silences_the_right(speaks: str, silent: str) -> None:
    one = make_finding(speaks, "camera.dc_in", "P1", Grade.THIN)
    other = make_finding(silent, "camera.dc_in", "P1", Grade.THIN)

    assert list_codes(one, other) == [speaks]
    assert list_codes(other, one) == [speaks]


@pytest.mark.parametrize(("speaks", "silent"), PAIRS)
def test_at_another_cause_and_place_both_speak(speaks: str, silent: str) -> None:
    one = make_finding(speaks, "camera.dc_in", "P1", Grade.THIN)
    other = make_finding(silent, "head.dc_in", "P2", Grade.THIN)

    assert list_codes(one, other) == [speaks, silent]


def test_what_is_silenced_silences_in_its_turn() -> None:
    findings = [
        make_finding(code, "a", "P1", Grade.THIN) for code in ("polarity:reversed", "voltage:over", "misplug:burns")
    ]

    assert list_codes(*findings) == ["polarity:reversed"]


def test_two_findings_of_one_rank_both_speak() -> None:
    findings = [make_finding("voltage:over", place, "P1") for place in ("a", "b")]

    assert list_codes(*findings) == ["voltage:over", "voltage:over"]


@pytest.mark.parametrize(
    ("code", "speaks"),
    [("polarity:reversed", False), ("voltage:under", False), ("owner:nobody", False), ("tidy:unused-item", False)],
)
def test_a_lead_that_does_not_mate_silences_all_of_it(code: str, speaks: bool) -> None:
    misfit = make_finding("fit:no-mate", "camera.dc_in", "P1")
    same, other = make_finding(code, "x", "P1"), make_finding(code, "y", "P2")

    assert list_codes(misfit, same, other) == ["fit:no-mate", *([code] if speaks else []), code]


@pytest.mark.parametrize("cause", ["fit:no-mate", "fit:wrong-port", "fit:no-wire"])
@pytest.mark.parametrize("behind", ["owner:nobody", "picture:nobody"])
def test_what_is_missing_behind_a_lead_is_silent(cause: str, behind: str) -> None:
    assert list_codes(make_finding(cause, "a", "B1"), make_finding(behind, "lens.focus", "B1")) == [cause]


@pytest.mark.parametrize(
    ("burn", "voltage", "speaks"),
    [
        ("polarity:reversed", "voltage:under", False),
        ("voltage:over", "voltage:above-window", False),
        ("backfeed:into-output", "voltage:unpowered", False),
        ("current:over", "voltage:under", True),
    ],
)
def test_a_burn_at_a_port_silences_the_rest_of_voltage_there(burn: str, voltage: str, speaks: bool) -> None:
    one = make_finding(burn, "head.dc_in", "P1", Grade.BURN, also=("camera.dc_in",))
    other = make_finding(voltage, "camera.dc_in", "P2", Grade.DEAD)

    assert (voltage in list_codes(one, other)) is speaks


def test_a_mild_finding_at_a_port_silences_nothing_there() -> None:
    one = make_finding("backfeed:into-output", "camera.dc_in", "P1", Grade.THIN)
    other = make_finding("voltage:under", "camera.dc_in", "P2", Grade.DEAD)

    assert list_codes(one, other) == ["backfeed:into-output", "voltage:under"]


@pytest.mark.parametrize(("named", "speaks"), [(("clock.tc", "camera"), False), (("sync.tc", "camera"), True)])
def test_an_unused_item_that_is_missed_is_told_once(named: tuple[str, ...], speaks: bool) -> None:
    missed = replace(make_finding("signal:nobody", "camera.clock", "camera", Grade.DEAD), path=named)
    unused = make_finding("tidy:unused-item", "clock", "clock", Grade.TIDY)

    assert list_codes(missed, unused) == ["signal:nobody", *(["tidy:unused-item"] if speaks else [])]


def test_an_idle_control_behind_a_lead_that_does_not_fit_is_silent() -> None:
    misfit = make_finding("fit:no-mate", "hand.bus", "B1", Grade.DEAD, also=("lens.focus",))

    assert list_codes(misfit, make_finding("tidy:idle-control", "lens.focus", "hand", Grade.TIDY)) == ["fit:no-mate"]


def test_what_is_only_thin_does_not_silence_what_is_dead() -> None:
    thin = make_finding("voltage:under", "camera.dc_in", "P1", Grade.THIN)
    dead = make_finding("current:over", "camera.dc_in", "P1", Grade.DEAD)
    tight = make_finding("current:over", "camera.dc_in", "P1", Grade.THIN)

    assert list_codes(thin, dead) == ["voltage:under", "current:over"]
    assert list_codes(thin, tight) == ["voltage:under"]
