"""Rigs that several tests of this pack start from. Each is sound."""

from __future__ import annotations

HAND_HELD = """\
rigmint: 1
rig: Saltmarsh, hand-held
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera
  recorder: house/recorder-usb
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}
  P2: {part: house/lead-tap-usb-5v, from: plate.tap_1, to: recorder.usb}
"""

BUS_MOTOR = """\
rigmint: 1
rig: Saltmarsh, bus motor fed by the handgrip
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera
  motor: house/motor
  handgrip: house/handgrip
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}
  D6: {part: house/lead-bus, from: motor.bus_2, to: handgrip.usb}
"""

TWO_CAMERAS = """\
rigmint: 1
rig: Saltmarsh, two cameras on a breakout
kit:
  battery: house/battery
  plate: house/plate
  breakout: house/breakout
  camera_a: house/camera
  camera_b: house/camera
docks: [battery.mount > plate.battery]
leads:
  P0: {part: house/lead-2pin, from: plate.out_1, to: breakout.in}
  P1: {part: house/lead-2pin, from: breakout.out_1, to: camera_a.dc_in}
  P2: {part: house/lead-2pin, from: breakout.out_2, to: camera_b.dc_in}
"""

TWO_BATTERIES = """\
rigmint: 1
rig: Saltmarsh, two batteries
kit:
  battery_a: house/battery
  battery_b: house/battery
  plate: house/plate-hotswap
  camera: house/camera
docks:
  - battery_a.mount > plate.battery_a
  - battery_b.mount > plate.battery_b
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}
"""
