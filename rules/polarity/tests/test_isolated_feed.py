"""A feed whose port is isolated returns to that port's own minus, not to the ground that a picture lead brings."""

from __future__ import annotations

import pytest

from rigmint.testing import assert_silent, check_text

PARTS = """\
parts:
  - rigmint_part: 1
    id: house/pack
    kind: battery
    ports: {out: {connector: 0b-2, sex: socket, pins: minus-first, rail: main, role: out}}
    rails: {main: {}}
    cells: {pack: {rail: main, volts: 12 to 16.8 V, energy: 98 Wh, max: 10 A, trips: 15 A}}
  - rigmint_part: 1
    id: house/split
    kind: breakout
    ports:
      feed: {connector: 0b-2, sex: socket, pins: minus-first, role: in}
      way_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out}
      way_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out}
  - rigmint_part: 1
    id: house/camera
    kind: camera
    ports:
      dc: {connector: 0b-2, sex: socket, pins: minus-first, rail: main, role: in, works: 11 to 17 V}
      sdi: {connector: bnc, sex: socket, pins: {centre: video, shield: minus}, speaks: [sdi-3g]}
    rails: {main: {load: 30 W}}
    makes: {sensor: {picture: 1080p25}}
    passes: [{from: sensor, to: sdi, carries: picture}]
  - rigmint_part: 1
    id: house/monitor
    kind: monitor
    ports:
      dc: {connector: 0b-2, sex: socket, pins: minus-first, rail: RAIL, role: in, works: 11 to 17 V, isolated: true}
      sdi: {connector: bnc, sex: socket, pins: {centre: video, shield: minus}, speaks: [sdi-3g]}
    rails: {feed: {}, main: {load: 12 W}}
    bridges: [{from: feed, to: main, by: regulator, out: 5 V, takes: 9 to 20 V, blocks: true}]
    shows: {screen: {}}
    passes: [{from: sdi, to: screen, carries: picture}]
  - rigmint_part: 1
    id: house/lead
    kind: lead
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.1, to: b.1, gauge: 18 AWG}, {from: a.2, to: b.2, gauge: 18 AWG}]
    length: 40 cm
  - rigmint_part: 1
    id: house/coax
    kind: lead
    ends: {a: {connector: bnc, sex: plug}, b: {connector: bnc, sex: plug}}
    conductors: straight
    carries: [sdi-3g]
"""
RIG = """\
rigmint: 1
rig: a monitor with an isolated feed
kit: {pack: house/pack, split: house/split, camera: house/camera, monitor: house/monitor}
leads:
  P1: {part: house/lead, from: pack.out, to: split.feed}
  P2: {part: house/lead, from: split.way_1, to: camera.dc}
  P3: {part: house/lead, from: split.way_2, to: monitor.dc}
  S1: {part: house/coax, from: camera.sdi, to: monitor.sdi}
"""


@pytest.mark.parametrize("rail", ["main", "feed"])
def test_an_isolated_feed_has_its_own_return(rail: str) -> None:
    report = check_text(RIG, PARTS.replace("RAIL", rail))

    assert_silent(report, "polarity:no-return", "ground:through-shield", "voltage:unpowered")
