"""`travel:battery`: what passengers may not simply carry. Limits: IATA, Passengers travelling with lithium batteries,
2018 (DGR table 2.3.A); 49 CFR 175.10, 2018."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import TRIPOD

CODE = "travel:battery"
FLIES = edit_text(TRIPOD, ("battery: house/battery-98", "battery: house/battery-98  # here")) + "needs: {flies: true}\n"
FAULT = edit_text(FLIES, ("house/battery-98", "house/battery-150"))


def with_spares(rig: str, part: str, count: int) -> str:
    """The rig with spares in the case, on the line that is marked."""
    return rig.replace("  # here", "") + f"also:\n  - {{part: {part}, count: {count}}}  # here\n"


def test_finds_a_battery_that_needs_approval_and_names_the_documents() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="battery", cause="battery", grade=Grade.THIN
    )
    assert finding.says == (
        "battery (150 Wh): over 100 Wh each needs the airline's approval before travel. By IATA, Passengers travelling"
        " with lithium batteries, 2018 edition (DGR table 2.3.A); 49 CFR 175.10, 2018 edition: ask the airline for the"
        " edition in force."
    )


def test_is_silent_up_to_100_watt_hours() -> None:
    assert_silent(check_text(FLIES, PARTS), CODE)


def test_is_silent_where_the_rig_does_not_fly() -> None:
    assert_silent(check_text(edit_text(FAULT, ("flies: true", "flies: false")), PARTS), CODE)
    assert_silent(check_text(edit_text(FAULT, ("needs: {flies: true}\n", "")), PARTS), CODE)


@pytest.mark.parametrize(
    ("volts", "amp_hours", "says"),
    [
        (14.4, 6.8, None),
        (14.8, 6.6, None),
        (14.4, 6.94, None),
        (14.4, 6.95, "approval"),
        (14.4, 10.2, "approval"),
        (14.4, 11.1, "approval"),
        (14.4, 11.12, "no lithium battery flies"),
        (26.0, 5.6, "approval"),
        (1.0, 100.0, None),
        (1.0, 160.0, "approval"),
        (1.0, 160.001, "no lithium battery flies"),
    ],
)
def test_limits_include_their_own_value(volts: float, amp_hours: float, says: str | None) -> None:
    """Watt-hours are volts times ampere-hours; "not exceeding 100 Wh", "not exceeding 160 Wh"."""
    parts = edit_text(PARTS, ("energy: 98 Wh", f"energy: {volts * amp_hours:.6f} Wh"))
    found = [one.says for one in check_text(FLIES, parts).findings if one.code == CODE]

    assert len(found) == (says is not None)
    assert says is None or says in found[0]


def test_counts_two_spares_a_person_over_100_watt_hours() -> None:
    """Two people are named in the crew, so four spares may go with approval, and a fifth stays."""
    for count, limit in ((4, None), (5, 4.0)):
        rig = with_spares(FLIES, "house/battery-150", count)
        finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="also.0", cause="also.0")

        assert f"{count} of them are spares" in finding.says
        assert "at most 2 a person, 4 for 2 people" in finding.says
        assert finding.measured is not None
        assert (finding.measured.limit if finding.measured.unit == "spares" else None) == limit
        assert ("Leave 1 of the spares" in finding.fixes[0].says) == (limit is not None)


def test_counts_twenty_spares_a_person_up_to_100_watt_hours() -> None:
    rig = with_spares(FLIES, "house/battery-98", 41)

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="also.0", cause="also.0")
    assert "41 spare batteries of up to 100 Wh" in finding.says
    assert_silent(check_text(edit_text(rig, ("count: 41", "count: 40")), PARTS), CODE)


def test_the_library_says_how_many_travel() -> None:
    library = "rigmint_library: 1\nparts: [parts]\nrules: {travel:battery: {people: 3}}\n"
    rig = with_spares(FLIES, "house/battery-98", 41)

    assert_silent(check_text(rig, PARTS, library_yaml=library), CODE)


def test_a_loose_pack_is_a_spare() -> None:
    rig = edit_text(FAULT, ("  - battery.mount > plate.battery\n", ""))

    report = check_text(rig, PARTS)
    assert [one.says for one in report.findings if one.code == CODE and "1 of them is a spare" in one.says]


def test_what_is_no_baggage_is_one_finding_and_what_needs_approval_another() -> None:
    rig = with_spares(edit_text(FAULT, ("house/battery-150", "house/battery-270")), "house/battery-150", 1)
    report = check_text(rig, PARTS)

    assert [(one.at, one.position.line) for one in report.findings if one.code == CODE] == [
        ("battery", 5),
        ("also.0", find_line(rig)),
    ]


def test_a_battery_of_unstated_chemistry_counts_and_is_assumed() -> None:
    rig = edit_text(FLIES, ("house/battery-98", "house/battery-silent"))

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="battery", cause="battery")
    assert finding.assumed == ("battery.pack chemistry",)


def test_is_silent_on_a_battery_that_is_no_lithium_one() -> None:
    assert_silent(check_text(edit_text(FLIES, ("house/battery-98", "house/battery-lead")), PARTS), CODE)
