"""Parts that the tests of this pack share: an invented house's own, without power, so that each rig stays short."""

from __future__ import annotations

PARTS = """
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
    name: Motor driver with a radio and a socket to the head
    kind: motor_driver
    ports:
      head: {connector: usb-c, sex: socket, pins: data, speaks: [head-bus]}
      bus: {connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}
    radios: {radio: {speaks: [lens-air], peers: 2}}
    passes:
      - {from: [radio, head], to: bus, axes: [focus, iris, zoom]}

  - rigmint_part: 1
    id: house/hand
    name: Hand unit
    kind: hand_unit
    controls:
      knob: {sends: absolute, axis: focus}
      slider: {sends: absolute, axis: iris}
      rec: {sends: trigger, axis: record}
    radios: {radio: {speaks: [lens-air]}}
    passes:
      - {from: [knob, slider], to: radio, axes: [focus, iris]}
      - {from: rec, to: radio, axes: record}

  - rigmint_part: 1
    id: house/hand-touch
    name: Hand unit that takes over by touch
    kind: hand_unit
    like: house/hand
    controls: {knob: {takes_over: touch}}

  - rigmint_part: 1
    id: house/hand-button
    name: Hand unit that takes over by button
    kind: hand_unit
    like: house/hand
    controls: {knob: {takes_over: button}}

  - rigmint_part: 1
    id: house/head
    name: Head with a dial and a record trigger
    kind: head
    ports:
      accessory: {connector: usb-c, sex: socket, pins: data, speaks: [head-bus]}
      control: {connector: usb-c, sex: socket, pins: data, speaks: [head-control]}
      record: {connector: jack-3.5, sex: socket, pins: trigger, speaks: [run-closure]}
    settings:
      dial: {values: [none, focus, iris]}
      mode: {values: [locked, pan_follow], default: locked}
    controls:
      dial: {sends: rate, axis: {setting: dial}}
      trigger: {sends: trigger, axis: record}
    moves:
      pan_motor: {axis: pan, takes: [rate]}
      tilt_motor: {axis: tilt, takes: [rate]}
      roll_motor: {axis: roll, takes: [rate]}
    passes:
      - {from: dial, to: accessory, axes: [focus, iris]}
      - {from: control, to: accessory, axes: [focus, iris]}
      - {from: control, to: [pan_motor, tilt_motor, roll_motor], axes: [pan, tilt, roll]}
      - {from: [trigger, control], to: record, axes: record}
    follow: {mode: {setting: mode}, modes: {locked: {}, pan_follow: {pan: on}}, cycle: [locked, pan_follow]}
    joints: {pan: {}, tilt: {}, roll: {}}

  - rigmint_part: 1
    id: house/desk
    name: Operator's desk
    kind: desk
    ports: {line: {connector: usb-c, sex: socket, pins: data, speaks: [head-control]}}
    settings: {lens_control: {values: [on, off]}}
    controls:
      wheels: {sends: rate, axis: [pan, tilt, roll]}
      lens_wheel: {sends: absolute, axis: focus, when: {lens_control: on}}
      rec: {sends: trigger, axis: record}
    passes:
      - {from: wheels, to: line, axes: [pan, tilt, roll]}
      - {from: lens_wheel, to: line, axes: focus}
      - {from: rec, to: line, axes: record}

  - rigmint_part: 1
    id: house/finder
    name: Range finder with focus assist
    kind: range_finder
    ports: {bus: {connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}}
    controls: {assist: {sends: absolute, axis: focus, automatic: true, takes_over: never}}
    passes: [{from: assist, to: bus, axes: focus}]

  - rigmint_part: 1
    id: house/finder-stubborn
    name: Range finder whose assist does not step back
    kind: range_finder
    like: house/finder
    controls: {assist: {takes_over: null}}

  - rigmint_part: 1
    id: house/camera
    name: Camera with a record button of its own
    kind: camera
    ports: {rec: {connector: jack-3.5, sex: socket, pins: trigger, speaks: [run-closure]}}
    controls: {button: {sends: trigger, axis: record}}
    moves: {run: {axis: record, takes: [trigger]}}
    passes:
      - {from: rec, to: run, axes: record}
      - {from: button, to: run, axes: record}

  - rigmint_part: 1
    id: house/lead-data
    name: Data lead
    kind: lead
    ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: straight
    carries: [lens-bus, head-bus, head-control]

  - rigmint_part: 1
    id: house/lead-charge
    name: Charging lead without data wires
    kind: lead
    ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: [{from: a.vbus, to: b.vbus, gauge: 24 AWG}, {from: a.gnd, to: b.gnd, gauge: 24 AWG}]
    carries: [lens-bus, head-bus, head-control]
"""
