"""`kestrel:few-batteries`: what is said, and the figure that a library may set. Its rigs are in rigs/."""

from __future__ import annotations

import pytest

from rigmint.testing import BenchRig, assert_finds, assert_silent, check_text

CODE = "kestrel:few-batteries"
BENCH = (
    BenchRig("Saltmarsh, on the bench")
    .put("battery", "generic/battery-98wh-wedge", here=True)
    .put("plate", "generic/plate-wedge-two-tap")
    .dock("battery.mount", "plate.battery")
)


@pytest.mark.parametrize(
    ("part", "count", "says"),
    [
        ("generic/battery-98wh-wedge", 1, "1 of generic/battery-98wh-wedge in the case for 1 on the rig; the house sends 2."),
        ("generic/battery-98wh-stud", 4, "0 of generic/battery-98wh-wedge in the case for 1 on the rig; the house sends 2."),
    ],
)  # fmt: skip
def test_counts_spares_of_the_same_battery(part: str, count: int, says: str) -> None:
    rig = BENCH.say(also=[{"part": part, "count": count}])
    finding = assert_finds(check_text(rig.text), CODE, line=rig.line, at="battery", cause="battery")

    assert finding.says == says


def test_the_library_says_how_many_are_enough() -> None:
    rig = BENCH.say(also=[{"part": "generic/battery-98wh-wedge", "count": 1}])
    library = "rigmint_library: 1\nparts: [parts]\nrules: {kestrel:few-batteries: {spares: 1}}\n"

    assert_silent(check_text(rig.text, library_yaml=library), CODE)
