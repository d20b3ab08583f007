"""Rigs that several of these tests start from. Each is sound."""

from __future__ import annotations


def put(text: str, old: str, new: str) -> str:
    """The text with `old`, which stands in it once, replaced; a table of cases may hold the one that is there."""
    assert text.count(old) == 1, old
    return text.replace(old, new)


RECORD = """\
rigmint: 1
rig: Saltmarsh, record by lead
kit:
  camera: house/camera
  driver: house/driver
  hand: house/hand
  lens: house/lens
leads:
  R1: {part: house/lead-run, from: driver.run, to: camera.remote}
links:
  lens_control: {between: [driver.radio, hand.radio], distance: 50 m, channel: 1}
fitted: {driver: lens.focus}
crew: {first_ac: [hand]}
where: open
region: eu
setups:
  day:
    who: {focus: first_ac, record: first_ac}
"""

AIR = """\
rigmint: 1
rig: Saltmarsh, picture and lens by radio
kit:
  camera: house/camera
  driver: house/driver
  hand: house/hand
  lens: house/lens
  sender: house/sender
  mon_op: {part: house/monitor-air, set: {slot: a}}
  mon_ac: {part: house/monitor-air, set: {slot: b}}
leads:
  S1: {part: house/coax, from: camera.sdi, to: sender.sdi_in}
links:
  picture: {between: [sender.radio, mon_op.radio, mon_ac.radio], distance: 100 m, channel: 36}
  lens_control: {between: [driver.radio, hand.radio], distance: 100 m, channel: 1}
fitted: {driver: lens.focus}
crew: {operator: [mon_op], first_ac: [hand, mon_ac]}
where: open
region: eu
setups:
  day:
    who: {focus: first_ac}
"""

CABLE = """\
rigmint: 1
rig: Saltmarsh, picture by lead
kit:
  camera: house/camera
  monitor: house/monitor
leads:
  S1: {part: house/coax, from: camera.sdi, to: monitor.sdi_in}
"""
