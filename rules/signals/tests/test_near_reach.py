"""`radio:near-reach`: a link works beyond what its surroundings leave of its reach."""

from __future__ import annotations

import pytest

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import RECORD, put

CODE = "radio:near-reach"
LINK = "lens_control: {between: [driver.radio, hand.radio], distance: 50 m, channel: 1}"
FAULT = edit_text(RECORD, (LINK, f"{LINK.replace('50 m', '200 m')}  # here"))


def test_finds_a_distance_beyond_what_open_ground_leaves() -> None:
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE,
        line=find_line(FAULT), at="hand.radio", cause="link:lens_control", grade=Grade.THIN,
    )  # fmt: skip
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit) == (200.0, 150.0)
    assert finding.says == (
        "hand.radio is 200 m away from driver.radio on link:lens_control; of its reach of 300 m the surroundings (open)"
        " leave about 150 m."
    )
    assert finding.fixes[0].says == "Keep hand within 150 m of driver, or use radios that reach further."
    assert finding.fixes[0].edits == ()  # how far the job goes is for people to say: no edit mends that


def test_finds_the_distance_of_a_setup() -> None:
    rig = edit_text(RECORD, ("  day:\n", "  day:\n    distance: {lens_control: 200 m}\n"), (LINK, f"{LINK}  # here"))

    assert [finding.code for finding in check_text(rig, PARTS).findings] == [CODE]


def test_finds_the_distance_of_a_rig_without_setups() -> None:
    rig = edit_text(FAULT, ("setups:\n  day:\n    who: {focus: first_ac, record: first_ac}\n", ""))

    assert [finding.setups for finding in check_text(rig, PARTS).findings] == [("as_wired",)]


def test_is_silent_at_the_distance_of_the_fix() -> None:
    assert_silent(check_text(edit_text(FAULT, ("200 m", "150 m")), PARTS), CODE)


@pytest.mark.parametrize(
    ("where", "metres", "found"),
    # Half of 300 m in the open, 30 % in a street, 25 % between steel.
    [("open", 151, True), ("street", 89, False), ("street", 91, True), ("steel", 74, False), ("vehicle", 76, True)],
)
def test_the_place_decides(where: str, metres: int, found: bool) -> None:
    rig = put(edit_text(FAULT, ("200 m", f"{metres} m")), "where: open", f"where: {where}")

    codes = {finding.code for finding in check_text(rig, PARTS).findings}

    assert (CODE in codes) is found


def test_a_library_sets_what_a_place_leaves() -> None:
    library = "rigmint_library: 1\nparts: [parts]\nradio: {open: 90 %}\n"

    assert_silent(check_text(FAULT, PARTS, library_yaml=library), CODE)


@pytest.mark.parametrize(
    ("removed", "metres", "needs", "found"),
    [
        ("where: open\n", 100, "where", False),  # enough in the open (150 m), not between steel (75 m)
        ("where: open\n", 200, None, True),  # not enough anywhere
        ("where: open\n", 70, None, False),  # enough everywhere
        ("region: eu\n", 200, "region", False),  # 150 m for eu, 300 m for us
        ("where: open\nregion: eu\n", 200, "region and where", False),
    ],
)
def test_says_once_what_hangs_on_a_place_that_nobody_states(
    removed: str, metres: int, needs: str | None, found: bool
) -> None:
    report = check_text(edit_text(put(FAULT, "200 m", f"{metres} m"), (removed, "")), PARTS)

    unknown = [one for one in report.unknown if one.code == CODE]
    assert [one.needs for one in unknown] == ([needs] if needs is not None else [])
    assert (CODE in {finding.code for finding in report.findings}) is found


def test_says_it_for_all_links_together() -> None:
    rig = edit_text(
        FAULT,
        ("  hand: house/hand\n", "  hand: house/hand\n  other_driver: house/driver\n  other_hand: house/hand\n"),
        ("where: open\n", ""),
        ("200 m, channel: 1}", "100 m, channel: 1}"),
        (
            "fitted:",
            "  second: {between: [other_driver.radio, other_hand.radio], distance: 100 m, channel: 3}\nfitted:",
        ),
    )

    unknown = [one for one in check_text(rig, PARTS).unknown if one.code == CODE]

    assert [one.at for one in unknown] == ["link:lens_control"]
    assert unknown[0].says == "whether the reach of link:lens_control and link:second is enough hangs on where"


def test_says_which_link_states_no_reach_at_all() -> None:
    rig = edit_text(FAULT, ("driver: house/driver\n", "driver: house/driver-silent\n"),
                    ("hand: house/hand\n", "hand: house/hand-silent\n"))  # fmt: skip
    report = check_text(rig, PARTS)

    assert_silent(report, CODE)
    assert [(one.needs, one.at) for one in report.unknown if one.code == CODE] == [("reach", "link:lens_control")]
