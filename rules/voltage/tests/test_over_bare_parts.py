"""`voltage:over` where parts are bare or say little: a breakout that states its limit, a battery without cells."""

from __future__ import annotations

from rigmint.testing import assert_finds, assert_silent, check_text, find_line

CODE = "voltage:over"
PARTS = """\
parts:
  - rigmint_part: 1
    id: house/pack
    kind: battery
    ports: {out: {connector: 0b-2, sex: socket, pins: minus-first, rail: main, role: out}}
    rails: {main: {}}
    cells: {pack: {rail: main, volts: 21 to 29.4 V, energy: 150 Wh, max: 10 A}}
  - rigmint_part: 1
    id: house/pack-unsaid
    kind: battery
    ports: {out: {connector: 0b-2, sex: socket, pins: minus-first}}
  - rigmint_part: 1
    id: house/split-weak
    kind: breakout
    ports: {feed: {connector: 0b-2, sex: socket, pins: minus-first, role: in, survives: -0.3 to 18 V}}
  - rigmint_part: 1
    id: house/split-unsaid
    kind: breakout
    ports: {feed: {connector: 0b-2, sex: socket, pins: minus-first, role: in}}
  - rigmint_part: 1
    id: house/lead
    kind: lead
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: straight
"""
FAULT = """\
rigmint: 1
rig: a breakout that states what it survives
kit: {pack: house/pack, split: house/split-weak}
leads:
  P1: {part: house/lead, from: pack.out, to: split.feed}  # here
"""


def test_judges_a_bare_breakout_by_the_limit_that_it_states() -> None:
    assert_finds(check_text(FAULT, PARTS), CODE, line=find_line(FAULT), at="split.feed", cause="P1")


def test_is_silent_on_a_bare_breakout_that_states_none() -> None:
    assert_silent(check_text(FAULT.replace("split-weak", "split-unsaid"), PARTS), CODE)


def test_says_what_a_battery_without_cells_leaves_unknown() -> None:
    report = check_text(FAULT.replace("house/pack,", "house/pack-unsaid,"), PARTS)
    unknown = [(one.needs, one.at) for one in report.unknown if one.code == CODE]

    assert unknown == [("cells", "pack")]
