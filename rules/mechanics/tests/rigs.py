"""Rigs that several tests of this pack start from. Each is sound."""

from __future__ import annotations

LENS = """\
rigmint: 1
rig: Saltmarsh, focus from the desk
kit:
  lens: house/lens
  motor: {part: house/motor, set: {axis: focus}}
  driver: house/driver
  desk: house/desk
leads:
  L1: {part: house/lead-line, from: desk.line, to: driver.line}
  M1: {part: house/lead-line, from: driver.motor, to: motor.bus}
fitted:
  motor: lens.focus
crew: {operator: [desk]}
setups:
  two_up:
    who: {focus: operator}
"""

FLOWN = """\
rigmint: 1
rig: Saltmarsh, head on an arm
on: vehicle
kit:
  mount: house/mount
  arm: house/arm
  head: {part: house/head, bond: true}
  camera: {part: house/camera, bond: true}
  lens: {part: house/lens, bond: true}
docks:
  - arm.base > mount.bowl
  - head.base > arm.head
  - camera.base > head.plate
setups:
  chase:
    says: As it stands
"""
