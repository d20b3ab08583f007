"""A rig that the tests of this pack start from. It is sound."""

from __future__ import annotations

TRIPOD = """\
rigmint: 1
rig: Saltmarsh, on a tripod
job: Saltmarsh
kit:
  battery: house/battery-98
  plate: house/plate
  camera: {part: house/camera, asset: CAM-07}
  lens: {part: house/lens, asset: LENS-3}
  tripod: house/tripod
  motor: house/motor
  hand: house/hand
docks:
  - battery.mount > plate.battery
  - lens.mount > camera.mount
  - camera.base > tripod.plate
leads:
  P1: {part: house/lead, from: plate.out, to: camera.dc_in}
links:
  lens_control: {between: [motor.radio, hand.radio], distance: 10 m, channel: 1}
fitted: {motor: lens.focus}
crew: {operator: [camera], first_ac: [hand]}
"""
