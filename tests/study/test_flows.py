"""Where flows arrive on small rigs: formats through converters, rates, latency, loops of what is off."""

from __future__ import annotations

import pytest

from rigmint.rig.rig import Setup
from rigmint.study.flows import FlowArrival, Run, Trouble, find_flow_arrivals, list_ends
from rigmint.study.signal_map import SignalMap
from rigmint.study.studies import Studies
from tests.builders import make_studies
from tests.study.flow_rigs import AIR, CHAIN, PARTS, SCALED, SDI, STRAIGHT


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
