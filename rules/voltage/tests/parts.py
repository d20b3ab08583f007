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
    id: house/battery-26v
    name: Battery, 26 V
    kind: battery
    ports: {mount: {connector: plate-wedge-26v, sex: plug, pins: power, role: out, survives: -0.3 to 36 V}}
    cells:
      pack: {volts: 21.0 to 29.4 V, nominal: 25.2 V, resistance: 80 mohm, energy: 150 Wh, max: 10 A, trips: 15 A}

  - rigmint_part: 1
    id: house/plate
    name: Plate with two taps and two 2-pin outputs
    kind: plate
    ports:
      battery: {connector: plate-wedge, sex: socket, pins: power, role: in, works: 6 to 34 V, survives: -36 to 36 V}
      tap_1: {connector: d-tap, sex: socket, pins: plus-first, role: out, survives: -36 to 36 V}
      tap_2: {connector: d-tap, sex: socket, pins: plus-first, role: out, survives: -36 to 36 V}
      out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
      out_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
    rails: {main: {}}

  - rigmint_part: 1
    id: house/plate-26v
    name: Plate for a 26 V battery
    kind: plate
    like: house/plate
    ports: {battery: {connector: plate-wedge-26v}}

  - rigmint_part: 1
    id: house/plate-two
    name: Plate for two batteries, joined
    kind: plate
    ports:
      battery_a: {connector: plate-wedge, sex: socket, pins: power, rail: a, role: in, survives: -36 to 36 V}
      battery_b: {connector: plate-wedge, sex: socket, pins: power, rail: b, role: in, survives: -36 to 36 V}
      out_1: {connector: 0b-2, sex: socket, pins: minus-first, rail: main, role: out, survives: -36 to 36 V}
    rails: {main: {}, a: {}, b: {}}
    bridges: [{from: a, to: main, by: wire}, {from: b, to: main, by: wire}]

  - rigmint_part: 1
    id: house/plate-hotswap
    name: Plate for two batteries with diodes
    kind: plate
    like: house/plate-two
    bridges: [{from: a, to: main, by: diode}, {from: b, to: main, by: diode}]

  - rigmint_part: 1
    id: house/breakout
    name: Breakout
    kind: breakout
    ports:
      in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 6 to 34 V, survives: -36 to 36 V}
      out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
      out_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
    rails: {main: {}}

  - rigmint_part: 1
    id: house/breakout-switched
    name: Breakout with a switch
    kind: breakout
    like: house/breakout
    ports: {out_2: {rail: switched}}
    rails: {switched: {}}
    bridges: [{from: main, to: switched, by: switch, when: {out_2: on}}]
    settings: {out_2: {values: [on, off]}}

  - rigmint_part: 1
    id: house/camera
    name: Camera
    kind: camera
    ports:
      dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 11 to 17 V, survives: -0.3 to 18 V}
    rails: {main: {load: 20 W}}

  - rigmint_part: 1
    id: house/camera-hardy
    name: Camera that survives 34 V
    kind: camera
    like: house/camera
    ports: {dc_in: {survives: -0.3 to 34 V}}

  - rigmint_part: 1
    id: house/camera-narrow
    name: Camera that stops above 16 V
    kind: camera
    like: house/camera
    ports: {dc_in: {works: 11 to 16 V}}

  - rigmint_part: 1
    id: house/camera-wide
    name: Camera for 12 and 26 V
    kind: camera
    like: house/camera
    ports: {dc_in: {works: 11 to 34 V, survives: -0.3 to 36 V}}

  - rigmint_part: 1
    id: house/camera-heavy
    name: Camera that draws 40 W
    kind: camera
    like: house/camera
    rails: {main: {load: 40 W}}

  - rigmint_part: 1
    id: house/camera-light
    name: Camera that draws 5 W
    kind: camera
    like: house/camera
    rails: {main: {load: 5 W}}

  - rigmint_part: 1
    id: house/lamp
    name: Lamp at constant current
    kind: light
    ports:
      dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 11 to 17 V, survives: -0.3 to 20 V}
    rails: {main: {load: 2 A, peak: 2 A}}

  - rigmint_part: 1
    id: house/lead-thin
    name: Thin lead 2-pin to 2-pin
    kind: lead
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.1, to: b.1, gauge: 24 AWG}, {from: a.2, to: b.2, gauge: 24 AWG}]

  - rigmint_part: 1
    id: house/recorder-usb
    name: Recorder fed over USB
    kind: recorder
    ports:
      usb: {connector: usb-c, sex: socket, pins: power, role: in, works: 4.75 to 5.5 V, survives: -0.3 to 5.5 V}
    rails: {main: {load: 2 W}}

  - rigmint_part: 1
    id: house/motor
    name: Lens motor on a shared bus
    kind: lens_motor
    ports:
      bus_1: {connector: usb-c, sex: socket, pins: power-and-data, rail: bus, role: either, works: 4.4 to 17 V,
              survives: -0.3 to 18 V, speaks: [lens-bus]}
      bus_2: {connector: usb-c, sex: socket, pins: power-and-data, rail: bus, role: either, works: 4.4 to 17 V,
              survives: -0.3 to 18 V, speaks: [lens-bus]}
    rails: {bus: {load: 1.2 W}}

  - rigmint_part: 1
    id: house/driver
    name: Motor driver that feeds its motors 5 V
    kind: motor_driver
    ports:
      dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 9 to 18 V, survives: -18 to 26 V}
      motor_1: {connector: usb-c, sex: socket, pins: power-and-data, rail: five, role: out,
                survives: -0.3 to 5.5 V, speaks: [lens-bus]}
    rails: {main: {load: 3 W}, five: {}}
    bridges: [{from: main, to: five, by: regulator, out: 5 V, takes: 8 to 26 V, blocks: true}]

  - rigmint_part: 1
    id: house/handgrip
    name: Head with a battery handgrip
    kind: head
    ports:
      usb: {connector: usb-c, sex: socket, pins: power-and-data, rail: five, role: out,
            survives: -0.3 to 5.5 V, speaks: [lens-bus]}
    rails: {main: {load: 8 W}, five: {}}
    bridges: [{from: main, to: five, by: regulator, out: 5 V, takes: 9 to 18 V, blocks: true}]
    cells:
      grip: {rail: main, volts: 12.0 to 16.8 V, nominal: 14.4 V, resistance: 120 mohm, energy: 34 Wh, max: 7 A}

  - rigmint_part: 1
    id: house/head
    name: Head fed from outside, whose output survives battery volts
    kind: head
    ports:
      dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 11 to 17 V, survives: -0.3 to 18 V}
      usb: {connector: usb-c, sex: socket, pins: power-and-data, rail: five, role: out,
            survives: -0.3 to 18 V, speaks: [lens-bus]}
    rails: {main: {load: 8 W}, five: {}}
    bridges: [{from: main, to: five, by: regulator, out: 5 V, takes: 9 to 18 V, blocks: false}]

  - rigmint_part: 1
    id: house/head-blocking
    name: The same with an output that blocks
    kind: head
    like: house/head
    bridges: [{from: main, to: five, by: regulator, out: 5 V, takes: 9 to 18 V, blocks: true}]

  - rigmint_part: 1
    id: house/head-unstated
    name: The same, of which nobody states whether its output blocks
    kind: head
    like: house/head
    bridges: [{from: main, to: five, by: regulator, out: 5 V, takes: 9 to 18 V}]

  - rigmint_part: 1
    id: house/monitor-8v
    name: Monitor for 8 V, with a loop-through output
    kind: monitor
    ports:
      dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 6 to 9 V, survives: -0.3 to 10 V}
    rails: {main: {load: 5 W}}

  - rigmint_part: 1
    id: house/supply-110v
    name: Supply, 110 V d.c.
    kind: supply
    ports: {out: {connector: blade-50a, sex: socket, role: out}}
    cells: {out: {volts: 100 to 110 V, max: 5 A}}

  - rigmint_part: 1
    id: house/supply-48v
    name: Supply, 48 V
    kind: supply
    ports: {out: {connector: blade-50a, sex: socket, role: out}}
    cells: {out: {volts: 44 to 58 V, max: 5 A}}

  - rigmint_part: 1
    id: house/battery-unpinned
    name: Battery, 14.4 V, of which only the connector is known
    kind: battery
    ports: {mount: {connector: plate-wedge}}
    cells: {pack: {volts: 12 to 16.8 V, max: 10 A, trips: 15 A}}

  - rigmint_part: 1
    id: house/plate-unpinned
    name: Plate of which only the connectors are known
    kind: plate
    ports: {battery: {connector: plate-wedge}, tap: {connector: d-tap}, out: {connector: 0b-2}}

  - rigmint_part: 1
    id: house/battery-26v-unpinned
    name: Battery, 26 V, of which only the connector is known
    kind: battery
    ports: {mount: {connector: plate-wedge-26v}}
    cells: {pack: {volts: 21 to 29.4 V, max: 10 A, trips: 15 A}}

  - rigmint_part: 1
    id: house/plate-26v-unpinned
    name: Plate for 26 V of which only the connectors are known
    kind: plate
    ports: {battery: {connector: plate-wedge-26v}, tap: {connector: d-tap}, out: {connector: 0b-2}}

  - rigmint_part: 1
    id: house/camera-unpinned
    name: Camera of which only the connector is known
    kind: camera
    ports: {dc_in: {connector: 0b-2}}

  - rigmint_part: 1
    id: house/recorder-unpinned
    name: Recorder of which only the connector is known
    kind: recorder
    ports: {usb: {connector: usb-c}}

  - rigmint_part: 1
    id: house/lead-2pin
    name: Lead 2-pin to 2-pin
    kind: lead
    length: 40 cm
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: straight

  - rigmint_part: 1
    id: house/lead-tap-2pin
    name: Lead tap to 2-pin
    kind: lead
    length: 40 cm
    ends: {a: {connector: d-tap, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.1, to: b.2, gauge: 20 AWG}, {from: a.2, to: b.1, gauge: 20 AWG}]

  - rigmint_part: 1
    id: house/lead-tap-usb-raw
    name: Lead tap to USB-C, raw
    kind: lead
    length: 40 cm
    ends: {a: {connector: d-tap, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: [{from: a.1, to: b.vbus, gauge: 22 AWG}, {from: a.2, to: b.gnd, gauge: 22 AWG}]
    carries: []

  - rigmint_part: 1
    id: house/lead-tap-usb-5v
    name: Lead tap to USB-C, regulated
    kind: lead
    length: 40 cm
    ends: {a: {connector: d-tap, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors:
      - {from: a.1, to: b.vbus, gauge: 22 AWG,
         regulator: {out: 5.1 V, max: 3 A, takes: 8 to 34 V, blocks: true, ground: b.gnd}}
      - {from: a.2, to: b.gnd, gauge: 22 AWG}
    carries: []

  - rigmint_part: 1
    id: house/lead-bus
    name: Bus lead
    kind: lead
    length: 30 cm
    ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: straight
    carries: [lens-bus]

  - rigmint_part: 1
    id: house/lead-bus-data
    name: Bus lead without plus
    kind: lead
    length: 30 cm
    ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors:
      - {from: a.gnd, to: b.gnd, gauge: 26 AWG}
      - {from: a.dp, to: b.dp, gauge: 26 AWG}
      - {from: a.dm, to: b.dm, gauge: 26 AWG}
    carries: [lens-bus]
"""
