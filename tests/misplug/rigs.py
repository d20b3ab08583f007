"""Small rigs on which known hazards lie, none of them described anywhere in them."""

from __future__ import annotations

PARTS = """
house/pack:
  kind: battery
  rides: tilt
  cells: {pack: {volts: 12 to 16.8 V}}
  ports: {mount: {connector: plate-wedge, sex: plug, pins: power}}
house/pack-26:
  kind: battery
  cells: {pack: {volts: 21 to 29.4 V}}
  ports: {mount: {connector: plate-wedge-26v, sex: plug, pins: power}}
house/plate:
  kind: plate
  ports:
    battery: {connector: plate-wedge, sex: socket, pins: power}
    tap_1: {connector: d-tap, sex: socket, pins: plus-first, role: out}
    tap_2: {connector: d-tap, sex: socket, pins: plus-first, role: out}
    out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out}
    out_2: {connector: 0b-2, sex: socket, pins: minus-first, role: out}
house/plate-26:
  kind: plate
  ports:
    battery: {connector: plate-wedge-26v, sex: socket, pins: power}
    out_1: {connector: 0b-2, sex: socket, pins: minus-first, role: out}
house/camera:
  kind: camera
  rails: {main: {load: 20 W}}
  ports: {dc_in: {connector: 0b-2, sex: socket, pins: minus-first, rail: main, works: 11 to 17 V, survives: -0.3 to 18 V}}
house/light-26:
  kind: light
  rails: {main: {load: 30 W}}
  ports: {dc_in: {connector: 0b-2, sex: socket, pins: minus-first, rail: main, works: 20 to 30 V, survives: -0.3 to 32 V}}
house/monitor-plus-first:
  kind: monitor
  rides: tilt
  rails: {main: {load: 8 W}}
  ports: {dc_in: {connector: 0b-2, sex: socket, pins: plus-first, rail: main, works: 11 to 17 V, survives: -0.3 to 18 V}}
house/motor:
  kind: lens_motor
  rails: {main: {load: 5 W}}
  ports: {bus: {connector: usb-c, sex: socket, pins: power, rail: main, works: 7 to 17 V, survives: -0.3 to 18 V}}
house/finder:
  kind: range_finder
  rails: {main: {load: 1 W}}
  ports: {usb: {connector: usb-c, sex: socket, pins: power, rail: main, works: 4.5 to 5.5 V}}
house/lead-raw:
  kind: lead
  ends: {a: {connector: d-tap, sex: plug}, b: {connector: usb-c, sex: plug}}
  conductors: [{from: a.1, to: b.vbus, gauge: 22 AWG}, {from: a.2, to: b.gnd, gauge: 22 AWG}]
house/lead-5v:
  kind: lead
  ends: {a: {connector: d-tap, sex: plug}, b: {connector: usb-c, sex: plug}}
  conductors:
  - {from: a.1, to: b.vbus, gauge: 22 AWG, regulator: {out: 5 V, takes: 8 to 26 V, blocks: true, ground: b.gnd}}
  - {from: a.2, to: b.gnd, gauge: 22 AWG}
house/lead-2pin:
  kind: lead
  ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
  conductors: [{from: a.1, to: b.1, gauge: 20 AWG}, {from: a.2, to: b.2, gauge: 20 AWG}]
house/lead-2pin-crossed:
  kind: lead
  ends: {a: {connector: 0b-2, sex: plug}, b: {connector: 0b-2, sex: plug}}
  conductors: [{from: a.1, to: b.2, gauge: 20 AWG}, {from: a.2, to: b.1, gauge: 20 AWG}]
house/lead-tap-2pin:
  kind: lead
  ends: {a: {connector: d-tap, sex: plug}, b: {connector: 0b-2, sex: plug}}
  conductors: [{from: a.1, to: b.2, gauge: 20 AWG}, {from: a.2, to: b.1, gauge: 20 AWG}]
"""

RAW_LEAD = """
kit: {battery: house/pack, plate: house/plate, camera: house/camera, motor: house/motor, finder: house/finder}
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}
  P2: {part: house/lead-raw, from: plate.tap_1, to: motor.bus}
  P3: {part: house/lead-5v, from: plate.tap_2, to: finder.usb}
"""
"""A tap lead that brings battery volts on USB-C, beside a device with a 5 V USB-C socket."""

TWO_PINOUTS = """
kit: {battery: house/pack, plate: house/plate, camera: house/camera, monitor: house/monitor-plus-first}
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}
  P2: {part: house/lead-2pin-crossed, from: plate.out_2, to: monitor.dc_in}
"""
"""Two 2-pin leads of opposite pin-out, each right where it is."""

TWO_VOLTAGES = """
kit:
  battery: house/pack
  plate: house/plate
  camera: house/camera
  block: house/pack-26
  plate_26: house/plate-26
  light: house/light-26
docks: [battery.mount > plate.battery, block.mount > plate_26.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}
  P2: {part: house/lead-2pin, from: plate_26.out_1, to: light.dc_in}
"""
"""12 V and 24 V on the same connector."""

WORN_TAP = """
kit: {battery: house/pack, plate: house/plate, camera: house/camera}
docks: [battery.mount > plate.battery]
leads:
  P1: {part: house/lead-tap-2pin, from: plate.tap_1, to: camera.dc_in}
"""
"""A two-pin tap, which takes its plug turned round once it is worn."""
