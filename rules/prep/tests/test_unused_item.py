"""`tidy:unused-item`: something in the kit that is joined to nothing."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .parts import PARTS
from .rigs import TRIPOD

CODE = "tidy:unused-item"
LAMP = edit_text(TRIPOD, ("  tripod: house/tripod\n", "  tripod: house/tripod\n  lamp: house/lamp  # here\n"))
DOCKS = "  - lens.mount > camera.mount\n  - camera.base > tripod.plate\n"


def test_finds_a_lamp_without_a_lead() -> None:
    finding = assert_finds(
        check_text(LAMP, PARTS), CODE, line=find_line(LAMP), at="lamp", cause="lamp", grade=Grade.TIDY, worst=Grade.BURN
    )
    assert finding.says == "lamp is in the kit, and no lead, dock or link joins it to anything in any setup."


def test_is_silent_where_everything_is_joined() -> None:
    rig = edit_text(
        LAMP, ("  # here", ""), ("from: plate.out, to: camera.dc_in}", "from: plate.out, to: lamp.dc_in}")
    )  # fmt: skip

    assert_silent(check_text(rig, PARTS), CODE, worst=Grade.BURN)
    assert_silent(check_text(TRIPOD, PARTS), CODE)


def test_is_silent_where_it_is_joined_in_one_setup() -> None:
    rig = edit_text(
        LAMP,
        ("  # here", ""),
        ("to: camera.dc_in}\n", "to: camera.dc_in}\n  P2: {part: house/lead, from: plate.out, to: lamp.dc_in}\n"),
    ) + "setups: {day: {unplugged: [P2]}, night: {unplugged: [P1]}}\n"  # fmt: skip

    assert_silent(check_text(rig, PARTS), CODE, worst=Grade.BURN)


def test_is_silent_on_what_cannot_be_joined_or_somebody_holds() -> None:
    rig = edit_text(TRIPOD, ("  tripod: house/tripod\n", "  tripod: house/tripod\n  torch: house/case-light\n"))

    assert_silent(check_text(rig, PARTS), CODE)
    held = edit_text(LAMP, ("operator: [camera]", "operator: [camera, lamp]"))
    assert_silent(check_text(held, PARTS), CODE, worst=Grade.BURN)


def test_finds_a_lens_that_is_mounted_on_nothing() -> None:
    """A motor sits on its ring all the same."""
    rig = edit_text(
        TRIPOD, ("  - lens.mount > camera.mount\n", ""), ("asset: LENS-3}", "asset: LENS-3}  # here")
    )  # fmt: skip

    finding = assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="lens", cause="lens")
    assert finding.says == "lens is mounted on nothing."


def test_is_silent_where_no_mechanical_mates_are_written_down() -> None:
    rig = edit_text(
        TRIPOD, (DOCKS, ""), ("  tripod: house/tripod\n", "  tripod: house/tripod\n  box: house/matte-box\n")
    )

    assert_silent(check_text(rig, PARTS), CODE)


def test_finds_a_matte_box_off_its_lens_where_they_are() -> None:
    kit = "  tripod: house/tripod\n  box: house/matte-box  # here\n  weight: house/weight\n"
    rig = edit_text(TRIPOD, ("  tripod: house/tripod\n", kit))

    assert_finds(check_text(rig, PARTS), CODE, line=find_line(rig), at="box", cause="box")
