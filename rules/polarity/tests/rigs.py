"""Rigs that several tests of this pack start from. Each is sound."""

from __future__ import annotations

HAND_HELD = """\
rigmint: 1
rig: Saltmarsh, hand-held
kit:
  battery: house/battery
  plate: house/plate
  camera: house/camera
  monitor: house/monitor
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}
  P2: {part: house/lead-2pin, from: plate.out_2, to: monitor.dc_in}
"""

WITH_PICTURE = HAND_HELD + "  S1: {part: house/lead-sdi, from: camera.sdi, to: monitor.sdi}\n"
