"""`fit:no-mate`: a plug that does not go into its port."""

from __future__ import annotations

import pytest

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


SCREWED = """\
rigmint: 1
rig: Saltmarsh, what is screwed to what
kit:
  one: ONE  # here
  other: OTHER
docks:
  - one.PORT > other.PORT_2
"""


@pytest.mark.parametrize(
    ("first", "second", "mates"),
    [
        ("lens-anamorphic.mount", "camera-compact.mount", True),
        ("lens-prime-large.mount", "camera-compact.mount", False),
        ("lens-still-manual.mount", "camera-compact.mount", False),
        ("rods-15-light-pair.block", "cage-compact.rods", True),
        ("rods-15-light-pair.block", "cage-large.rods", False),
        ("rods-15-studio-pair.block", "cage-large.rods", True),
        ("rods-19-pair.block", "cage-large-19.rods", True),
        ("rods-15-studio-pair.block", "cage-large-19.rods", False),
        ("rods-15-light-pair.matte_box", "matte-box-rods.rods", True),
        ("rods-15-studio-pair.matte_box", "matte-box-rods.rods", False),
        ("rods-15-studio-pair.matte_box", "matte-box-rods-studio.rods", True),
        ("rods-15-studio-pair.motor_1", "lens-motor.rod", True),
        ("rods-15-studio-pair.block", "lens-motor.rod", False),
        ("lens-anamorphic.front", "matte-box-clip-95.front", True),
        ("lens-anamorphic.front", "matte-box-clip-114.front", False),
        ("ring-front-95-to-114.box", "matte-box-clip-114.front", True),
        ("bowl-100-to-keyed.base", "tripod-100.head", True),
        ("bowl-150-to-keyed.base", "tripod-100.head", False),
        ("head-handheld.base", "carrier-two-handgrips.head", True),
        ("head-handheld.base", "crane-arm.head", True),
        ("head-handheld.base", "head-handheld.base", False),
        ("camera-compact.base", "head-handheld.plate", True),
    ],
)
def test_what_is_screwed_together_has_sizes(first: str, second: str, mates: bool) -> None:
    """Sizes of the trade, common practice: 54, 62 mm and bayonet mounts; 15 mm rods 60 mm and 100 mm apart, 19 mm rods;
    fronts of 95 and 114 mm; bowls of 100 and 150 mm."""
    (one, port), (other, port_2) = first.split("."), second.split(".")
    rig = SCREWED.replace("OTHER", f"generic/{other}").replace("ONE", f"generic/{one}")
    rig = rig.replace("PORT_2", port_2).replace("PORT", port)
    found = [(item.at, item.position.line, item.grade) for item in check_text(rig).findings if item.code == CODE]

    assert found == ([] if mates else [(f"one.{port}", find_line(rig), Grade.DEAD)])


def test_names_a_port_that_it_goes_onto_or_an_adapter_in_the_case() -> None:
    rods = SCREWED.replace("ONE", "generic/lens-motor").replace("OTHER", "generic/rods-15-studio-pair")
    rods = rods.replace("PORT_2", "block").replace("PORT", "rod")
    box = SCREWED.replace("ONE", "generic/matte-box-clip-114").replace("OTHER", "generic/lens-anamorphic")
    box = box.replace("PORT_2", "front").replace("PORT", "front")
    spare = "also: [{part: generic/ring-front-95-to-114}]\n"
    fixes = [
        next(one.fixes[0].says for one in check_text(rig).findings if one.code == CODE)
        for rig in (rods, box, box + spare)
    ]

    assert fixes == [
        "Dock one.rod to other.motor_1, which it goes onto.",
        "Use an adapter between one and other, or parts that mate.",
        "Put a Step-up ring, 95 mm lens to 114 mm matte box between one and other: it is in the case.",
    ]


def test_is_thin_where_a_mate_without_contacts_goes_in_and_is_not_held() -> None:
    connectors = """
rigmint_connectors: 1
connectors:
  wedge-a: {name: Wedge A, contacts: [], almost: [wedge-b]}
  wedge-b: {name: Wedge B, contacts: []}
"""
    parts = """
parts:
  - {rigmint_part: 1, id: house/shoe, name: Shoe, kind: cage, ports: {shoe: {connector: wedge-a, sex: socket}}}
  - {rigmint_part: 1, id: house/foot, name: Foot, kind: accessory, ports: {foot: {connector: wedge-b, sex: plug}}}
"""
    rig = SCREWED.replace("ONE", "house/foot").replace("OTHER", "house/shoe")
    rig = rig.replace("PORT_2", "shoe").replace("PORT", "foot")

    finding = assert_finds(
        check_text(rig, parts, connectors), CODE, line=find_line(rig), at="one.foot", cause="one", grade=Grade.THIN
    )
    assert finding.says.endswith("fit badly: nothing holds them.")
