"""Rigs for tests in a few lines of Python: what they write is what the real reader takes."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rigmint.testing import BadCase, BenchRig, assert_finds, assert_silent, check_text, start_driven, start_powered

TEXT = """\
rigmint: 1
rig: "Tern Point: first try"
on: hand
kit:
  battery: generic/battery-98wh-wedge
  camera: {part: generic/camera-compact, asset: "007"}
docks: [battery.mount > plate.battery]
leads:
  P1: {part: generic/lead-tap-to-2pin, from: plate.tap_1, to: camera.dc_in}  # here
  P2: breakout.out_1 > driver.dc_in
links:
  picture: {between: [sender.radio, mon.radio], channel: 52}
region: eu
setups:
  solo: {who: {focus: nobody}, out: [hand]}
"""


def test_writes_a_rig_file() -> None:
    rig = (
        BenchRig("Tern Point: first try", on="hand")
        .put("battery", "generic/battery-98wh-wedge")
        .put("camera", "generic/camera-compact", asset="007")
        .dock("battery.mount", "plate.battery")
        .lead("P1", "plate.tap_1", "camera.dc_in", part="generic/lead-tap-to-2pin", here=True)
        .lead("P2", "breakout.out_1", "driver.dc_in")
        .link("picture", "sender.radio", "mon.radio", channel=52)
        .say(region="eu")
        .setup("solo", who={"focus": "nobody"}, out=["hand"])
    )

    assert (rig.text, rig.line) == (TEXT, 9)


@pytest.mark.parametrize(("start", "items"), [(start_powered, 4), (start_driven, 7)])
def test_small_rigs_are_sound(start: Callable[[], BenchRig], items: int) -> None:
    report = check_text(start().text)

    assert (report.items, report.findings) == (items, ())


def test_a_test_goes_its_own_way_from_a_small_rig() -> None:
    sound = start_powered()
    rig = sound.without("P1").lead(
        "P1", "plate.tap_1", "camera.dc_in", part="generic/lead-tap-to-2pin-plus-first", here=True
    )

    assert_finds(check_text(rig.text), "polarity:reversed", line=rig.line, at="camera.dc_in", cause="P1")
    assert_silent(check_text(sound.text), "polarity:reversed")


@pytest.mark.parametrize(
    ("go", "says"),
    [
        (lambda: start_powered().put("camera", "generic/camera-compact"), "stands under `kit` already"),
        (lambda: start_powered().without("P9"), "no `P9` in the rig"),
        (lambda: start_powered().say(kit={}), "`kit` has a method of its own"),
        (lambda: start_powered().line, "must stand on one line, not on 0"),
        (lambda: check_text(start_powered().setup("solo", whose={}).text), "file:unknown-key"),
    ],
)
def test_a_slip_is_no_case(go: Callable[[], object], says: str) -> None:
    with pytest.raises(BadCase, match=says):
        go()
