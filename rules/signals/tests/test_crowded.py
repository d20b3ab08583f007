"""`radio:crowded`: radio channels that overlap, between the rig's links and with what else is on the air."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, check_texts, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import AIR

CODE = "radio:crowded"
LINK = "lens_control: {between: [driver.radio, hand.radio], distance: 100 m, channel: 1}"
NETWORK = "air: [{says: base camp network, centre: 2412 MHz, width: 20 MHz}]\nwhere: open"
FAULT = edit_text(AIR, (LINK, f"{LINK}  # here"), ("where: open", NETWORK))


def test_finds_a_link_inside_a_wireless_network() -> None:
    """IEEE 802.11 channel 1, 2412 MHz, covers 2402 to 2422: two of the three radio channels lie inside."""
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE,
        line=find_line(FAULT), at="link:lens_control", cause="link:lens_control", grade=Grade.THIN,
    )  # fmt: skip
    assert finding.says == (
        "link:lens_control on radio channel 1 (2410 MHz, 2 wide) overlaps base camp network (2412 MHz, 20 wide):"
        " 2 MHz are shared."
    )
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.unit) == (2e6, "Hz")
    assert finding.fixes[0].says == "Move link:lens_control to radio channel 3."
    assert [(edit.path, edit.value) for edit in finding.fixes[0].edits] == [(("links", "lens_control", "channel"), "3")]


def test_is_silent_on_the_radio_channel_of_the_fix() -> None:
    assert_silent(check_text(edit_text(FAULT, ("m, channel: 1}", "m, channel: 3}")), PARTS), CODE)


def test_is_silent_where_two_only_touch() -> None:
    """2422 to 2442 MHz begins where radio channel 2 ends (2419 to 2421), a megahertz apart."""
    rig = edit_text(FAULT, ("channel: 1}  # here", "channel: 2}"), ("centre: 2412 MHz", "centre: 2431 MHz"))

    assert_silent(check_text(rig, PARTS), CODE)


TWO = edit_text(
    AIR,
    ("  hand: house/hand\n", "  hand: house/hand\n  driver_b: house/driver\n  hand_b: house/hand\n"),
    (LINK, f"{LINK}  # here"),
    ("fitted:", "  second: {between: [driver_b.radio, hand_b.radio], distance: 100 m, channel: 1}\nfitted:"),
)


def test_finds_two_links_of_one_rig() -> None:
    finding = assert_finds(
        check_text(TWO, PARTS), CODE, line=find_line(TWO), at="link:lens_control", cause="link:lens_control"
    )
    assert finding.also == ("link:second",)
    assert finding.fixes[0].says == "Move link:lens_control to radio channel 2."


def test_is_silent_on_two_radio_channels() -> None:
    rig = edit_text(TWO, ("hand_b.radio], distance: 100 m, channel: 1}", "hand_b.radio], distance: 100 m, channel: 2}"))

    assert_silent(check_text(rig, PARTS), CODE)


@pytest.mark.parametrize("state", ["off: [driver_b]", "off: [hand_b]", "out: [driver_b]"])
def test_is_silent_where_the_other_does_not_send(state: str) -> None:
    assert_silent(check_text(edit_text(TWO, ("  day:\n", f"  day:\n    {state}\n")), PARTS), CODE)


def test_says_so_where_no_radio_channel_is_free() -> None:
    rig = edit_text(FAULT, ("centre: 2412 MHz, width: 20 MHz", "centre: 2440 MHz, width: 80 MHz"))

    finding = assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="link:lens_control", cause="link:lens_control"
    )
    assert finding.fixes[0].says.startswith("No radio channel of link:lens_control is free")


def test_a_house_may_allow_a_share() -> None:
    """Two wide channels that share 5 of 20 MHz; the house calls it crowded from a third on."""
    rig = edit_text(AIR, ("where: open", "air: [{says: neighbour, centre: 5195 MHz, width: 20 MHz}]\nwhere: open"))
    library = "rigmint_library: 1\nparts: [parts]\nrules: {radio:crowded: {share: 30 %}}\n"

    assert CODE in {finding.code for finding in check_text(rig, PARTS).findings}
    assert_silent(check_text(rig, PARTS, library_yaml=library), CODE)


def test_says_which_link_has_no_radio_channel_where_that_may_matter() -> None:
    report = check_text(edit_text(FAULT, ("m, channel: 1}  # here", "m}")), PARTS)

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("channel", "link:lens_control")]


def test_says_nothing_of_a_radio_channel_that_nobody_could_meet() -> None:
    report = check_text(edit_text(AIR, ("m, channel: 1}", "m}")), PARTS)

    assert [one for one in report.unknown if one.code == CODE] == []


FILES = {"parts.part.yaml": PARTS}
JOB = AIR + "job: Saltmarsh\n"
OTHER = edit_text(JOB, (LINK, f"{LINK}  # here"))


def test_finds_two_rigs_of_a_job_on_one_radio_channel() -> None:
    """The later file by name is told, once for each of its links; radio channel 1 is taken in the other too."""
    reports = check_texts({"a_unit": JOB, "b_unit": OTHER}, FILES)

    found = [one for one in reports["b_unit"].findings if one.code == CODE and one.at == "link:lens_control"]
    assert [(one.position.line, one.cause) for one in found] == [(find_line(OTHER), "link:lens_control")]
    assert "overlaps link:lens_control of a_unit.rig.yaml (2410 MHz, 2 wide)" in found[0].says
    assert found[0].also == ()
    assert found[0].fixes[0].says == "Move link:lens_control to radio channel 2."
    assert_silent(reports["a_unit"], CODE)


def test_is_silent_where_the_rigs_are_apart_on_the_air_or_of_two_jobs() -> None:
    apart = edit_text(JOB, ("channel: 1}", "channel: 3}"), ("channel: 36}", "channel: 44}"))

    for other in (apart, edit_text(JOB, ("job: Saltmarsh", "job: Oat Field"))):
        for report in check_texts({"a_unit": JOB, "b_unit": other}, FILES).values():
            assert_silent(report, CODE)


def test_a_radio_of_the_job_that_both_rigs_write_down_is_one_radio() -> None:
    """The same asset number on the driver: one device, in two files."""
    shared = edit_text(JOB, ("driver: house/driver", "driver: {part: house/driver, asset: DRV-1}"))
    report = check_texts({"a_unit": shared, "b_unit": shared}, FILES)["b_unit"]

    assert "link:lens_control" not in [one.at for one in report.findings if one.code == CODE]


CLOCKS = """\
rigmint: 1
rig: Saltmarsh, clocks
job: Saltmarsh
kit: {clock: house/clock-air, slave: house/clock-air}
links: {clocks: {between: [clock.radio, slave.radio], distance: 50 m, channel: 1}}
"""
CLOCK = """
  - rigmint_part: 1
    id: house/clock-air
    name: Clock by radio
    kind: timecode
    radios: {radio: {speaks: [AIR], channels: {1: {centre: 2410 MHz, width: 2 MHz}}}}
"""


def test_clocks_of_two_rigs_are_one_network() -> None:
    for protocol, is_meant in (("timecode-air", True), ("lens-air", False)):
        files = {"parts.part.yaml": PARTS + CLOCK.replace("AIR", protocol)}
        report = check_texts({"a_unit": CLOCKS, "b_unit": CLOCKS}, files)["b_unit"]

        assert [one.code for one in report.findings if one.code == CODE] == ([] if is_meant else [CODE])
