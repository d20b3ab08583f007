"""Rigs that several tests of this pack start from. Each is sound."""

from __future__ import annotations

TWO_UP = """\
rigmint: 1
rig: Saltmarsh, two-up
kit:
  head: house/head
  desk: house/desk
  driver: house/driver
  hand: house/hand
  motor: {part: house/motor, set: {axis: focus}}
  lens: house/lens
  camera: house/camera
leads:
  D1: {part: house/lead-data, from: driver.head, to: head.accessory}
  D2: {part: house/lead-data, from: driver.bus, to: motor.bus_1}
  D3: {part: house/lead-data, from: desk.line, to: head.control}
  R1: head.record > camera.rec
links:
  lens_control: {between: [driver.radio, hand.radio]}
fitted: {motor: lens.focus}
crew: {operator: [desk], first_ac: [hand], carrier: [head]}
setups:
  two_up:
    set:
      head.dial: none
      desk.lens_control: off
    who:
      focus: first_ac
      pan: operator
      record: [operator, first_ac, carrier]
"""
