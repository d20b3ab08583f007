"""Parts that the tests of this pack share: an invented house's own, so that each rig stays short."""

from __future__ import annotations

PARTS = """
parts:
  - rigmint_part: 1
    id: house/battery
    name: Battery 98 Wh
    kind: battery
    ports: {mount: {connector: plate-wedge, sex: plug, pins: power, role: out, survives: -0.3 to 20 V}}
    cells: {pack: {rail: main, volts: 12.0 to 16.8 V, nominal: 14.4 V, resistance: 80 mohm, energy: 98 Wh, max: 10 A, trips: 15 A, charge: never}}

  - rigmint_part: 1
    id: house/battery-silent
    name: Battery that states no currents
    kind: battery
    like: house/battery
    cells: {pack: {max: null, trips: null}}

  - rigmint_part: 1
    id: house/vehicle
    name: Vehicle battery
    kind: supply
    ports: {studs: {connector: ring-terminal, sex: socket, pins: plus-first, role: out, survives: -0.3 to 20 V}}
    cells: {starter: {rail: main, volts: 12.0 to 14.4 V, nominal: 12.8 V, resistance: 10 mohm, trips: none}}

  - rigmint_part: 1
    id: house/mains-supply
    name: Mains supply, earthed
    kind: supply
    chassis: earth
    ports: {out: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -0.3 to 20 V}}
    cells: {supply: {rail: main, volts: 14.4 to 14.5 V, nominal: 14.4 V, resistance: 20 mohm, max: 20 A, trips: 25 A}}

  - rigmint_part: 1
    id: house/plate
    name: Plate with four 2-pin outputs
    kind: plate
    ports:
      battery: {connector: plate-wedge, sex: socket, pins: power, role: in, works: 6 to 34 V, survives: -36 to 36 V}
      out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
      out_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
      out_3: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
      out_4: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
    rails: {main: {}}

  - rigmint_part: 1
    id: house/plate-fused
    name: Plate with a fuse inside before its first output
    kind: plate
    like: house/plate
    ports: {out_1: {rail: fused}}
    rails: {fused: {}}
    bridges: [{from: main, to: fused, by: wire, fuse: {amps: 3 A, inside: true}}]

  - rigmint_part: 1
    id: house/plate-hotswap
    name: Plate for two batteries with diodes
    kind: plate
    ports:
      battery_a: {connector: plate-wedge, sex: socket, pins: power, rail: a, role: in, works: 6 to 34 V, survives: -36 to 36 V}
      battery_b: {connector: plate-wedge, sex: socket, pins: power, rail: b, role: in, works: 6 to 34 V, survives: -36 to 36 V}
      out_1: {connector: 0b-2, sex: socket, pins: minus-first, rail: main, role: out, survives: -36 to 36 V}
    rails: {main: {}, a: {}, b: {}}
    bridges: [{from: a, to: main, by: diode, drop: 0.05 V}, {from: b, to: main, by: diode, drop: 0.05 V}]

  - rigmint_part: 1
    id: house/breakout
    name: Breakout with two outputs
    kind: breakout
    ports:
      in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 6 to 34 V, survives: -36 to 36 V}
      out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
      out_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
    rails: {main: {}}

  - rigmint_part: 1
    id: house/camera
    name: Camera
    kind: camera
    ports:
      dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 11 to 17 V, survives: -0.3 to 18 V}
      sdi: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g]}
    rails: {main: {load: 36 W, peak: 40 W, start: 60 W}}

  - rigmint_part: 1
    id: house/camera-small
    name: Small camera
    kind: camera
    like: house/camera
    rails: {main: {load: 6 W, peak: 8 W, start: 8 W}}

  - rigmint_part: 1
    id: house/monitor
    name: Monitor
    kind: monitor
    ports:
      dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 10 to 17 V, survives: -0.3 to 18 V}
      sdi: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g]}
      sdi_out: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g]}
    rails: {main: {load: 22 W, peak: 24 W, start: 30 W}}

  - rigmint_part: 1
    id: house/monitor-earthed
    name: Monitor with its metal tied to earth
    kind: monitor
    like: house/monitor
    chassis: earth

  - rigmint_part: 1
    id: house/lamp
    name: Lamp
    kind: light
    ports: {dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 10 to 17 V, survives: -0.3 to 18 V}}
    rails: {main: {load: 72 W, peak: 72 W, start: 72 W}}

  - rigmint_part: 1
    id: house/motor
    name: Motor
    kind: lens_motor
    ports: {dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 8 to 17 V, survives: -0.3 to 18 V}}
    rails: {main: {load: 2 W, peak: 30 W, start: 4 W}}

  - rigmint_part: 1
    id: house/lead
    name: Lead 2-pin to 2-pin, 18 AWG
    kind: lead
    length: 40 cm
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.1, to: b.1, gauge: 18 AWG}, {from: a.2, to: b.2, gauge: 18 AWG}]

  - rigmint_part: 1
    id: house/lead-24
    name: Lead 2-pin to 2-pin, 24 AWG
    kind: lead
    like: house/lead
    conductors: [{from: a.1, to: b.1, gauge: 24 AWG}, {from: a.2, to: b.2, gauge: 24 AWG}]

  - rigmint_part: 1
    id: house/lead-half
    name: Lead 2-pin to 2-pin, 0.5 mm2
    kind: lead
    like: house/lead
    conductors: [{from: a.1, to: b.1, area: 0.5 mm2}, {from: a.2, to: b.2, area: 0.5 mm2}]

  - rigmint_part: 1
    id: house/lead-y
    name: Lead from one 2-pin to two, 16 AWG
    kind: lead
    length: 40 cm
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}, c: {connector: 0b-2, sex: plug}}
    conductors:
      - {from: a.1, to: b.1, gauge: 16 AWG}
      - {from: a.2, to: b.2, gauge: 16 AWG}
      - {from: a.1, to: c.1, gauge: 16 AWG}
      - {from: a.2, to: c.2, gauge: 16 AWG}

  - rigmint_part: 1
    id: house/lead-vehicle
    name: Lead from ring terminals to 2-pin
    kind: lead
    length: 3 m
    ends: {a: {connector: ring-terminal, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.1, to: b.2, gauge: 18 AWG}, {from: a.2, to: b.1, gauge: 18 AWG}]

  - rigmint_part: 1
    id: house/lead-vehicle-fused
    name: Lead from ring terminals to 2-pin, fused
    kind: lead
    like: house/lead-vehicle
    conductors: [{from: a.1, to: b.2, gauge: 18 AWG, fuse: 10 A}, {from: a.2, to: b.1, gauge: 18 AWG}]

  - rigmint_part: 1
    id: house/lead-sdi
    name: Coax
    kind: lead
    length: 50 cm
    ends: {a: {connector: bnc, sex: plug}, b: {connector: bnc, sex: plug}}
    conductors: [{from: a.centre, to: b.centre, gauge: 26 AWG}, {from: a.shield, to: b.shield, gauge: 18 AWG}]
    carries: [sdi-3g]
"""
