"""Rigs that several tests of this pack start from. Each is sound."""

from __future__ import annotations

REMOTE = """\
rigmint: 1
rig: Saltmarsh, head operated from the desk
kit:
  head: house/head
  desk: house/desk
leads:
  D1: {part: house/lead-data, from: desk.line, to: head.control}
crew: {operator: [desk], carrier: [head]}
setups:
  two_up:
    set:
      head.mode: custom
      head.follow_pan: off
      head.follow_tilt: off
    who: {pan: operator, tilt: operator}
"""
