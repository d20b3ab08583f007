"""Parts that the tests of this pack share: an invented house's own, so that each rig stays short."""

from __future__ import annotations

PARTS = """
parts:
  - rigmint_part: 1
    id: house/battery-98
    name: Battery 98 Wh
    kind: battery
    ports: {mount: {connector: plate-wedge, sex: plug, pins: power, role: out, survives: -0.3 to 20 V}}
    cells: {pack: {rail: main, volts: 12.0 to 16.8 V, nominal: 14.4 V, resistance: 80 mohm, energy: 98 Wh, max: 10 A, trips: 15 A, charge: never, chemistry: li-ion-4s}}

  - {rigmint_part: 1, id: house/battery-150, name: Battery 150 Wh, kind: battery, like: house/battery-98, cells: {pack: {energy: 150 Wh}}}
  - {rigmint_part: 1, id: house/battery-270, name: Battery 270 Wh, kind: battery, like: house/battery-98, cells: {pack: {energy: 270 Wh}}}
  - {rigmint_part: 1, id: house/battery-silent, name: Battery whose maker names no chemistry, kind: battery, like: house/battery-150, cells: {pack: {chemistry: null}}}
  - {rigmint_part: 1, id: house/battery-lead, name: Lead battery, kind: battery, like: house/battery-270, cells: {pack: {chemistry: other}}}

  - rigmint_part: 1
    id: house/plate
    name: Plate
    kind: plate
    ports:
      battery: {connector: plate-wedge, sex: socket, pins: power, role: in, works: 6 to 34 V, survives: -36 to 36 V}
      out: {connector: 0b-2, sex: socket, pins: minus-first, role: out, survives: -36 to 36 V}
    rails: {main: {}}

  - rigmint_part: 1
    id: house/camera
    name: Camera
    kind: camera
    ports:
      dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 11 to 17 V, survives: -18 to 26 V, max: 5 A}
      mount: {connector: mount-54-lock, sex: socket}
      base: {connector: quick-plate, sex: plug}
    rails: {main: {load: 30 W}}

  - rigmint_part: 1
    id: house/lens
    name: Lens
    kind: lens
    ports: {mount: {connector: mount-54-lock, sex: plug}}
    rings: {focus: {module: 0.8 mm, teeth: 140, turn: 300 deg, torque: 0.1 N*m, stops: true}}

  - {rigmint_part: 1, id: house/tripod, name: Tripod, kind: carrier, ports: {plate: {connector: quick-plate, sex: socket}}}
  - {rigmint_part: 1, id: house/matte-box, name: Matte box, kind: matte_box, ports: {front: {connector: front-95, sex: socket}}}
  - {rigmint_part: 1, id: house/weight, name: Weight, kind: counterweight, ports: {rods: {connector: rods-15-light, sex: socket}}}
  - {rigmint_part: 1, id: house/case-light, name: Torch, kind: light}

  - rigmint_part: 1
    id: house/lamp
    name: Lamp
    kind: light
    ports: {dc_in: {connector: 0b-2, sex: socket, pins: minus-first, role: in, works: 11 to 17 V, survives: -18 to 26 V}}
    rails: {main: {load: 5 W}}

  - rigmint_part: 1
    id: house/motor
    name: Motor that is moved by radio
    kind: lens_motor
    settings: {axis: {values: [focus, iris, none], default: focus}}
    moves: {shaft: {axis: {setting: axis}, takes: [absolute]}}
    passes: [{from: radio, to: shaft}]
    radios: {radio: {speaks: [lens-air], reach: {eu: 100 m}, channels: {1: {centre: 2410 MHz, width: 2 MHz}, 2: {centre: 2420 MHz, width: 2 MHz}}}}

  - rigmint_part: 1
    id: house/hand
    name: Hand unit
    kind: hand_unit
    settings: {knob: {values: [on, off], default: on}}
    controls: {knob: {sends: absolute, axis: focus, turn: 330 deg, when: {knob: on}}}
    passes: [{from: knob, to: radio}]
    radios: {radio: {speaks: [lens-air], reach: {eu: 100 m}, channels: {1: {centre: 2410 MHz, width: 2 MHz}, 2: {centre: 2420 MHz, width: 2 MHz}}}}

  - rigmint_part: 1
    id: house/lead
    name: Power lead
    kind: lead
    ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
    conductors: straight
    length: 50 cm
"""
