"""`fit:wrong-way-round`: a lead whose ends are exchanged."""

from __future__ import annotations

from rigmint import Grade
from rigmint.testing import assert_finds, assert_silent, check_text, edit_text, find_line

from .fit_parts import FIT_PARTS
from .fit_rigs import LENS

CODE = "fit:wrong-way-round"
D1 = "D1: {part: house/lead-head, from: driver.head, to: head.accessory}"
TURNED = "D1: {part: house/lead-head, from: head.accessory, to: driver.head}  # here"
FAULT = edit_text(LENS, (D1, TURNED))


def test_finds_a_lead_that_is_turned_round() -> None:
    finding = assert_finds(
        check_text(FAULT, FIT_PARTS), CODE, line=find_line(FAULT), at="head.accessory", cause="D1", grade=Grade.DEAD
    )
    assert finding.says == (
        "D1 is the wrong way round: its end tagged head is in head.accessory, which is tagged accessory."
    )
    assert finding.fixes[0].says == "Turn D1 round."
    assert [edit.value for edit in finding.fixes[0].edits] == ["driver.head", "head.accessory"]


def test_is_silent_where_the_tags_agree() -> None:
    assert_silent(check_text(LENS, FIT_PARTS), CODE)


def test_is_silent_on_a_lead_without_tags() -> None:
    """The bus lead may go either way."""
    rig = edit_text(LENS, ("from: driver.bus, to: motor.bus_1", "from: motor.bus_1, to: driver.bus"))

    assert_silent(check_text(rig, FIT_PARTS), CODE)


def test_leaves_a_wrong_port_to_its_own_rule() -> None:
    """Turned round, the 5 V plug would be in an untagged socket, but the closure socket would hold no plug of its own."""
    rig = edit_text(LENS, ("from: driver.run_5v, to: camera.remote}", "from: driver.run, to: camera.remote}  # here"))

    assert_finds(check_text(rig, FIT_PARTS), "fit:wrong-port", line=find_line(rig), at="driver.run", cause="R1")


def test_exchanges_two_ends_of_three() -> None:
    parts = (
        FIT_PARTS
        + """
  - rigmint_part: 1
    id: house/loom
    name: Y loom
    kind: lead
    length: 40 cm
    ends: {a: {connector: usb-c, sex: plug, tag: head}, b: {connector: usb-c, sex: plug, tag: accessory}, c: {connector: 0s-3, sex: plug}}
    conductors: [{from: a.gnd, to: b.gnd}, {from: a.dp, to: b.dp}, {from: a.dm, to: b.dm}]
    carries: {head-bus: [a, b]}
"""
    )
    rig = edit_text(
        LENS, (D1, "D1: {part: house/loom, ends: {a: head.accessory, b: driver.head, c: camera.remote_2}}  # here")
    )

    finding = assert_finds(check_text(rig, parts), CODE, line=find_line(rig), at="head.accessory", cause="D1")
    assert finding.fixes[0].says == "Exchange D1:a and D1:b."
    assert [(edit.path[-1], edit.value) for edit in finding.fixes[0].edits] == [
        ("a", "driver.head"), ("b", "head.accessory"),
    ]  # fmt: skip
