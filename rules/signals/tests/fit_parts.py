"""Parts that the tests of family `fit` share: an invented house's own, without power where power is not the matter."""

from __future__ import annotations

FIT_PARTS = """
parts:
  - rigmint_part: 1
    id: house/lens
    name: Lens with two rings
    kind: lens
    rings: {focus: {}, iris: {}}

  - rigmint_part: 1
    id: house/motor
    name: Lens motor on a shared bus
    kind: lens_motor
    ports:
      bus_1: {connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}
      bus_2: {connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}
    settings: {axis: {values: [focus, iris, zoom]}}
    moves: {shaft: {axis: {setting: axis}, takes: [absolute, rate]}}
    passes:
      - {from: bus_1, to: [shaft, bus_2]}
      - {from: bus_2, to: [shaft, bus_1]}

  - rigmint_part: 1
    id: house/driver
    name: Motor driver with two triggers
    kind: motor_driver
    ports:
      bus: {connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}
      bus_2: {connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}
      head: {connector: usb-c, sex: socket, pins: data, speaks: [head-bus], tag: head}
      finder: {connector: 0b-4, sex: socket, pins: {1: minus, 3: d_plus, 4: d_minus}, speaks: [lens-bus]}
      run: {connector: 0s-3, sex: socket, pins: trigger, speaks: [run-closure], tag: closure}
      run_5v: {connector: 0s-3, sex: socket, pins: trigger, speaks: [run-pulse], tag: 5 V}
    radios: {radio: {speaks: [lens-air]}}
    passes:
      - {from: [radio, head], to: [bus, bus_2], axes: [focus, iris, zoom]}
      - {from: bus, to: bus_2, axes: [focus, iris, zoom]}
      - {from: bus_2, to: bus, axes: [focus, iris, zoom]}
      - {from: finder, to: [bus, bus_2], axes: focus}
      - {from: radio, to: [run, run_5v], axes: record}

  - rigmint_part: 1
    id: house/hand
    name: Hand unit
    kind: hand_unit
    controls:
      knob: {sends: absolute, axis: focus}
      rec: {sends: trigger, axis: record}
    radios: {radio: {speaks: [lens-air]}}
    passes:
      - {from: knob, to: radio, axes: focus}
      - {from: rec, to: radio, axes: record}

  - rigmint_part: 1
    id: house/head
    name: Head with an accessory socket
    kind: head
    ports:
      accessory: {connector: usb-c, sex: socket, pins: data, speaks: [head-bus], stage: tilt, tag: accessory}
      control: {connector: usb-c, sex: socket, pins: data, speaks: [head-control]}
    settings: {dial: {values: [none, focus], default: none}}
    controls: {dial: {sends: rate, axis: {setting: dial}}}
    passes: [{from: dial, to: accessory, axes: focus}]
    joints: {pan: {}, tilt: {}, roll: {}}

  - rigmint_part: 1
    id: house/camera
    name: Camera that records on a 5 V pulse
    kind: camera
    ports:
      remote: {connector: 0s-3, sex: socket, pins: trigger, speaks: [run-pulse]}
      remote_2: {connector: 0s-3, sex: socket, pins: trigger, speaks: [run-closure]}
    moves: {run: {axis: record, takes: [trigger]}}
    passes: [{from: [remote, remote_2], to: run, axes: record}]

  - rigmint_part: 1
    id: house/finder
    name: Range finder whose assist works only beside the driver
    kind: range_finder
    ports:
      data: {connector: 0b-4, sex: socket, pins: {1: minus, 3: d_plus, 4: d_minus}, speaks: [lens-bus]}
      bus: {connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}
    settings: {assist: {values: [on, off]}}
    controls: {assist: {sends: absolute, axis: focus, automatic: true, takes_over: never, when: {assist: on}}}
    passes: [{from: assist, to: [data, bus], axes: focus}]
    needs:
      - {next_to: motor_driver, when: {assist: on}}
      - {firmware: {motor_driver: ">=2.1"}, when: {assist: on}}

  - rigmint_part: 1
    id: house/battery
    name: Battery, 14.4 V, with two taps
    kind: battery
    ports:
      tap_1: {connector: d-tap, sex: socket, pins: plus-first, role: out}
      tap_2: {connector: d-tap, sex: socket, pins: plus-first, role: out}
      out: {connector: 0b-2, sex: socket, pins: minus-first, role: out}
    cells:
      pack: {volts: 12.0 to 16.8 V, nominal: 14.4 V, resistance: 80 mohm, energy: 98 Wh, max: 10 A, trips: 15 A}

  - rigmint_part: 1
    id: house/lamp
    name: Lamp
    kind: light
    ports: {dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 9 to 18 V, survives: -20 to 20 V}}
    rails: {main: {load: 10 W}}

  - rigmint_part: 1
    id: house/lamp-barrel
    name: Lamp with a coaxial input
    kind: light
    ports: {dc_in: {connector: barrel-5.5-2.1, sex: socket, pins: centre-plus, role: in, works: 9 to 18 V, survives: -20 to 20 V}}
    rails: {main: {load: 10 W}}

  - rigmint_part: 1
    id: house/lead-tap
    name: Lead tap to 2-pin
    kind: lead
    length: 40 cm
    ends: {a: {connector: d-tap, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: [{from: a.1, to: b.2, gauge: 20 AWG}, {from: a.2, to: b.1, gauge: 20 AWG}]

  - rigmint_part: 1
    id: house/lead-tap-barrel-25
    name: Lead tap to the wider coaxial plug
    kind: lead
    length: 40 cm
    ends: {a: {connector: d-tap, sex: plug}, b: {connector: barrel-5.5-2.5, sex: plug}}
    conductors: [{from: a.1, to: b.centre, gauge: 20 AWG}, {from: a.2, to: b.sleeve, gauge: 20 AWG}]

  - rigmint_part: 1
    id: house/lead-tap-barrel-21
    name: Lead tap to the narrower coaxial plug
    kind: lead
    like: house/lead-tap-barrel-25
    length: 40 cm
    ends: {b: {connector: barrel-5.5-2.1}}

  - rigmint_part: 1
    id: house/lead-bus
    name: Bus lead
    kind: lead
    length: 40 cm
    ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: [{from: a.gnd, to: b.gnd}, {from: a.dp, to: b.dp}, {from: a.dm, to: b.dm}]
    carries: [lens-bus]

  - rigmint_part: 1
    id: house/lead-charge
    name: Charging lead
    kind: lead
    length: 40 cm
    ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: [{from: a.vbus, to: b.vbus}, {from: a.gnd, to: b.gnd}]
    carries: []

  - rigmint_part: 1
    id: house/lead-head
    name: Lead from driver to head, tagged at both ends
    kind: lead
    length: 40 cm
    ends: {a: {connector: usb-c, sex: plug, tag: head}, b: {connector: usb-c, sex: plug, tag: accessory}}
    conductors: [{from: a.gnd, to: b.gnd}, {from: a.dp, to: b.dp}, {from: a.dm, to: b.dm}]
    carries: [head-bus]

  - rigmint_part: 1
    id: house/lead-run-5v
    name: Trigger lead for 5 V
    kind: lead
    length: 40 cm
    ends: {a: {connector: 0s-3, sex: plug, tag: 5 V}, b: {connector: 0s-3, sex: plug}}
    conductors: [{from: a.1, to: b.1}, {from: a.3, to: b.3}]
    carries: [run-pulse]

  - rigmint_part: 1
    id: house/lead-finder
    name: Range finder lead
    kind: lead
    length: 40 cm
    ends: {a: {connector: 0b-4, sex: plug}, b: {connector: 0b-4, sex: plug}}
    conductors: [{from: a.1, to: b.1}, {from: a.3, to: b.3}, {from: a.4, to: b.4}]
    carries: [lens-bus]
"""
