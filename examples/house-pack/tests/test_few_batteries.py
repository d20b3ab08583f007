"""`kestrel:few-batteries`."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, find_line

CODE = "kestrel:few-batteries"
RIG = """\
rigmint: 1
rig: Saltmarsh, on the bench
kit:
  battery: generic/battery-98wh-wedge  # here
  plate: generic/plate-wedge-two-tap
docks: [battery.mount > plate.battery]
also: [{part: SPARE, count: NUMBER}]
"""


def make_rig(part: str, number: int) -> str:
    return RIG.replace("SPARE", part).replace("NUMBER", str(number))


@pytest.mark.parametrize(
    ("part", "number", "says"),
    [
        ("generic/battery-98wh-wedge", 1, "1 of generic/battery-98wh-wedge in the case for 1 on the rig; the house sends 2."),
        ("generic/battery-98wh-stud", 4, "0 of generic/battery-98wh-wedge in the case for 1 on the rig; the house sends 2."),
    ],
)  # fmt: skip
def test_counts_spares_of_the_same_battery(part: str, number: int, says: str) -> None:
    rig = make_rig(part, number)
    report = check_text(rig)
    finding = assert_finds(report, CODE, line=find_line(rig), at="battery", cause="battery", grade=Grade.THIN)

    assert finding.says == says


def test_is_silent_where_there_are_enough() -> None:
    assert_silent(check_text(make_rig("generic/battery-98wh-wedge", 2)), CODE)


def test_the_library_says_how_many_are_enough() -> None:
    library = "rigmint_library: 1\nparts: [parts]\nrules: {kestrel:few-batteries: {spares: 1}}\n"

    assert_silent(check_text(make_rig("generic/battery-98wh-wedge", 1), library_yaml=library), CODE)


def test_a_rig_on_the_mains_needs_none() -> None:
    assert_silent(check_text("rigmint: 1\nrig: Saltmarsh, mains\nkit: {supply: generic/supply-mains-12v}\n"), CODE)
