"""Parts that the tests of this pack share: an invented house's own, so that each rig stays short."""

from __future__ import annotations

PARTS = """
parts:
  - rigmint_part: 1
    id: house/battery
    name: Battery, 14.4 V
    kind: battery
    ports: {mount: {connector: plate-wedge, sex: plug, pins: power, role: out, survives: -0.3 to 20 V}}
    cells:
      pack: {volts: 12.0 to 16.8 V, nominal: 14.4 V, resistance: 80 mohm, energy: 98 Wh, max: 10 A, trips: 15 A}

  - rigmint_part: 1
    id: house/plate
    name: Plate with a tap and two 2-pin outputs
    kind: plate
    ports:
      battery: {connector: plate-wedge, sex: socket, pins: power, role: in, works: 6 to 34 V, survives: -36 to 36 V}
      tap: {connector: d-tap, sex: socket, pins: plus-first, role: out, survives: -36 to 36 V}
      out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
      out_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
    rails: {main: {}}

  - rigmint_part: 1
    id: house/camera
    name: Camera
    kind: camera
    ports:
      dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 11 to 17 V, survives: -0.3 to 18 V}
      sdi: {connector: bnc, sex: socket, pins: {centre: video, shield: minus}, speaks: [sdi-3g]}
      rec: {connector: 0s-3, sex: socket, pins: {1: minus, 3: trigger}, speaks: [run-closure],
            levels: {trigger: {takes: closure, as: pulse}}}
    rails: {main: {load: 20 W}}

  - rigmint_part: 1
    id: house/camera-protected
    name: Camera with a reverse-protected input
    kind: camera
    like: house/camera
    ports: {dc_in: {survives: -18 to 18 V}}

  - rigmint_part: 1
    id: house/camera-plus-first
    name: Camera with the other pin-out
    kind: camera
    like: house/camera
    ports: {dc_in: {pins: plus-first}}

  - rigmint_part: 1
    id: house/camera-unpinned
    name: Camera of which only the connector is known
    kind: camera
    ports: {dc_in: {connector: 0b-2}}

  - rigmint_part: 1
    id: house/camera-hardy-trigger
    name: Camera whose trigger contact takes 20 V
    kind: camera
    like: house/camera
    ports: {rec: {levels: {trigger: {survives: -0.3 to 20 V}}}}

  - rigmint_part: 1
    id: house/breakout
    name: Breakout
    kind: breakout
    ports:
      in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, survives: -36 to 36 V}
      out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
      out_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
    rails: {main: {}}

  - rigmint_part: 1
    id: house/monitor
    name: Monitor
    kind: monitor
    ports:
      dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 7 to 18 V, survives: -18 to 20 V}
      sdi: {connector: bnc, sex: socket, pins: {centre: video, shield: minus}, speaks: [sdi-3g]}
    rails: {main: {load: 8 W}}

  - rigmint_part: 1
    id: house/lead-2pin
    name: Lead 2-pin to 2-pin
    kind: lead
    length: 40 cm
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.1, to: b.1, gauge: 20 AWG}, {from: a.2, to: b.2, gauge: 20 AWG}]

  - rigmint_part: 1
    id: house/lead-2pin-crossed
    name: Lead 2-pin to 2-pin for the other pin-out
    kind: lead
    length: 40 cm
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.1, to: b.2, gauge: 20 AWG}, {from: a.2, to: b.1, gauge: 20 AWG}]

  - rigmint_part: 1
    id: house/lead-2pin-no-minus
    name: Lead 2-pin to 2-pin with its minus cut
    kind: lead
    length: 40 cm
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.2, to: b.2, gauge: 20 AWG}]

  - rigmint_part: 1
    id: house/lead-tap
    name: Lead tap to 2-pin
    kind: lead
    length: 40 cm
    ends: {a: {connector: d-tap, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.1, to: b.2, gauge: 20 AWG}, {from: a.2, to: b.1, gauge: 20 AWG}]

  - rigmint_part: 1
    id: house/lead-tap-rec
    name: Lead tap to 3-pin, plus on the third contact
    kind: lead
    length: 40 cm
    ends: {a: {connector: d-tap, sex: plug}, b: {connector: 0s-3, sex: plug}}
    conductors: [{from: a.1, to: b.3, gauge: 24 AWG}, {from: a.2, to: b.1, gauge: 24 AWG}]

  - rigmint_part: 1
    id: house/lead-tap-3pin
    name: Lead tap to 3-pin, plus on the second contact
    kind: lead
    length: 40 cm
    ends: {a: {connector: d-tap, sex: plug}, b: {connector: 0s-3, sex: plug}}
    conductors: [{from: a.1, to: b.2, gauge: 24 AWG}, {from: a.2, to: b.1, gauge: 24 AWG}]

  - rigmint_part: 1
    id: house/lead-sdi
    name: Coax lead
    kind: lead
    length: 60 cm
    ends: {a: {connector: bnc, sex: plug}, b: {connector: bnc, sex: plug}}
    conductors: straight
    carries: [sdi-3g]
"""
