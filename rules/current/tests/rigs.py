"""Rigs that several tests of this pack start from. Each is sound."""

from __future__ import annotations

HAND_HELD = """\
rigmint: 1
rig: Saltmarsh, hand-held
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead, from: plate.out_1, to: camera.dc_in}
"""

WITH_MONITOR = """\
rigmint: 1
rig: Saltmarsh, camera and monitor
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera
  monitor: house/monitor
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead, from: plate.out_1, to: camera.dc_in}
  P2: {part: house/lead, from: plate.out_2, to: monitor.dc_in}
  S1: {part: house/lead-sdi, from: camera.sdi, to: monitor.sdi}
"""

VEHICLE = """\
rigmint: 1
rig: Saltmarsh, lamp on the vehicle
kit:
  car: house/vehicle
  lamp: house/lamp
leads:
  V1: {part: house/lead-vehicle-fused, from: car.studs, to: lamp.dc_in, length: 1 m}
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
  P1: {part: house/lead, from: plate.out_1, to: camera.dc_in}
needs: {stays_up: [camera]}
"""
