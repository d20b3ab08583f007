"""Parts that the tests of this pack share: an invented house's own, without power, so that each rig stays short."""

from __future__ import annotations

PARTS = """
parts:
  - rigmint_part: 1
    id: house/head
    name: Head with two fixed modes and one that can be set
    kind: head
    ports: {control: {connector: usb-c, sex: socket, pins: data, speaks: [head-control]}}
    settings:
      mode: {values: [locked, pan_follow, custom]}
      follow_pan: {values: [on, off], default: off}
      follow_tilt: {values: [on, off], default: off}
    controls: {mode_button: {sends: trigger, axis: mode}}
    moves:
      pan_motor: {axis: pan, takes: [rate]}
      tilt_motor: {axis: tilt, takes: [rate]}
      mode_switch: {axis: mode, takes: [trigger]}
    passes:
      - {from: control, to: [pan_motor, tilt_motor], axes: [pan, tilt]}
      - {from: [control, mode_button], to: mode_switch, axes: mode}
    follow:
      mode: {setting: mode}
      modes:
        locked: {}
        pan_follow: {pan: on}
        custom: {pan: {setting: follow_pan}, tilt: {setting: follow_tilt}}
      cycle: [locked, custom]
    joints: {pan: {}, tilt: {}}

  - rigmint_part: 1
    id: house/head-fixed
    name: Head whose button always passes a mode that follows
    kind: head
    like: house/head
    follow: {cycle: [locked, pan_follow]}

  - rigmint_part: 1
    id: house/head-forgetful
    name: Head that forgets its mode at power-off
    kind: head
    like: house/head
    settings: {mode: {default: pan_follow, forgets: true}}

  - rigmint_part: 1
    id: house/desk
    name: Operator's desk with a mode button
    kind: desk
    ports: {line: {connector: usb-c, sex: socket, pins: data, speaks: [head-control]}}
    settings: {mode_button: {values: [on, off], default: off}}
    controls:
      wheels: {sends: rate, axis: [pan, tilt]}
      mode_button: {sends: trigger, axis: mode, when: {mode_button: on}}
    passes:
      - {from: wheels, to: line, axes: [pan, tilt]}
      - {from: mode_button, to: line, axes: mode}

  - rigmint_part: 1
    id: house/desk-hard-button
    name: Operator's desk whose mode button cannot be switched off
    kind: desk
    like: house/desk
    settings: {mode_button: null}
    controls: {mode_button: {when: null}}

  - rigmint_part: 1
    id: house/lead-data
    name: Data lead
    kind: lead
    ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
    conductors: straight
    carries: [head-control]
"""
