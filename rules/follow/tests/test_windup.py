"""`windup:lead`: tails across a joint that turns without end."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .winding import WINDING, WINDING_PARTS

CODE = "windup:lead"
FOLLOWING = edit_text(
    WINDING,
    ("head.follow_pan: off", "head.follow_pan: on\n      head.pan_band: 30 deg"),
    ("pan: operator,", "pan: [operator, carrier],"),
)


def test_finds_a_lead_across_a_pan_joint_without_end() -> None:
    finding = assert_finds(
        check_text(WINDING, WINDING_PARTS), CODE, line=find_line(WINDING), at="head.pan", cause="head.pan",
        grade=Grade.THIN,
    )  # fmt: skip

    assert finding.says == (
        "S1 crosses head.pan, which turns without end and has no slip ring: it winds up while operator has it on"
        " desk.wheels, with follow mode off, which would unwind it."
    )
    assert finding.also == ("S1",)
    assert finding.fixes[0].says == (
        "Let head.pan follow within a wide dead band, which unwinds its leads: set head.follow_pan to on, set"
        " head.pan_band to 30 deg and name carrier for it beside operator under `who`."
    )
    assert [(edit.path, edit.value) for edit in finding.fixes[0].edits] == [
        (("setups", "two_up", "set", "head.follow_pan"), "on"),
        (("settings", "head.pan_band"), "30 deg"),
        (("setups", "two_up", "who", "pan"), ["operator", "carrier"]),
    ]
    assert "stop" in finding.fixes[1].says
    assert "slip ring" in finding.fixes[1].says


def test_is_silent_where_it_follows_by_agreement() -> None:
    """The remedy satisfies the follow rules too: nothing is said of a follow mode that `who` means."""
    assert_silent(
        check_text(FOLLOWING, WINDING_PARTS), CODE, "follow:on", "follow:reachable", "owner:two", "owner:unintended"
    )


def test_is_silent_where_the_joint_ends_or_has_a_slip_ring() -> None:
    for joint in ("{endless: true, slip_ring: true}", "{travel: -350 to 350 deg}"):
        parts = edit_text(WINDING_PARTS, ("pan: {endless: true}", f"pan: {joint}"))

        assert_silent(check_text(WINDING, parts), CODE)


def test_is_silent_where_both_ends_ride_above_the_joint() -> None:
    report = check_text(edit_text(WINDING, ("{part: house/sender, rides: base}", "house/sender")), WINDING_PARTS)

    assert_silent(report, CODE)


def test_is_silent_where_nobody_turns_it() -> None:
    rig = edit_text(WINDING, ("    who: {pan: operator, tilt: operator}\n", "    out: [desk]\n"))

    assert_silent(check_text(rig, WINDING_PARTS), CODE)


def test_is_silent_where_the_control_itself_comes_to_a_stop() -> None:
    parts = edit_text(
        WINDING_PARTS,
        ("wheels: {sends: rate, axis: [pan, tilt]}", "wheels: {sends: absolute, turn: 330 deg, axis: [pan, tilt]}"),
        ("pan_motor: {axis: pan, takes: [rate]}", "pan_motor: {axis: pan, takes: [rate, absolute]}"),
        ("tilt_motor: {axis: tilt, takes: [rate]}", "tilt_motor: {axis: tilt, takes: [rate, absolute]}"),
    )

    assert_silent(check_text(WINDING, parts), CODE)


def test_counts_a_tether_and_the_ports_of_the_head_itself() -> None:
    """A monitor that is away stands still under the head; so does the base port of the head."""
    rig = edit_text(
        WINDING,
        ("  sender: {part: house/sender, rides: base}\n", "  village: house/village\n  splitter: {part: house/village, rides: base}\n"),
        ("from: camera.sdi_1, to: sender.sdi}", "from: camera.sdi_1, to: village.sdi}\n  S2: {part: house/lead-coax, from: head.top, to: splitter.sdi}"),
    )  # fmt: skip

    finding = assert_finds(check_text(rig, WINDING_PARTS), CODE, line=find_line(rig), at="head.pan", cause="head.pan")
    assert finding.also == ("S1", "S2")
    assert finding.says.startswith("2 leads (S1 and S2) cross head.pan")


def test_names_the_items_whose_place_nobody_states() -> None:
    rig = edit_text(
        WINDING,
        ("  camera: house/camera\n", "  camera: {part: house/camera, rides: base}\n"),
        ("{part: house/sender, rides: base}", "house/sender"),
    )

    finding = assert_finds(check_text(rig, WINDING_PARTS), CODE, line=find_line(rig), at="head.pan", cause="head.pan")
    assert finding.assumed == ("sender rides",)
    assert finding.fixes[-1].says == "Write `rides:` where it is not so: nothing but the kind puts sender on tilt."


def test_a_stop_is_the_only_remedy_where_nobody_carries_the_head() -> None:
    rig = edit_text(WINDING, ("on: hand", "on: tripod"), (", carrier: [head]", ""))

    finding = assert_finds(check_text(rig, WINDING_PARTS), CODE, line=find_line(rig), at="head.pan", cause="head.pan")
    assert [fix.says.partition(" ")[0] for fix in finding.fixes] == ["Give"]


def test_is_one_finding_over_setups_and_its_remedy_names_who_has_it_in_each() -> None:
    rig = edit_text(
        WINDING,
        ("crew: {operator: [desk], carrier: [head]}", "crew: {operator: [desk], carrier: [head], second: []}"),
        ("    who: {pan: operator, tilt: operator}\n",
         "    who: {pan: operator, tilt: operator}\n  swap:\n    set: {head.mode: custom}\n"
         "    crew: {operator: [], second: [desk]}\n    who: {pan: second}\n"),
    )  # fmt: skip

    finding = assert_finds(check_text(rig, WINDING_PARTS), CODE, line=find_line(rig), at="head.pan", cause="head.pan")
    assert finding.setups == ("two_up", "swap")
    assert [edit.value for edit in finding.fixes[0].edits if "who" in edit.path] == [
        ["operator", "carrier"],
        ["second", "carrier"],
    ]


def test_asks_for_the_travel_of_a_joint_that_nobody_describes() -> None:
    report = check_text(edit_text(WINDING, ("house/head-endless", "house/head-silent")), WINDING_PARTS)

    assert_silent(report, CODE)
    unknown = [(one.code, one.needs, one.at) for one in report.unknown if one.code == CODE]
    assert unknown == [(CODE, "travel", "head.pan")]


def test_two_heads_have_their_own_tails() -> None:
    """Each sender hangs on its own head's base: the lead of the one does not cross the joint of the other."""
    rig = edit_text(
        WINDING,
        ("  sender: {part: house/sender, rides: base}\n",
         "  sender: {part: house/sender, rides: base}\n  camera_b: house/camera\n  sender_b: house/sender\n"
         "  head_b: {part: house/head-endless, set: {mode: pan_follow}}\n"),
        ("to: sender.sdi}", "to: sender.sdi}\n  S2: {part: house/lead-coax, from: camera_b.sdi_1, to: sender_b.sdi}\n"
         "  S3: {part: house/lead-coax, from: camera_b.sdi_2, to: head_b.top}\n"
         "  S4: {part: house/lead-coax, from: camera.sdi_2, to: head.top}"),
        ("who: {pan: operator, tilt: operator}", "who: {head.pan: operator, head.tilt: operator}"),
    )  # fmt: skip

    finding = assert_finds(check_text(rig, WINDING_PARTS), CODE, line=find_line(rig), at="head.pan", cause="head.pan")
    assert finding.also == ("S1",)


def test_follow_that_is_on_speaks_of_the_leads_and_offers_the_same_remedy() -> None:
    rig = edit_text(WINDING, ("head.follow_pan: off", "head.follow_pan: on  # follow"))

    report = check_text(rig, WINDING_PARTS)
    finding = assert_finds(
        report, "follow:on", line=find_line(rig, "# follow"), at="head.pan", cause="head.set.follow_pan"
    )
    assert_silent(report, CODE, worst=Grade.DEAD)
    assert finding.says.endswith("Off, S1 winds up across that joint, which is endless and has no slip ring.")
    assert finding.fixes[0].says.startswith("Let head.pan follow within a wide dead band")
    assert [edit.path[-1] for edit in finding.fixes[0].edits] == ["head.pan_band", "pan"]


def test_there_is_no_agreement_with_oneself() -> None:
    """Who holds the head and turns the wheels too switches follow off, and needs a stop besides."""
    rig = edit_text(
        WINDING,
        ("head.follow_pan: off", "head.follow_pan: on  # follow"),
        ("{operator: [desk], carrier: [head]}", "{operator: [desk, head]}"),
    )

    finding = assert_finds(
        check_text(rig, WINDING_PARTS),
        "follow:on",
        line=find_line(rig, "# follow"),
        at="head.pan",
        cause="head.set.follow_pan",
    )
    assert [fix.says.partition(" ")[0] for fix in finding.fixes] == ["Set", "Give"]


def test_follow_that_is_one_press_away_offers_the_same_remedy() -> None:
    rig = edit_text(
        WINDING,
        ("house/head-endless", "house/head-endless-button"),
        ("head.mode: custom", "head.mode: locked\n      desk.mode_button: on  # press"),
    )
    report = check_text(rig, WINDING_PARTS)
    wound = assert_finds(report, CODE, line=find_line(rig), at="head.pan", cause="head.pan")
    pressed = assert_finds(
        report, "follow:reachable", line=find_line(rig, "# press"), at="head.pan", cause="desk.set.mode_button"
    )

    assert pressed.fixes == wound.fixes
    assert pressed.fixes[0].says == (
        "Let head.pan follow within a wide dead band, which unwinds its leads: set head.mode to pan_follow, set"
        " head.pan_band to 30 deg and name carrier for it beside operator under `who`."
    )
