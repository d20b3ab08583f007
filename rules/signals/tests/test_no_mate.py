"""`fit:no-mate`: a plug that does not go into its port."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .fit_parts import FIT_PARTS
from .fit_rigs import LENS, POWER

CODE = "fit:no-mate"
FAULT = edit_text(
    POWER, ("P1: {part: house/lead-tap, from: battery.tap_1,", "P1: {part: house/lead-tap, from: battery.out,"),
    ("to: lamp_a.dc_in}", "to: lamp_a.dc_in}  # here"),
)  # fmt: skip


def test_finds_a_tap_plug_in_a_round_socket() -> None:
    """Of the lamp behind it only the lead is said: that it has no power follows."""
    finding = assert_finds(
        check_text(FAULT, FIT_PARTS), CODE, line=find_line(FAULT), at="battery.out", cause="P1", grade=Grade.DEAD
    )
    assert finding.says == (
        "End a of P1 (Two-pin battery tap, plug) does not go into battery.out (2-pin circular push-pull, socket)."
    )
    assert finding.fixes[0].says == "Plug end a of P1 into battery.tap_1."
    assert [(edit.path, edit.value) for edit in finding.fixes[0].edits] == [(("leads", "P1", "from"), "battery.tap_1")]


def test_is_silent_where_it_goes_in() -> None:
    assert_silent(check_text(POWER, FIT_PARTS), CODE)


def test_turns_a_lead_round_whose_ends_then_go_in() -> None:
    rig = edit_text(POWER, ("from: battery.tap_1, to: lamp_a.dc_in}", "from: lamp_a.dc_in, to: battery.tap_1}  # here"))

    finding = assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="battery.tap_1", cause="P1")
    assert finding.also == ("lamp_a.dc_in",)
    assert finding.fixes[0].says == "Turn P1 round."
    assert [edit.value for edit in finding.fixes[0].edits] == ["battery.tap_1", "lamp_a.dc_in"]


def test_finds_two_plugs_of_one_sex() -> None:
    parts = edit_text(FIT_PARTS, ("name: Lamp\n    kind: light\n    ports: {dc_in: {connector: 0b-2, sex: socket,",
                                  "name: Lamp\n    kind: light\n    ports: {dc_in: {connector: 0b-2, sex: plug,"))  # fmt: skip
    rig = edit_text(POWER, ("to: lamp_a.dc_in}", "to: lamp_a.dc_in}  # here"), ("  P2: {part: house/lead-tap, from: battery.tap_2, to: lamp_b.dc_in}\n", ""),
                    ("  lamp_b: house/lamp\n", ""))  # fmt: skip

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="lamp_a.dc_in", cause="P1")
    assert finding.fixes[0].says == "Use a lead whose end goes into lamp_a.dc_in."


def test_finds_a_dock_that_does_not_mate() -> None:
    parts = (
        FIT_PARTS
        + """
  - {rigmint_part: 1, id: house/bayonet, name: Lens with a bayonet, kind: lens, ports: {mount: {connector: mount-bayonet, sex: plug}}}
  - {rigmint_part: 1, id: house/body, name: Body with a locking mount, kind: camera, ports: {mount: {connector: mount-54-lock, sex: socket}}}
"""
    )
    rig = """\
rigmint: 1
rig: Saltmarsh, mounts
kit:
  body: house/body
  prime: house/bayonet  # here
docks:
  - prime.mount > body.mount
"""
    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="prime.mount", cause="prime")
    assert finding.also == ("body.mount",)

    assert_silent(check_text(rig, edit_text(parts, ("connector: mount-54-lock", "connector: mount-bayonet"))), CODE)


def test_is_thin_where_it_goes_in_badly() -> None:
    rig = edit_text(POWER, ("lamp_a: house/lamp\n", "lamp_a: house/lamp-barrel\n"),
                    ("P1: {part: house/lead-tap, from: battery.tap_1, to: lamp_a.dc_in}",
                     "P1: {part: house/lead-tap-barrel-25, from: battery.tap_1, to: lamp_a.dc_in}  # here"))  # fmt: skip

    assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="lamp_a.dc_in", cause="P1", grade=Grade.THIN)
    fine = edit_text(rig, ("house/lead-tap-barrel-25", "house/lead-tap-barrel-21"))
    assert_silent(check_text(fine, FIT_PARTS), CODE)


def test_speaks_for_the_axis_behind_it() -> None:
    rig = edit_text(
        LENS, ("B1: {part: house/lead-bus, from: driver.bus,", "B1: {part: house/lead-bus, from: driver.finder,"),
        ("to: motor.bus_1}", "to: motor.bus_1}  # here"),
    )  # fmt: skip

    finding = assert_finds(check_text(rig, FIT_PARTS), CODE, line=find_line(rig), at="driver.finder", cause="B1")
    assert finding.also == ("lens.focus",)
