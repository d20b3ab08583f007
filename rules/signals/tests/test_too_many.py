"""`radio:too-many`: more radios on a hub than it holds."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .carrying_parts import PARTS
from .carrying_rigs import AIR

CODE = "radio:too-many"
BETWEEN = "picture: {between: [sender.radio, mon_op.radio, mon_ac.radio], distance: 100 m, channel: 36}"
MORE = (
    "  mon_3: {part: house/monitor-air, set: {slot: watch}}\n  mon_4: {part: house/monitor-air, set: {slot: watch}}\n"
)
CROWD = BETWEEN.replace("mon_ac.radio]", "mon_ac.radio, mon_3.radio, mon_4.radio]")
FAULT = edit_text(AIR, ("leads:\n", f"{MORE}leads:\n"), (BETWEEN, f"{CROWD}  # here"))


def test_finds_a_fourth_receiver_on_a_sender_that_holds_three() -> None:
    """The screen behind it stays black, and that is not told a second time."""
    finding = assert_finds(
        check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="link:picture", cause="link:picture", grade=Grade.DEAD
    )
    assert finding.says == "sender.radio holds 3 at a time, and mon_op, mon_ac, mon_3 and mon_4 are paired with it."
    assert finding.measured is not None
    assert (finding.measured.value, finding.measured.limit) == (4.0, 3.0)
    assert finding.also == ("mon_4.radio",)
    assert finding.fixes[0].says == "Leave mon_4 out of link:picture, or use a hub that holds 4."
    assert [(one.do, one.path) for one in finding.fixes[0].edits] == [("remove", ("links", "picture", "between", 4))]


def test_is_silent_with_one_less() -> None:
    rig = edit_text(FAULT, (", mon_4.radio]", "]"), ("  mon_4: {part: house/monitor-air, set: {slot: watch}}\n", ""))

    assert_silent(check_text(rig, PARTS), CODE)


def test_is_silent_where_one_of_them_is_off() -> None:
    assert_silent(check_text(edit_text(FAULT, ("  day:\n", "  day:\n    off: [mon_3]\n")), PARTS), CODE)


def test_is_silent_where_one_of_them_stays_in_the_case() -> None:
    assert_silent(check_text(edit_text(FAULT, ("  day:\n", "  day:\n    out: [mon_3]\n")), PARTS), CODE)


def test_counts_over_two_links_of_one_hub() -> None:
    """The driver holds two: one hand in each of two links is fine, two in one of them is not."""
    sound = edit_text(
        AIR,
        ("  hand: house/hand\n", "  hand: house/hand\n  hand_2: house/hand\n  hand_3: house/hand\n"),
        ("fitted:", "  second: {between: [driver.radio, hand_2.radio], distance: 100 m, channel: 1}\nfitted:"),
        ("crew: {operator: [mon_op], first_ac: [hand, mon_ac]}", "crew: {first_ac: [hand, hand_2, hand_3, mon_ac]}"),
        ("who: {focus: first_ac}", "who: {}"),
    )
    assert_silent(check_text(sound, PARTS), CODE, worst=Grade.DEAD)

    rig = edit_text(sound, ("hand_2.radio], distance: 100 m, channel: 1}",
                            "hand_2.radio, hand_3.radio], distance: 100 m, channel: 1}  # here"))  # fmt: skip
    assert_finds(
        check_text(rig, PARTS), CODE, line=find_line(rig), at="link:second", cause="link:second", worst=Grade.DEAD
    )
