"""`runtime:short`: a battery does not last as long as the job asks."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, check_texts, edit_text, find_line

from .parts import PARTS
from .rigs import HAND_HELD, TWO_BATTERIES

CODE = "runtime:short"
FAULT = (
    edit_text(HAND_HELD, ("battery: house/battery", "battery: house/battery  # here")) + "needs: {runtime: 150 min}\n"
)
LIBRARY = "rigmint_library: 1\nparts: [parts]\nrules: {runtime:short: {at_least: 150 min}}\n"


def test_finds_a_battery_that_is_too_small() -> None:
    """98 Wh, 36 W and about 2 % in the leads and the battery, to 15 % left, aged to 85 %: just under two hours."""
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="battery", cause="battery", grade=Grade.THIN
    )
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(98 / 36.7 * 0.87 * 0.85 * 3600, rel=0.03)
    assert finding.measured.limit == 150 * 60.0


def test_is_silent_where_it_lasts() -> None:
    assert_silent(check_text(edit_text(FAULT, ("runtime: 150 min", "runtime: 100 min")), PARTS), CODE)


def test_is_silent_where_nobody_asks() -> None:
    assert_silent(check_text(HAND_HELD, PARTS), CODE)


def test_the_library_asks_where_the_rig_does_not() -> None:
    rig = edit_text(HAND_HELD, ("battery: house/battery", "battery: house/battery  # here"))
    report = check_text(rig, PARTS, library_yaml=LIBRARY)

    assert_finds(report, CODE, line=find_line(rig), at="battery", cause="battery")


def test_the_rig_wins_over_the_library() -> None:
    report = check_text(edit_text(FAULT, ("runtime: 150 min", "runtime: 60 min")), PARTS, library_yaml=LIBRARY)

    assert_silent(report, CODE)


def test_cold_takes_its_part() -> None:
    """100 min are there at 5 degC; at -10 degC the battery gives 60 %."""
    cold = edit_text(FAULT, ("{runtime: 150 min}", "{runtime: 100 min, temperature: -10 degC}"))
    mild = edit_text(FAULT, ("{runtime: 150 min}", "{runtime: 100 min, temperature: 5 degC}"))

    finding = assert_finds(check_text(cold, PARTS), CODE, line=find_line(cold), at="battery", cause="battery")
    assert_silent(check_text(mild, PARTS), CODE)
    whole = assert_finds(check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="battery", cause="battery")
    assert finding.measured is not None
    assert whole.measured is not None
    assert finding.measured.value == pytest.approx(0.6 * whole.measured.value)


def test_names_the_port_that_leaves_its_window_first() -> None:
    parts = edit_text(PARTS, ("role: in, works: 11 to 17 V", "role: in, works: 14.2 to 17 V"))

    finding = assert_finds(
        check_text(FAULT, parts), CODE, line=find_line(FAULT), at="battery", cause="battery", worst=Grade.BURN
    )
    assert "until camera.dc_in leaves its window" in finding.says


DAY = edit_text(HAND_HELD, ("battery: house/battery", "battery: house/battery  # here")) + "needs: {day: 10 h}\n"
"""One pack lasts just under two hours (98 Wh, 36.7 W, to 15 % left, aged to 85 %), so the day takes six."""


def with_spares(count: int, part: str = "house/battery") -> str:
    return DAY.replace("  # here", "") + f"also:\n  - {{part: {part}, count: {count}}}  # here\n"


def test_finds_too_few_packs_for_the_day() -> None:
    rig = with_spares(2)

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="also.0", cause="also.0", grade=Grade.THIN
    )
    assert finding.says == (
        "3 × Battery 98 Wh (1 on the rig, 2 in the case) last about 5 h 55 min of a day of 10 h: 6 full ones are needed"
        " without a charger."
    )
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(3 * 98 / 36.7 * 0.87 * 0.85 * 3600, rel=0.03)
    assert finding.measured.limit == 36000.0
    assert finding.fixes[0].says == "Pack 3 × Battery 98 Wh more."
    assert [(edit.path, edit.value) for edit in finding.fixes[0].edits] == [(("also", 0, "count"), 5)]


def test_blames_the_battery_where_nothing_is_in_the_case() -> None:
    finding = assert_finds(check_text(DAY, PARTS), CODE, line=find_line(DAY), at="battery", cause="battery")

    assert [(edit.do, edit.path, edit.value) for edit in finding.fixes[0].edits] == [
        ("add", ("also",), {"part": "house/battery", "count": 5, "why": "day"})
    ]


def test_is_silent_where_the_packs_last_the_day() -> None:
    assert_silent(check_text(with_spares(5), PARTS), CODE)


def test_is_silent_where_nobody_states_a_day() -> None:
    assert_silent(check_text(edit_text(with_spares(1), ("needs: {day: 10 h}\n", "")), PARTS), CODE)


def test_counts_other_packs_that_fit_by_their_energy() -> None:
    """Five of 98 Wh are missing, 490 Wh: four of 122.5 Wh stand in for them and three do not; a pack on another mount
    counts for nothing."""
    parts = (
        PARTS
        + """
  - {rigmint_part: 1, id: house/battery-large, name: Larger one, kind: battery, like: house/battery, cells: {pack: {energy: 122.5 Wh}}}
  - {rigmint_part: 1, id: house/battery-stud, name: Another mount, kind: battery, like: house/battery, ports: {mount: {connector: plate-stud}}}
"""
    )

    assert_silent(check_text(with_spares(4, "house/battery-large"), parts), CODE)
    for count, part in ((3, "house/battery-large"), (9, "house/battery-stud")):
        found = [one.code for one in check_text(with_spares(count, part), parts).findings]
        assert found == [CODE]


def test_is_silent_where_a_charger_takes_the_packs() -> None:
    parts = (
        PARTS
        + """
  - rigmint_part: 1
    id: house/charger
    name: Charger
    kind: supply
    ports: {bay: {connector: plate-wedge, sex: socket, pins: power, role: out, survives: -0.3 to 20 V}}
    rails: {main: {}}
"""
    )
    charger = "  - {part: house/charger}\n"

    assert_silent(check_text(with_spares(1) + charger, parts), CODE)
    wrong = edit_text(parts, ("ports: {bay: {connector: plate-wedge,", "ports: {bay: {connector: plate-stud,"))
    assert [one.code for one in check_text(with_spares(1) + charger, wrong).findings] == [CODE]


def test_the_cases_of_a_job_are_shared() -> None:
    """Four packs of the other rig are to spare: it has five in the case and needs one."""
    short = with_spares(1) + "job: Saltmarsh\n"
    rich = edit_text(with_spares(5), ("day: 10 h", "day: 90 min")) + "job: Saltmarsh\n"
    files = {"parts.part.yaml": PARTS}

    assert_silent(check_texts({"a_unit": short, "b_unit": rich}, files)["a_unit"], CODE)
    for other in (edit_text(rich, ("job: Saltmarsh", "job: Oat Field")), edit_text(rich, ("day: 90 min", "day: 10 h"))):
        report = check_texts({"a_unit": short, "b_unit": other}, files)["a_unit"]
        assert_finds(report, CODE, line=find_line(short), at="also.0", cause="also.0")


def test_says_nothing_of_the_day_where_the_supply_collapses() -> None:
    """1 kW out of 80 mohm at 14.4 V: the most that it can give is 648 W."""
    parts = edit_text(PARTS, ("rails: {main: {load: 36 W, peak: 40 W, start: 60 W}}", "rails: {main: {load: 1000 W}}"))

    assert_silent(check_text(with_spares(2), parts), CODE, worst=Grade.HURT)


def test_packs_of_one_kind_are_counted_together() -> None:
    rig = TWO_BATTERIES + "needs: {stays_up: [camera], day: 10 h}\n"
    rig = rig.replace("needs: {stays_up: [camera]}\n", "", 1)

    finding = assert_finds(check_text(rig, PARTS), CODE, line=4, at="battery_a", cause="battery_a")
    assert finding.also == ("battery_b",)
    assert "2 × Battery 98 Wh (2 on the rig, 0 in the case)" in finding.says
