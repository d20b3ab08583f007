"""What stops a flow on small rigs, and the settings that bring it."""

from __future__ import annotations

import pytest

from rigmint.rig.rig import Setup
from rigmint.study.flow_settings import find_flow_settings, gating_flow_settings
from rigmint.study.flow_stops import find_flow_stop
from rigmint.study.flows import find_flow_arrivals
from rigmint.study.studies import Studies
from tests.builders import make_studies
from tests.study.flow_rigs import AIR, PARTS, STRAIGHT


def read(rig: str) -> tuple[Studies, Setup]:
    return make_studies(rig, PARTS)


@pytest.mark.parametrize(
    ("rig", "by", "says"),
    [
        (STRAIGHT + "settings: {monitor.input: hdmi}", "monitor.set.input", "monitor.input is hdmi, not sdi"),
        (STRAIGHT + "setups: {s: {off: [camera]}}", "camera", "camera is off"),
        (STRAIGHT + "setups: {s: {unplugged: [S1]}}", "monitor.sdi_in", "no lead joins camera.sdi_1 and monitor.sdi_in"),
        (
            STRAIGHT.replace("house/coax", "house/clock-lead"), "S1",
            "S1 does not carry 3 Gbit/s serial digital",
        ),
        (
            STRAIGHT.replace("camera.sdi_1", "camera.sdi_2") + "settings: {camera.twin: off}", "camera.set.twin",
            "camera.twin is off, not on",
        ),
        (AIR + "setups: {s: {off: [sender]}}", "sender", "sender is off"),
        (AIR + "setups: {s: {out: [air]}}", "sender.radio", "no link joins sender.radio and receiver.radio"),
    ],
)  # fmt: skip
def test_says_what_stops_a_picture(rig: str, by: str, says: str) -> None:
    studies, setup = read(rig)

    found = find_flow_stop(studies.signals(setup), "picture", [("monitor", "screen")])

    assert found is not None
    assert (found.maker, found.stop.by, found.stop.says) == ("camera.sensor", by, says)


def test_says_nothing_of_a_picture_that_arrives() -> None:
    studies, setup = read(STRAIGHT)

    assert find_flow_stop(studies.signals(setup), "picture", [("monitor", "screen")]) is None


def test_a_hub_that_is_full_stops_the_picture() -> None:
    rig = AIR.replace("monitor: house/monitor}", "monitor: house/monitor, early: house/receiver}").replace(
        "[sender.radio, receiver.radio]", "[sender.radio, early.radio, receiver.radio]"
    )
    studies, setup = read(rig)

    found = find_flow_stop(studies.signals(setup), "picture", [("monitor", "screen")])

    assert found is not None
    assert (found.stop.by, found.stop.says) == (
        "link:air",
        "sender.radio holds 1 peers, and receiver.radio is one more",
    )


def test_what_is_off_takes_no_place_at_a_hub() -> None:
    rig = AIR.replace("monitor: house/monitor}", "monitor: house/monitor, early: house/receiver}").replace(
        "[sender.radio, receiver.radio]", "[sender.radio, early.radio, receiver.radio]"
    )

    studies, setup = read(rig + "setups: {s: {off: [early]}}")

    places = [arrival.place for arrival in find_flow_arrivals(studies.signals(setup), "picture")]

    assert "monitor.screen" in places


def test_finds_the_setting_that_brings_the_picture() -> None:
    studies, setup = read(STRAIGHT + "settings: {monitor.input: hdmi}")
    signals = studies.signals(setup)

    gating = gating_flow_settings(signals, "picture")

    assert gating == (("camera", "twin"), ("monitor", "input"))
    assert find_flow_settings(signals, "picture", "monitor.screen", gating) == (("monitor", "input", "sdi"),)


def test_finds_the_format_of_the_same_frame_rate_first() -> None:
    """1080p50 would pass the lead too, but not the sender."""
    studies, setup = read(STRAIGHT + "settings: {camera.format: 2160p50}")

    found = find_flow_settings(studies.signals(setup), "picture", "monitor.screen", [("camera", "format")])

    assert [value for _, _, value in found] == ["1080p50", "2160p25", "1080p25"]


def test_a_format_that_spoils_another_way_is_no_fix() -> None:
    """The sender takes only 1080p25: of what the lead to the monitor would carry, nothing else may be set."""
    rig = AIR.replace("camera: house/camera,", "camera: house/camera, near: house/monitor,").replace(
        "links:", "  S3: {part: house/coax, from: camera.sdi_2, to: near.sdi_in}\nlinks:"
    )
    studies, setup = read(rig + "settings: {camera.format: 1080p50}")

    found = find_flow_settings(studies.signals(setup), "picture", "monitor.screen", [("camera", "format")])

    assert found == (("camera", "format", "1080p25"),)
