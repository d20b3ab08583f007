"""What `explain`, `packs` and `parts` print."""

from __future__ import annotations

from pathlib import Path

import pytest

from rigmint.library.catalogue import Catalogue
from rigmint.library.faults import Fault
from rigmint.lint.core_codes import CORE_CODES
from rigmint.report.explain import render_core_code, render_rule
from rigmint.report.packs import render_packs
from rigmint.report.parts import MOST_IN_FULL, render_parts
from rigmint.report.quantities import show_quantity
from rigmint.report.style import Style
from rigmint.rig.quantity import UNITS, parse_quantity
from rigmint.words import CODE_PATTERN
from tests.report.results import make_packs

PARTS = """\
parts:
- rigmint_part: 1
  id: kestrel/lamp
  name: Lamp on board
  kind: light
  ports:
    dc_in: {connector: kestrel-2, sex: socket, pins: {1: minus, 2: plus}, works: 11 to 17 V}
- {rigmint_part: 1, id: kestrel/strap, name: Strap, kind: accessory}
- rigmint_part: 1
  id: kestrel/lead-straight
  name: Straight power lead
  kind: lead
  ends: {a: {connector: kestrel-2, sex: plug}, b: {connector: kestrel-2, sex: plug}}
  conductors: straight
- rigmint_part: 1
  id: kestrel/lead-y
  name: Lead with three ends
  kind: lead
  ends:
    a: {connector: kestrel-2, sex: plug}
    b: {connector: kestrel-2, sex: plug}
    c: {connector: kestrel-2, sex: plug}
  conductors: [{from: a.1, to: b.1}, {from: a.1, to: c.1}]
"""
CONNECTORS = """\
rigmint_connectors: 1
connectors:
  kestrel-2: {name: Two-pin of the house, contacts: [1, 2], latches: yes}
"""


def test_explain_prints_everything_that_a_rule_holds() -> None:
    packs = make_packs()
    pack = packs.packs[0]

    assert render_rule(pack.rules[0], pack, Style()) == (
        """\
voltage:over                                         pack voltage 0.1.0
A port gets more volts than it survives

Looks for
    The highest voltage that any source can put on a port, against what the port survives.

Why
    The first plug-in is enough.

To put it right
    Take the lead out, or put a regulator between.

Known from
    common practice

Grade
    burn: a device can be destroyed

Figures that a library may set, under `rules: voltage:over:`
    margin: 0.5 V. V that must be left
    count: 3. how many
"""
    )
    assert render_rule(pack.rules[1], pack, Style()).endswith("\nCaution\n    Nobody stands under the head.\n")


def test_every_core_code_is_whole_and_explained() -> None:
    codes = [core.code for core in CORE_CODES]
    texts = [render_core_code(core, Style()) for core in CORE_CODES]

    assert len(set(codes)) == len(codes)
    assert all(CODE_PATTERN.fullmatch(code) for code in codes)
    assert all(
        text.startswith(code) and "To put it right\n    " in text for code, text in zip(codes, texts, strict=True)
    )
    assert max(len(line) for text in texts for line in text.splitlines()) <= 100


def test_packs_are_listed_with_who_brings_them_and_what_was_wrong() -> None:
    fault = Fault("kestrel-house", 1, 1, "pack:refused", "it was built for version 7 of the pack contract")

    assert render_packs(make_packs(fault), Style()) == (
        """\
follow 0.2.0, brought by rigmint
thin   follow:reachable   Follow is near

voltage 0.1.0, brought by rigmint, rigmint-voltage
burn   voltage:over    A port gets more volts than it survives
hurt   voltage:shock   Over 60 V d.c.

packs

unread pack:refused
       it was built for version 7 of the pack contract

2 packs, 3 rules.
"""
    )


@pytest.fixture
def catalogue(tmp_path: Path) -> Catalogue:
    (tmp_path / "house.part.yaml").write_text(PARTS, encoding="utf-8")
    (tmp_path / "house.connectors.yaml").write_text(CONNECTORS, encoding="utf-8")
    return Catalogue([(tmp_path, "parts")])


def test_parts_are_shown_with_their_ports_and_the_line_to_paste(catalogue: Catalogue) -> None:
    ids = ("kestrel/lamp", "kestrel/strap", "kestrel/lead-straight", "kestrel/lead-y")
    parts = [part for part in map(catalogue.part, ids) if part is not None]

    assert render_parts(parts, Style()) == (
        """\
kestrel/lamp   Lamp on board
    light: dc_in (kestrel-2 socket)
    light: kestrel/lamp

kestrel/strap   Strap
    accessory
    accessory: kestrel/strap

kestrel/lead-straight   Straight power lead
    lead: end a (kestrel-2 plug), end b (kestrel-2 plug)
    P1: {part: kestrel/lead-straight, from: ITEM.PORT, to: ITEM.PORT}

kestrel/lead-y   Lead with three ends
    lead: end a (kestrel-2 plug), end b (kestrel-2 plug), end c (kestrel-2 plug)
    P1: {part: kestrel/lead-y, ends: {a: ITEM.PORT, b: ITEM.PORT, c: ITEM.PORT}}
"""
    )


def test_many_parts_take_one_line_each(catalogue: Catalogue) -> None:
    lamp = catalogue.part("kestrel/lamp")
    assert lamp is not None
    lines = render_parts([lamp] * (MOST_IN_FULL + 1), Style()).splitlines()

    assert lines == ["kestrel/lamp   Lamp on board"] * 13 + ["", "13 parts; a further word narrows the search."]


@pytest.mark.parametrize(
    ("value", "kind", "shown"),
    [
        (2700.0, "duration", "45 min"),
        (0.08, "duration", "80 ms"),
        (0.8, "ratio", "80 %"),
        (0.3, "voltage", "0.3 V"),
        (60.0, "voltage", "60 V"),
        (278.15, "temperature", "5 degC"),
        (300.0, "length", "300 m"),
        (3.0, None, "3"),
    ],
)
def test_quantities_are_shown_in_the_shortest_unit(value: float, kind: str | None, shown: str) -> None:
    assert show_quantity(value, kind) == shown


@pytest.mark.parametrize("kind", UNITS)
def test_what_is_shown_reads_back(kind: str) -> None:
    assert parse_quantity(show_quantity(12.5, kind), kind) == pytest.approx(12.5, rel=1e-5)
