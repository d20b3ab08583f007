"""Parts that the tests of this pack share: an invented house's own, without power, so that each rig stays short."""

from __future__ import annotations

PARTS = """
parts:
  - rigmint_part: 1
    id: house/lens
    name: Prime lens
    kind: lens
    mass: 1 kg
    rings:
      focus: {module: 0.8 mm, teeth: 130, turn: 270 deg, torque: 0.2 N*m, stops: true, stands: 1.5 N*m}
      iris: {module: 0.8 mm, teeth: 100, turn: 80 deg, torque: 0.1 N*m, stops: true, stands: 0.4 N*m}

  - rigmint_part: 1
    id: house/lens-bare
    name: Lens of which nothing is known
    kind: lens

  - rigmint_part: 1
    id: house/motor
    name: Lens motor
    kind: lens_motor
    mass: 150 g
    ports: {bus: {connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}}
    settings:
      axis: {values: [focus, iris], default: focus}
      direction: {values: [normal, reversed], default: normal}
      calibration: {values: [automatic, manual], default: automatic}
    moves: {shaft: {axis: {setting: axis}, takes: [absolute, rate], steps: 1000}}
    passes: [{from: bus, to: shaft}]
    drive: {module: 0.8 mm, teeth: 40, torque: 0.2 N*m, speed: 900 deg/s, calibration: 0.1 N*m,
            calibrates: {when: {calibration: automatic}}}

  - rigmint_part: 1
    id: house/motor-bare
    name: Bare lens motor, calibrated by its driver
    kind: lens_motor
    like: house/motor
    settings: {calibration: null}
    drive: {calibrates: null}

  - rigmint_part: 1
    id: house/driver
    name: Lens motor driver
    kind: motor_driver
    mass: 200 g
    ports:
      line: {connector: usb-c, sex: socket, pins: data, speaks: [head-bus]}
      motor: {connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}
    settings: {calibration: {values: [automatic, manual], default: automatic}}
    passes: [{from: line, to: motor, axes: [focus, iris]}]
    drive: {calibrates: {when: {calibration: automatic}}}

  - rigmint_part: 1
    id: house/desk
    name: Desk whose wheel acts by speed
    kind: desk
    mass: 2 kg
    ports: {line: {connector: usb-c, sex: socket, pins: data, speaks: [head-bus]}}
    settings: {dial_speed: {values: [1, 2, 3, 4], default: 3}}
    controls: {wheel: {sends: rate, axis: focus, turn: 330 deg}}
    passes: [{from: wheel, to: line, axes: focus}]
    speeds: {1: 0.4, 2: 0.8, 3: 1.2, 4: 2.0}

  - rigmint_part: 1
    id: house/lead-line
    name: Line
    kind: lead
    mass: 40 g
    ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: straight
    carries: [head-bus, lens-bus]

  - rigmint_part: 1
    id: house/camera
    name: Camera
    kind: camera
    mass: 2 kg
    ports: {base: {connector: quick-plate, sex: plug}}

  - rigmint_part: 1
    id: house/battery
    name: Battery
    kind: battery
    mass: 1 kg

  - rigmint_part: 1
    id: house/head
    name: Head for 4 kg
    kind: head
    mass: 3 kg
    ports:
      plate: {connector: quick-plate, sex: socket, stage: tilt}
      base: {connector: flat-keyed, sex: plug, stage: base}
    joints: {pan: {}, tilt: {}}
    payload: {min: 1 kg, max: 4 kg}

  - rigmint_part: 1
    id: house/arm
    name: Isolating arm
    kind: carrier
    mass: 6 kg
    ports:
      head: {connector: flat-keyed, sex: socket}
      base: {connector: bowl-150, sex: plug}
    payload: {min: 5 kg, max: 12 kg}

  - rigmint_part: 1
    id: house/mount
    name: Vehicle mount
    kind: carrier
    mass: 10 kg
    ports: {bowl: {connector: bowl-150, sex: socket}}
    payload: {max: 40 kg}
"""
