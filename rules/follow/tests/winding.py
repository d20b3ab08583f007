"""A head that turns without end, with leads across its pan joint: parts and a rig in which they wind up."""

from __future__ import annotations

from .parts import PARTS

WINDING_PARTS = (
    PARTS
    + """
  - rigmint_part: 1
    id: house/head-endless
    name: Head that turns without end
    kind: head
    like: house/head
    ports: {control: {stage: base}, top: {connector: bnc, sex: socket, pins: video, stage: tilt}}
    settings: {pan_band: {values: [0 deg, 5 deg, 15 deg, 30 deg], default: 5 deg}}
    follow: {cycle: [locked], dead_band: {pan: {setting: pan_band}}}
    joints: {pan: {endless: true}, tilt: {travel: -90 to 90 deg}}

  - rigmint_part: 1
    id: house/head-endless-button
    name: Head that turns without end, with a mode that follows in its cycle
    kind: head
    like: house/head-endless
    follow: {cycle: [locked, pan_follow]}

  - rigmint_part: 1
    id: house/head-silent
    name: Head whose maker does not say how far it turns
    kind: head
    like: house/head-endless
    joints: null

  - rigmint_part: 1
    id: house/camera
    name: Camera with two picture sockets
    kind: camera
    rides: tilt
    ports: {sdi_1: {connector: bnc, sex: socket, pins: video}, sdi_2: {connector: bnc, sex: socket, pins: video}}

  - rigmint_part: 1
    id: house/sender
    name: Sender
    kind: sender
    ports: {sdi: {connector: bnc, sex: socket, pins: video}}

  - rigmint_part: 1
    id: house/village
    name: Monitor at the village
    kind: monitor
    rides: away
    ports: {sdi: {connector: bnc, sex: socket, pins: video}}

  - rigmint_part: 1
    id: house/lead-coax
    name: Coax
    kind: lead
    ends: {a: {connector: bnc, sex: plug}, b: {connector: bnc, sex: plug}}
    conductors: straight
"""
)

WINDING = """\
rigmint: 1
rig: Saltmarsh, a head that turns without end
on: hand
kit:
  head: {part: house/head-endless}  # here
  desk: house/desk
  camera: house/camera
  sender: {part: house/sender, rides: base}
leads:
  D1: {part: house/lead-data, from: desk.line, to: head.control}
  S1: {part: house/lead-coax, from: camera.sdi_1, to: sender.sdi}
crew: {operator: [desk], carrier: [head]}
setups:
  two_up:
    set:
      head.mode: custom
      head.follow_pan: off
      head.follow_tilt: off
    who: {pan: operator, tilt: operator}
"""
