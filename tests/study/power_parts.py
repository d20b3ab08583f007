"""Parts of an invented house for sums that are worked out by hand.

Contacts of 0b-2 are written plus first, so that a lead in one line joins plus to plus.
"""

from __future__ import annotations

PORT = "connector: 0b-2, pins: {1: plus, 2: minus}"
ENDS = "ends: {a: {connector: 0b-2}, b: {connector: 0b-2}}"
PARTS = f"""
house/pack: {{kind: battery, cells: {{pack: {{volts: 12.0 to 16.8 V, nominal: 14.4 V, resistance: 100 mohm, energy: 98 Wh, max: 10 A}}}}, ports: {{out: {{{PORT}}}, out_2: {{{PORT}}}, out_3: {{{PORT}}}}}}}
house/stiff: {{kind: supply, cells: {{mains: {{volts: 14.0 to 14.8 V, nominal: 14.4 V, resistance: 100 mohm}}}}, ports: {{out: {{{PORT}}}, out_2: {{{PORT}}}}}}}
house/box: {{kind: accessory, ports: {{a: {{{PORT}}}, b: {{{PORT}}}}}}}
house/camera: {{kind: camera, rails: {{main: {{load: 40 W}}}}, ports: {{dc_in: {{{PORT}, works: 11 to 17 V}}}}}}
house/motor: {{kind: lens_motor, rails: {{main: {{load: 2 A}}}}, ports: {{dc_in: {{{PORT}, works: 5 to 20 V}}}}}}
house/heater: {{kind: accessory, rails: {{main: {{load: 10 ohm}}}}, ports: {{dc_in: {{{PORT}, works: 1 to 20 V}}}}}}
"""

CONTACT = 0.005
"""ohm of a contact of 0b-2, as its connector file states."""
PACK_OHMS = 0.1

ONE_CAMERA = """
kit: {pack: house/pack, camera: house/camera}
leads: {P1: {part: house/lead, from: pack.out, to: camera.dc_in}}
"""


def lead(conductors: str, length: str = "2 m") -> str:
    """A lead of the house with these conductors."""
    return f"house/lead: {{kind: lead, {ENDS}, conductors: [{conductors}], length: {length}}}\n"


def pair(what: str) -> str:
    """Plus and minus, each with `what`."""
    return f"{{from: a.1, to: b.1, {what}}}, {{from: a.2, to: b.2, {what}}}"
