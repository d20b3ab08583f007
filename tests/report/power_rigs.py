"""Rigs of an invented house for the tests of `power`: contacts of 0b-2 are written plus first, so that a lead in one
line joins plus to plus."""

from __future__ import annotations

from collections.abc import Sequence

from rigmint.report.power_setup import PowerReport, gather_power
from rigmint.rig.house import House
from tests.builders import make_rig

_PORT = "connector: 0b-2, pins: {1: plus, 2: minus}"
_PACK = "volts: 12.0 to 16.8 V, nominal: 14.4 V, energy: 98 Wh, max: 10 A, resistance: 100 mohm"
PARTS = f"""
house/pack: {{kind: battery, cells: {{pack: {{{_PACK}, trips: 15 A}}}}, ports: {{out: {{{_PORT}}}, out_2: {{{_PORT}}}}}}}
house/untripped: {{kind: battery, cells: {{pack: {{{_PACK}, trips: none}}}}, ports: {{out: {{{_PORT}}}}}}}
house/unknown: {{kind: battery, cells: {{pack: {{volts: 12 to 16.8 V, energy: 98 Wh}}}}, ports: {{out: {{{_PORT}}}}}}}
house/breakout: {{kind: breakout, ports: {{in: {{{_PORT}, role: in, works: 6 to 34 V}}, out_1: {{{_PORT}, role: out}}, out_2: {{{_PORT}, role: out}}, out_3: {{{_PORT}, role: out}}}}}}
house/camera: {{kind: camera, rails: {{main: {{load: 40 W, peak: 55 W, start: 55 W}}}}, ports: {{dc_in: {{{_PORT}, works: 11 to 17 V, max: 7 A}}}}}}
house/lamp: {{kind: light, rails: {{main: {{load: 6 W}}}}, ports: {{dc_in: {{{_PORT}, works: 14 to 16 V}}, dc_2: {{{_PORT}, works: 14 to 16 V, rail: main}}}}}}
house/plain: {{kind: light, rails: {{main: {{load: 6 W}}}}, ports: {{dc_in: {{{_PORT}}}}}}}
house/regulator:
  kind: regulator
  rails: {{raw: {{}}, five: {{}}}}
  bridges: [{{from: raw, to: five, by: regulator, out: 5 V, max: 1 A, efficiency: 90 %, takes: 6 to 34 V}}]
  ports: {{in: {{{_PORT}, rail: raw, role: in, works: 6 to 34 V}}, out: {{{_PORT}, rail: five, role: out}}}}
house/stick: {{kind: light, rails: {{main: {{load: 8 W, peak: 8 W}}}}, ports: {{dc_in: {{{_PORT}, works: 4 to 5.5 V}}}}}}
house/lead: {{kind: lead, ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}}}, conductors: [{{from: a.1, to: b.1, gauge: 20 AWG}}, {{from: a.2, to: b.2, gauge: 20 AWG}}], length: 50 cm}}
house/crossed: {{kind: lead, ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}}}, conductors: [{{from: a.1, to: b.2, gauge: 20 AWG}}, {{from: a.2, to: b.1, gauge: 20 AWG}}], length: 50 cm}}
"""
TWO_SETUPS = """
kit: {battery: house/pack, breakout: house/breakout, camera: house/camera, lamp: house/lamp, spare: house/plain}
leads:
  P1: {part: house/lead, from: battery.out, to: breakout.in}
  P2: {part: house/lead, from: breakout.out_1, to: camera.dc_in, length: 2 m}
  P3: breakout.out_2 > lamp.dc_in
needs: {runtime: 60 min}
setups: {day: {}, dusk: {off: [lamp]}}
"""
"""A trunk and two loads; a lamp whose window is too narrow for the battery; a light that nothing feeds."""

SINGLE = "kit: {battery: house/pack, camera: house/camera}\nleads: {P1: {part: house/lead, from: battery.out, to: camera.dc_in}}\n"


def make_report(
    rig: str, names: Sequence[str] | None = None, house: House | None = None, parts: str = ""
) -> PowerReport:
    """The power of a rig in all its setups, or in those named."""
    made = make_rig(rig, PARTS + parts)
    return gather_power(made, house or House(), names or tuple(made.setups))
