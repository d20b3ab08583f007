"""`picture:nobody`: a screen that no picture reaches."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import AIR, CABLE

CODE = "picture:nobody"
FAULT = CABLE + "settings:\n  monitor.input: two  # here\n"
S1 = "  S1: {part: house/coax, from: camera.sdi, to: monitor.sdi_in}\n"


def test_finds_a_monitor_on_the_other_input() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE,
        line=find_line(FAULT), at="monitor.screen", cause="monitor.set.input", grade=Grade.DEAD,
    )  # fmt: skip
    assert finding.says == "No picture reaches monitor.screen: monitor.input is two, not one."
    assert finding.fixes[0].says == "Set monitor.input to one."


def test_is_silent_on_the_input_that_is_plugged() -> None:
    assert_silent(check_text(CABLE, PARTS), CODE)


def test_is_silent_where_the_other_input_is_plugged() -> None:
    assert_silent(check_text(edit_text(FAULT, ("monitor.sdi_in", "monitor.sdi_2")), PARTS), CODE)


def test_finds_a_lead_that_was_left_out() -> None:
    rig = edit_text(CABLE, (f"leads:\n{S1}", ""), ("monitor: house/monitor", "monitor: house/monitor  # here"))

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="monitor.screen", cause="monitor")
    assert finding.says == "No picture reaches monitor.screen: no lead joins camera.sdi and monitor.sdi_in."


def test_puts_several_screens_down_to_one_sender() -> None:
    rig = edit_text(AIR, ("  day:\n", "  day:\n    off: [sender]\n"), ("house/sender\n", "house/sender  # here\n"))

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="mon_ac.screen", cause="sender")
    assert finding.also == ("mon_op.screen",)
    assert finding.says == "No picture reaches mon_ac.screen: sender is off."


def test_finds_the_loop_taken_from_the_wrong_side() -> None:
    """Into the loop output: nothing goes from there to the screen."""
    rig = edit_text(CABLE, (S1, S1.replace("sdi_in}", "sdi_out}")), ("house/monitor\n", "house/monitor  # here\n"))

    report = check_text(rig, PARTS)

    (finding,) = [one for one in report.findings if one.code == CODE]
    assert finding.at == "monitor.screen"


@pytest.mark.parametrize(
    ("state", "found"),
    [
        ("off: [monitor]", False),  # it is off: it shows nothing, and is not asked to
        ("out: [monitor]", False),
        ("off: [camera]", False),  # nothing that is on makes a picture
        ("out: [camera]", False),
        ("unplugged: [S1]", True),
    ],
)
def test_judges_what_is_there(state: str, found: bool) -> None:
    rig = CABLE + f"setups: {{day: {{{state}}}}}\n"

    codes = {finding.code for finding in check_text(rig, PARTS).findings}

    assert (CODE in codes) is found


def test_is_silent_through_a_loop_that_is_off() -> None:
    rig = """\
rigmint: 1
rig: Saltmarsh, monitor behind a monitor
kit: {camera: house/camera, first: house/monitor, second: house/monitor}
leads:
  S1: {part: house/coax, from: camera.sdi, to: first.sdi_in}
  S2: {part: house/coax, from: first.sdi_out, to: second.sdi_in}
setups: {day: {off: [first]}}
"""
    assert_silent(check_text(rig, PARTS), CODE)


def test_lets_the_format_speak_where_a_picture_arrives_that_does_not_fit() -> None:
    rig = CABLE.replace("house/monitor", "house/monitor-slow-input") + "settings: {camera.format: 2160p25}\n"

    codes = {finding.code for finding in check_text(rig, PARTS).findings}

    assert codes == {"picture:too-fast"}
