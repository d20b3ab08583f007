"""`kestrel:unmarked-feed`: what is said, its fix, and the figure that a library may set. Its rigs are in rigs/."""

from __future__ import annotations

from pathlib import Path

from rigmint.testing import BenchRig, assert_finds, assert_silent, check_text

CODE = "kestrel:unmarked-feed"
PARTS = (Path(__file__).parent / "rigs" / "parts" / "bench.part.yaml").read_text(encoding="utf-8")
RIG = (
    BenchRig("Saltmarsh, on the bench")
    .put("battery", "house/battery-26v")
    .put("camera", "house/camera")
    .lead("P1", "battery.out", "camera.dc_in", part="house/lead", here=True)
)


def test_a_lead_that_carries_26_v_is_taped() -> None:
    finding = assert_finds(check_text(RIG.text, PARTS), CODE, line=RIG.line, at="P1", cause="P1")

    assert finding.says == "P1 can carry 29.4 V and is not marked."
    assert [(edit.do, edit.path, edit.value) for edit in finding.fixes[0].edits] == [
        ("set", ("marked", "P1"), "red tape")
    ]


def test_the_library_says_from_which_voltage() -> None:
    library = "rigmint_library: 1\nparts: [parts]\nrules: {kestrel:unmarked-feed: {above: 30 V}}\n"

    assert_silent(check_text(RIG.text, PARTS, library_yaml=library), CODE)
