"""Rigs that several tests of family `fit` start from. Each is sound."""

from __future__ import annotations

LENS = """\
rigmint: 1
rig: Saltmarsh, lens control
on: studio
kit:
  head: house/head
  driver: {part: house/driver, firmware: "2.1"}
  hand: house/hand
  motor: {part: house/motor, set: {axis: focus}}
  lens: house/lens
  camera: house/camera
leads:
  D1: {part: house/lead-head, from: driver.head, to: head.accessory}
  B1: {part: house/lead-bus, from: driver.bus, to: motor.bus_1}
  R1: {part: house/lead-run-5v, from: driver.run_5v, to: camera.remote}
links:
  lens_control: {between: [driver.radio, hand.radio]}
fitted: {motor: lens.focus}
crew: {first_ac: [hand]}
setups:
  prep:
    who: {focus: first_ac, record: first_ac}
"""

POWER = """\
rigmint: 1
rig: Saltmarsh, two lamps
on: studio
kit:
  battery: house/battery
  lamp_a: house/lamp
  lamp_b: house/lamp
leads:
  P1: {part: house/lead-tap, from: battery.tap_1, to: lamp_a.dc_in}
  P2: {part: house/lead-tap, from: battery.tap_2, to: lamp_b.dc_in}
"""
