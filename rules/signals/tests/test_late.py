"""`picture:late`: a picture too late for what the screen is for."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import AIR, put

CODE = "picture:late"
FAULT = edit_text(AIR, ("  sender: house/sender\n", "  sender: house/sender-slow  # here\n"))
"""60 ms in the sender, 10 in the receiver, 15 in the screen: 85 ms."""
MON_OP = "mon_op: {part: house/monitor-air, set: {slot: a}}"
MON_AC = "mon_ac: {part: house/monitor-air, set: {slot: b}}"


def test_finds_a_sender_too_slow_for_focus_and_for_operating() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="mon_ac.screen", cause="sender", grade=Grade.THIN
    )
    assert finding.measured is not None
    assert finding.measured.value == pytest.approx(0.085)
    assert (finding.measured.limit, finding.measured.unit) == (0.060, "s")
    assert finding.says == (
        "mon_ac.screen shows the picture 85 ms late (sender 60, mon_ac 25); for pulling focus 60 ms is the most."
    )
    assert finding.also == ("mon_op.screen",)
    assert finding.fixes[0].says == "Take the picture from before sender, or use a quicker one in its place."


def test_is_silent_with_a_quicker_sender() -> None:
    """45 ms."""
    assert_silent(check_text(AIR, PARTS), CODE)


def test_is_silent_where_the_screens_are_only_for_watching() -> None:
    rig = edit_text(
        FAULT, (MON_OP, MON_OP.replace("}}", "}, for: watch}")), (MON_AC, MON_AC.replace("}}", "}, for: watch}"))
    )

    assert_silent(check_text(rig, PARTS), CODE)


@pytest.mark.parametrize(
    ("use", "milliseconds", "found"),
    [("operator", 80, False), ("operator", 81, True), ("focus", 60, False), ("focus", 61, True), ("watch", 999, False)],
)
def test_what_it_is_for_decides(use: str, milliseconds: int, found: bool) -> None:
    parts = edit_text(
        PARTS, ("carries: picture, latency: 60 ms}", f"carries: picture, latency: {milliseconds - 25} ms}}")
    )
    rig = edit_text(
        FAULT, (MON_OP, MON_OP.replace("}}", f"}}, for: {use}}}")), (MON_AC, MON_AC.replace("}}", "}, for: watch}"))
    )

    codes = {finding.code for finding in check_text(rig, parts).findings}

    assert (CODE in codes) is found


@pytest.mark.parametrize(
    ("crew", "who", "limit"),
    [
        ("{operator: [mon_op], first_ac: [hand]}", "{focus: first_ac}", 0.080),  # called operator, holds no axis here
        ("{grip: [mon_op], first_ac: [hand]}", "{focus: first_ac}", None),  # holds nothing: watches
        ("{grip: [mon_op, hand]}", "{focus: grip}", 0.060),  # whoever holds focus pulls it
        ("{operator: [mon_op, hand]}", "{focus: operator}", 0.060),  # both: the stricter
        ("{first_ac: [hand]}", "{focus: first_ac}", None),  # in nobody's crew
    ],
)
def test_the_crew_decides_where_nothing_is_written(crew: str, who: str, limit: float | None) -> None:
    rig = edit_text(FAULT, ("crew: {operator: [mon_op], first_ac: [hand, mon_ac]}", f"crew: {crew}"))
    rig = put(rig, "who: {focus: first_ac}", f"who: {who}")

    found = [one.measured for one in check_text(rig, PARTS).findings if one.code == CODE]

    assert [one.limit for one in found if one is not None] == ([] if limit is None else [limit])


@pytest.mark.parametrize(
    ("milliseconds", "cause", "fix"),
    [
        (90, "mon_op", "Use a quicker screen than mon_op."),  # too late by itself
        (70, "sender", "Take the picture from before sender, or use a quicker one in its place."),  # 70 and 20
    ],
)
def test_blames_the_screen_only_where_it_is_too_late_by_itself(milliseconds: int, cause: str, fix: str) -> None:
    parts = edit_text(
        PARTS, ("to: screen, carries: picture, latency: 10 ms}", f"to: screen, carries: picture, latency: {milliseconds - 15} ms}}")
    )  # fmt: skip
    rig = edit_text(AIR, (MON_AC, MON_AC.replace("}}", "}, for: watch}")))

    (finding,) = [one for one in check_text(rig, parts).findings if one.code == CODE]

    assert (finding.cause, finding.fixes[0].says) == (cause, fix)


def test_a_recording_is_never_late() -> None:
    rig = edit_text(
        FAULT,
        ("mon_op: {part: house/monitor-air, set: {slot: a}}", "receiver: house/receiver\n  recorder: house/recorder"),
        ("leads:\n", "leads:\n  S2: {part: house/coax, from: receiver.sdi_out, to: recorder.sdi_in}\n"),
        ("mon_op.radio, ", "receiver.radio, "),
        (MON_AC, MON_AC.replace("}}", "}, for: watch}")),
        ("crew: {operator: [mon_op], first_ac: [hand, mon_ac]}", "crew: {operator: [recorder], first_ac: [hand]}"),
    )
    parts = PARTS + RECEIVER

    assert_silent(check_text(rig, parts), CODE)


def test_a_house_sets_its_own_limits() -> None:
    library = "rigmint_library: 1\nparts: [parts]\nrules: {picture:late: {focus: 100 ms, operator: 100 ms}}\n"

    assert_silent(check_text(FAULT, PARTS, library_yaml=library), CODE)


RECEIVER = """
  - rigmint_part: 1
    id: house/receiver
    name: Picture receiver
    kind: receiver
    ports: {sdi_out: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g]}}
    passes: [{from: radio, to: sdi_out, carries: picture, latency: 40 ms}]
    radios: {radio: {speaks: [picture-air], reach: {eu: 1200 m}, peers: 1}}
"""
