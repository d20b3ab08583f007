"""Where flows arrive on small rigs: formats through converters, rates, latency, loops of what is off, and what stops
them."""

from __future__ import annotations

import pytest

from rigmint.rig.rig import Setup
from rigmint.study.flow_settings import find_flow_settings, gating_flow_settings
from rigmint.study.flow_stops import find_flow_stop
from rigmint.study.flows import FlowArrival, Run, Trouble, find_flow_arrivals, list_ends
from rigmint.study.signal_map import SignalMap
from rigmint.study.studies import Studies
from tests.builders import make_studies

SDI = "connector: bnc, sex: socket, pins: video"
PARTS = f"""
house/camera:
  kind: camera
  settings:
    format: {{values: [1080p25, 1080p50, 2160p25, 2160p50], default: 1080p25}}
    twin: {{values: [on, off], default: on}}
  ports:
    sdi_1: {{{SDI}, speaks: [sdi-3g, sdi-6g]}}
    sdi_2: {{{SDI}, speaks: [sdi-3g]}}
  makes: {{sensor: {{picture: {{setting: format}}}}, crystal: {{timecode: true}}}}
  shows: {{finder: {{latency: 10 ms}}}}
  passes:
    - {{from: sensor, to: [sdi_1, finder], carries: picture}}
    - {{from: sensor, to: sdi_2, carries: picture, when: {{twin: on}}}}
house/camera-unstated: {{like: house/camera, settings: {{format: {{default: null}}}}}}
house/monitor:
  kind: monitor
  settings: {{input: {{values: [sdi, hdmi], default: sdi}}}}
  ports: {{sdi_in: {{{SDI}, speaks: [sdi-3g, sdi-6g]}}, sdi_out: {{{SDI}, speaks: [sdi-3g, sdi-6g]}}}}
  shows: {{screen: {{latency: 15 ms}}, lamp: {{}}}}
  passes:
    - {{from: sdi_in, to: screen, carries: picture, when: {{input: sdi}}}}
    - {{from: sdi_in, to: sdi_out, carries: picture, passive: true}}
house/monitor-active: {{like: house/monitor, passes: [{{from: sdi_in, to: [screen, sdi_out], carries: picture}}]}}
house/scaler:
  kind: converter
  settings: {{out: {{values: [1080p25, 1080p50]}}}}
  ports: {{sdi_in: {{{SDI}, speaks: [sdi-3g, sdi-6g]}}, sdi_out: {{{SDI}, speaks: [sdi-3g]}}}}
  passes: [{{from: sdi_in, to: sdi_out, carries: picture, format: {{setting: out}}, latency: 20 ms}}]
house/sender:
  kind: sender
  ports: {{sdi_in: {{{SDI}, speaks: [sdi-3g]}}}}
  radios: {{radio: {{speaks: [picture-air-plain], peers: 1}}}}
  passes: [{{from: sdi_in, to: radio, carries: picture, latency: 30 ms, accepts: [1080p25, 1080i50]}}]
house/receiver:
  kind: receiver
  ports: {{sdi_out: {{{SDI}, speaks: [sdi-3g]}}}}
  radios: {{radio: {{speaks: [picture-air-plain]}}}}
  passes: [{{from: radio, to: sdi_out, carries: picture, latency: 12 ms}}]
house/module-camera:
  kind: camera
  ports: {{back: {{{SDI}, speaks: [sdi-12g, sdi-3g]}}}}
  makes: {{sensor: {{picture: 2160p50}}}}
  passes: [{{from: sensor, to: back, carries: picture}}]
house/module:
  kind: recorder
  ports: {{front: {{connector: bnc, sex: plug, pins: video, speaks: [sdi-3g]}}}}
  shows: {{disk: {{}}}}
  passes: [{{from: front, to: disk}}]
house/coax:
  kind: lead
  ends: {{a: {{connector: bnc, sex: plug}}, b: {{connector: bnc, sex: plug}}}}
  conductors: straight
  carries: [sdi-3g, sdi-6g, sdi-12g]
house/clock-lead: {{like: house/coax, carries: [ltc]}}
"""
STRAIGHT = """
kit: {camera: house/camera, monitor: house/monitor}
leads: {S1: {part: house/coax, from: camera.sdi_1, to: monitor.sdi_in}}
"""
CHAIN = """
kit: {camera: house/camera, first: house/monitor, second: house/monitor}
leads:
  S1: {part: house/coax, from: camera.sdi_1, to: first.sdi_in}
  S2: {part: house/coax, from: first.sdi_out, to: second.sdi_in}
"""
AIR = """
kit: {camera: house/camera, sender: house/sender, receiver: house/receiver, monitor: house/monitor}
leads:
  S1: {part: house/coax, from: camera.sdi_1, to: sender.sdi_in}
  S2: {part: house/coax, from: receiver.sdi_out, to: monitor.sdi_in}
links: {air: {between: [sender.radio, receiver.radio]}}
"""
SCALED = """
kit: {camera: house/camera, scaler: house/scaler, monitor: house/monitor}
leads:
  S1: {part: house/coax, from: camera.sdi_1, to: scaler.sdi_in}
  S2: {part: house/coax, from: scaler.sdi_out, to: monitor.sdi_in}
"""


def read(rig: str) -> tuple[Studies, Setup]:
    return make_studies(rig, PARTS)


def spread(rig: str, flow: str = "picture") -> dict[str, FlowArrival]:
    """Place to arrival; the rigs here have one maker of each flow."""
    studies, setup = read(rig)
    return {arrival.place: arrival for arrival in find_flow_arrivals(SignalMap(studies.rig, setup, {}), flow)}


def test_follows_a_lead_to_the_screen() -> None:
    arrivals = spread(STRAIGHT)

    assert sorted(arrivals) == ["camera.finder", "monitor.screen", "monitor.sdi_in", "monitor.sdi_out"]
    screen = arrivals["monitor.screen"]
    assert screen.maker == "camera.sensor"
    assert screen.format == "1080p25"
    assert screen.format_setting == ("camera", "format")
    assert screen.path == ("camera.sensor", "camera.sdi_1", "S1", "monitor.sdi_in", "monitor.screen")
    assert screen.delays == (("monitor", 0.015),)
    assert screen.problems == ()


def test_names_the_ends_of_a_flow_only() -> None:
    studies, setup = read(STRAIGHT)
    signals = studies.signals(setup)

    assert list_ends(signals, "monitor", "picture") == ["screen"]
    assert list_ends(signals, "monitor", "timecode") == []
    assert list_ends(signals, "camera", "picture") == ["finder"]


def test_a_pass_without_names_hands_on_what_its_ports_speak() -> None:
    studies, setup = read("kit: {module: house/module}\n")

    assert list_ends(studies.signals(setup), "module", "picture") == ["disk"]
    assert list_ends(studies.signals(setup), "module", "timecode") == []


def test_a_flow_of_another_kind_does_not_go_on() -> None:
    """The camera makes timecode too, and none of its passes carries it."""
    assert spread(STRAIGHT, "timecode") == {}


@pytest.mark.parametrize(
    ("extra", "reached"),
    [
        ("", {"first.screen", "second.screen"}),
        ("setups: {s: {off: [first]}}", {"second.screen"}),  # its loop works without power
        ("setups: {s: {off: [second]}}", {"first.screen"}),
        ("setups: {s: {out: [first]}}", set()),
        ("setups: {s: {unplugged: [S2]}}", {"first.screen"}),
        ("setups: {s: {off: [camera]}}", set()),
        ("settings: {first.input: hdmi}", {"second.screen"}),
    ],
)
def test_loops_through_a_monitor(extra: str, reached: set[str]) -> None:
    found = {place for place in spread(CHAIN + extra) if place.endswith(".screen")}

    assert found == reached


def test_an_active_loop_stops_when_it_is_off() -> None:
    rig = CHAIN.replace("first: house/monitor", "first: house/monitor-active") + "setups: {s: {off: [first]}}"

    assert "second.screen" not in spread(rig)


def test_leads_that_a_passive_loop_joins_are_one_run() -> None:
    assert spread(CHAIN)["second.screen"].runs[1] == Run("1080p25", ("S1", "S2"))


def test_an_active_loop_starts_a_run_of_its_own() -> None:
    rig = CHAIN.replace("first: house/monitor", "first: house/monitor-active")

    runs = [run for run in spread(rig)["second.screen"].runs if run.leads]

    assert runs == [Run("1080p25", ("S1",)), Run("1080p25", ("S2",))]


def test_latency_adds_up_over_the_air() -> None:
    arrivals = spread(AIR)

    screen = arrivals["monitor.screen"]
    assert screen.delays == (("sender", 0.03), ("receiver", 0.012), ("monitor", 0.015))
    assert screen.latency == pytest.approx(0.057)
    assert screen.path[3:7] == ("sender.sdi_in", "sender.radio", "link:air", "receiver.radio")


@pytest.mark.parametrize(
    ("name", "accepted"),
    [("1080p25", True), ("1080p50", False), ("2160p25", False)],
)
def test_a_sender_takes_the_formats_that_it_lists(name: str, accepted: bool) -> None:
    problems = spread(AIR + f"settings: {{camera.format: {name}}}")["sender.radio"].problems

    refused = [problem for problem in problems if problem.trouble is Trouble.NOT_ACCEPTED]
    assert (refused == []) is accepted
    assert all((problem.by, problem.format, problem.at) == ("sender", name, "sender.radio") for problem in refused)


def test_a_format_by_another_name_is_taken() -> None:
    parts = PARTS.replace("values: [1080p25,", "values: [1080i25, 1080p25,")
    studies, setup = make_studies(AIR + "settings: {camera.format: 1080i25}", parts)

    arrivals = {one.place: one for one in find_flow_arrivals(studies.signals(setup), "picture")}

    assert arrivals["monitor.screen"].problems == ()


@pytest.mark.parametrize(
    ("name", "needed", "is_too_fast"),
    [  # against sdi-6g, 5.94 Gbit/s (SMPTE ST 2081-1)
        ("1080p50", 2.97e9, False),
        ("2160p25", 5.94e9, False),
        ("2160p50", 11.88e9, True),
    ],
)
def test_the_quickest_protocol_of_a_lead_counts(name: str, needed: float, is_too_fast: bool) -> None:
    problems = spread(STRAIGHT + f"settings: {{camera.format: {name}}}")["monitor.screen"].problems

    if not is_too_fast:
        assert problems == ()
        return
    (problem,) = problems
    assert (problem.trouble, problem.by, problem.at) == (Trouble.TOO_FAST, "S1", "monitor.sdi_in")
    assert (problem.needed, problem.carried) == (needed, 5.94e9)


def test_a_dock_carries_no_more_than_a_lead() -> None:
    """Nothing lies between the two: the ports' own protocols carry 2.97 Gbit/s, and 11.88 are needed."""
    rig = "kit: {camera: house/module-camera, module: house/module}\ndocks: [camera.back > module.front]\n"

    (problem,) = spread(rig)["module.disk"].problems

    assert (problem.trouble, problem.by, problem.at) == (Trouble.TOO_FAST, "module", "module.front")
    assert (problem.needed, problem.carried) == (11.88e9, 2.97e9)


def test_a_link_carries_what_its_protocol_does() -> None:
    rig = AIR + "settings: {camera.format: 2160p25}"

    problems = spread(rig)["monitor.screen"].problems

    assert [(problem.trouble, problem.by) for problem in problems] == [
        (Trouble.TOO_FAST, "S1"),
        (Trouble.NOT_ACCEPTED, "sender"),
        (Trouble.TOO_FAST, "link:air"),
        (Trouble.TOO_FAST, "S2"),
    ]


def test_a_converter_changes_the_format_on_the_hops_behind_it() -> None:
    rig = SCALED + "settings: {camera.format: 2160p25, scaler.out: 1080p50}"

    screen = spread(rig)["monitor.screen"]

    assert (screen.format, screen.format_setting) == ("1080p50", ("scaler", "out"))
    assert [run for run in screen.runs if run.leads] == [Run("2160p25", ("S1",)), Run("1080p50", ("S2",))]
    assert screen.problems == ()


def test_a_setting_that_nobody_stated_is_tried_at_every_value() -> None:
    """The converter's output and the camera's format are unknown: the arrival says what it rests on."""
    rig = SCALED.replace("house/camera", "house/camera-unstated")

    screen = spread(rig)["monitor.screen"]

    assert dict(screen.assumes).keys() == {("camera", "format"), ("scaler", "out")}
    assert screen.format == dict(screen.assumes)["scaler", "out"]
    assert screen.problems == ()


def test_assumptions_that_contradict_each_other_lead_nowhere() -> None:
    """To come through, one unknown setting would have to be on and off at once."""
    parts = f"""
{PARTS}
house/gate:
  kind: converter
  settings: {{gate: {{values: [on, off]}}}}
  ports: {{sdi_in: {{{SDI}, speaks: [sdi-3g]}}, back: {{{SDI}, speaks: [sdi-3g]}}, sdi_out: {{{SDI}, speaks: [sdi-3g]}}}}
  passes:
    - {{from: sdi_in, to: back, carries: picture, when: {{gate: on}}}}
    - {{from: back, to: sdi_out, carries: picture, when: {{gate: off}}}}
"""
    rig = """
kit: {camera: house/camera, gate: house/gate}
leads: {S1: {part: house/coax, from: camera.sdi_1, to: gate.sdi_in}}
"""
    studies, setup = make_studies(rig, parts)

    places = {arrival.place for arrival in find_flow_arrivals(studies.signals(setup), "picture")}

    assert {"gate.sdi_in", "gate.back"} <= places
    assert "gate.sdi_out" not in places


def test_the_way_without_problems_comes_first() -> None:
    """Two leads go to one converter's inputs: the one that carries the format counts, though it is the later hop."""
    parts = f"""
{PARTS}
house/switcher:
  kind: converter
  ports: {{slow: {{{SDI}, speaks: [sdi-3g]}}, quick: {{{SDI}, speaks: [sdi-6g]}}}}
  shows: {{screen: {{}}}}
  passes:
    - {{from: slow, to: screen, carries: picture}}
    - {{from: quick, to: screen, carries: picture, latency: 5 ms}}
"""
    rig = """
kit: {camera: {part: house/camera, set: {format: 2160p25}}, switcher: house/switcher}
leads:
  S1: {part: house/coax, from: camera.sdi_2, to: switcher.slow}
  S2: {part: house/coax, from: camera.sdi_1, to: switcher.quick}
"""
    studies, setup = make_studies(rig, parts)

    arrivals = {arrival.place: arrival for arrival in find_flow_arrivals(studies.signals(setup), "picture")}

    assert arrivals["switcher.screen"].path[3:] == ("switcher.quick", "switcher.screen")
    assert [problem.by for problem in arrivals["switcher.slow"].problems] == ["S1"]


def test_two_makers_arrive_each() -> None:
    rig = """
kit: {one: house/camera, two: house/camera, monitor: house/monitor, other: house/monitor}
leads:
  S1: {part: house/coax, from: one.sdi_1, to: monitor.sdi_in}
  S2: {part: house/coax, from: two.sdi_1, to: other.sdi_in}
  S3: {part: house/coax, from: monitor.sdi_out, to: other.sdi_out}
"""
    studies, setup = read(rig)

    makers = [(a.maker, a.place) for a in find_flow_arrivals(studies.signals(setup), "picture") if "screen" in a.place]

    assert makers == [("one.sensor", "monitor.screen"), ("two.sensor", "other.screen")]


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

    assert "monitor.screen" in spread(rig + "setups: {s: {off: [early]}}")


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
