"""One rig of an invented house that uses most of the format, for tests that take a whole rig and change it."""

from __future__ import annotations

PARTS = """
house/pack:
  kind: battery
  mass: 700 g
  cells: {pack: {rail: main, volts: 12.0 to 16.8 V, energy: 98 Wh, max: 10 A, chemistry: li-ion-4s}}
  ports: {mount: {connector: plate-wedge, sex: plug, pins: power, role: out}}
house/plate:
  kind: plate
  ports:
    battery: {connector: plate-wedge, sex: socket, pins: power}
    tap_1: {connector: d-tap, sex: socket, role: out}
    tap_2: {connector: d-tap, sex: socket, role: out}
house/camera:
  kind: camera
  mass: 1.2 kg
  rails: {main: {load: 40 W}}
  settings: {format: {values: [1080p25, 1080p50], default: 1080p25}, roll: {values: [on, off], default: off}}
  ports:
    mount: {connector: mount-54-lock}
    dc_in: {connector: 0b-2, sex: socket, pins: minus-first, works: 11 to 17 V, survives: -18 to 18 V}
    sdi: {connector: bnc, sex: socket, pins: {centre: video, shield: minus}, speaks: [sdi-3g]}
    run: {connector: 0b-4, sex: socket, pins: {1: minus, 2: trigger}, speaks: [run-closure], levels: {trigger: {takes: closure, as: pulse}}}
  makes: {sensor: {picture: {setting: format}}}
  moves: {roller: {axis: record, takes: [trigger]}}
  passes: [{from: sensor, to: sdi, carries: picture}, {from: run, to: roller, axes: record}]
house/lens:
  kind: lens
  ports: {mount: {connector: mount-54-lock}}
  rings: {focus: {module: 0.8 mm, teeth: 140, turn: 300 deg}, iris: {module: 0.8 mm, teeth: 120}}
house/head:
  kind: head
  rails: {main: {load: 10 W}, aux: {}, five: {}}
  bridges:
    - {from: main, to: five, by: regulator, out: 5 V, max: 3 A, blocks: true}
    - {from: main, to: aux, by: switch, when: {tap: on}}
  settings:
    tap: {values: [on, off], default: on}
    mode: {values: [lock, pan_follow, custom], default: lock}
    follow_pan: {values: [on, off]}
    dial: {values: [none, focus, iris], default: none, forgets: true}
  ports:
    dc_in: {connector: d-tap, sex: plug, rail: main, works: 11 to 17 V}
    aux_out: {connector: 0b-2, sex: socket, rail: aux, role: out}
    accessory: {connector: usb-c, sex: socket, rail: five, role: out, pins: {vbus: plus, gnd: minus, dp: d_plus, dm: d_minus}, speaks: [head-bus]}
    run: {connector: 0b-4, sex: socket, pins: {1: minus, 2: trigger}, speaks: [run-closure], levels: {trigger: {gives: closure, as: pulse}}}
  radios: {radio: {speaks: [head-air], reach: {eu: 300 m}, peers: 2}}
  controls:
    dial: {sends: rate, axis: {setting: dial}}
    rec: {sends: trigger, axis: record}
  moves: {pan: {axis: pan}, tilt: {axis: tilt}}
  passes:
    - {from: radio, to: [pan, tilt, accessory]}
    - {from: [radio, rec], to: run, axes: record}
    - {from: dial, to: accessory}
  follow: {mode: {setting: mode}, modes: {lock: {}, pan_follow: {pan: on}, custom: {pan: {setting: follow_pan}}}, cycle: [lock, pan_follow]}
  joints: {pan: {endless: true}, tilt: {travel: -110 to 140 deg}}
house/driver:
  kind: motor_driver
  rails: {main: {load: 2 W}}
  settings: {remote: {values: [on, off], default: on}}
  ports:
    head: {connector: usb-c, sex: socket, pins: {vbus: plus, gnd: minus, dp: d_plus, dm: d_minus}, speaks: [head-bus], survives: 0 to 5.5 V}
    bus: {connector: 0b-4, sex: socket, pins: {1: minus, 2: plus, 3: d_plus, 4: d_minus}, speaks: [lens-bus], role: out}
  radios: {radio: {speaks: [lens-air], reach: {eu: 100 m}}}
  passes: [{from: radio, to: bus, axes: [focus, iris], when: {remote: on}}, {from: head, to: bus}]
house/motor:
  kind: lens_motor
  settings: {axis: {values: [focus, iris]}}
  rails: {main: {load: 1 W}}
  ports:
    bus_1: {connector: 0b-4, sex: socket, pins: {1: minus, 2: plus, 3: d_plus, 4: d_minus}, speaks: [lens-bus], works: 4.5 to 17 V}
    bus_2: {connector: 0b-4, sex: socket, pins: {1: minus, 2: plus, 3: d_plus, 4: d_minus}, speaks: [lens-bus], works: 4.5 to 17 V}
  moves: {shaft: {axis: {setting: axis}, takes: [absolute, rate]}}
  passes: [{from: bus_1, to: [shaft, bus_2]}, {from: bus_2, to: [shaft, bus_1]}]
house/hand:
  kind: hand_unit
  settings: {link: {values: [on, off], default: on}}
  cells: {pack: {volts: 7 to 8.4 V, energy: 10 Wh}}
  controls: {knob: {sends: absolute, axis: focus}, slider: {sends: absolute, axis: iris, takes_over: touch}}
  radios: {radio: {speaks: [lens-air], reach: {eu: 120 m}}}
  passes: [{from: [knob, slider], to: radio, when: {link: on}}]
house/desk:
  kind: desk
  controls: {wheel: {sends: rate, axis: [pan, tilt]}, rec: {sends: trigger, axis: record}}
  radios: {radio: {speaks: [head-air], reach: {eu: 500 m}}}
  passes: [{from: [wheel, rec], to: radio}]
house/monitor:
  kind: monitor
  cells: {pack: {volts: 6 to 8.4 V}}
  ports: {sdi: {connector: bnc, sex: socket, pins: {centre: video, shield: minus}, speaks: [sdi-3g]}}
  shows: {screen: {latency: 10 ms}}
  passes: [{from: sdi, to: screen, carries: picture}]
house/lead-tap:
  kind: lead
  ends: {a: {connector: d-tap, sex: plug}, b: {connector: 0b-2, sex: plug}}
  conductors: [{from: a.1, to: b.2, gauge: 20 AWG, fuse: 5 A}, {from: a.2, to: b.1, area: 0.5 mm2}]
  length: 60 cm
house/lead-bus:
  kind: lead
  ends: {a: {connector: 0b-4, sex: plug}, b: {connector: 0b-4, sex: plug}}
  conductors: straight
  carries: [lens-bus]
house/lead-run:
  kind: lead
  ends: {a: {connector: 0b-4, sex: plug}, b: {connector: 0b-4, sex: plug}}
  conductors: [{from: a.1, to: b.1}, {from: a.2, to: b.2}]
  carries: {run-closure: [a, b]}
"""

RIG = """
says: Two people on a slow boat
job: Saltmarsh
on: vehicle
stance: upright
region: eu
where: open
kit:
  pack: house/pack
  plate: house/plate
  camera: {part: house/camera, asset: CAM-07, firmware: 2.10}
  lens: house/lens
  head: {part: house/head, set: {follow_pan: off}}
  driver: house/driver
  motor_f: {part: house/motor, set: {axis: focus}}
  motor_i: {part: house/motor, set: {axis: iris}}
  hand: house/hand
  desk: {part: house/desk, in: [two_up]}
  mon: {part: house/monitor, for: operator}
docks:
  - pack.mount > plate.battery
  - {from: lens.mount, to: camera.mount, in: [two_up, solo]}
leads:
  P1: {part: house/lead-tap, from: plate.tap_1, to: camera.dc_in, length: 40 cm}
  P2: plate.tap_2 > head.dc_in
  D1: head.accessory > driver.head
  B1: {part: house/lead-bus, from: driver.bus, to: motor_f.bus_1}
  B2: {part: house/lead-bus, ends: {a: motor_f.bus_2, b: motor_i.bus_1}}
  R1: {part: house/lead-run, from: head.run, to: camera.run}
  V1: {from: camera.sdi, to: mon.sdi, length: 3 m}
  X1:
    from: head.aux_out
    to: loose
    lead:
      ends: {a: {connector: 0b-2, sex: plug, tag: lamp}, b: {connector: 0b-2, sex: plug}}
      conductors: [{from: a.1, to: b.1}, {from: a.2, to: b.2, diode: 0.4 V}]
links:
  lens_control: {between: [driver.radio, hand.radio], distance: 80 m, channel: 3}
  head_control: {between: [head.radio, desk.radio], in: [two_up]}
air: [{says: house wireless network, centre: 2437 MHz, width: 20 MHz}]
fitted: {motor_f: lens.focus, motor_i: {ring: lens.iris, direction: normal, marked: reversed}}
crew: {operator: [desk, mon], first_ac: [hand], carrier: [head]}
needs: {runtime: 60 min, distance: 150 m, flies: false, temperature: 5 degC, stays_up: [camera], picture: [mon]}
settings: {head.dial: none}
setups:
  two_up:
    says: Operator has the head
    set: {head.mode: custom}
    who: {focus: first_ac, iris: first_ac, pan: operator, tilt: operator, record: [operator, carrier]}
    distance: {lens_control: 60 m}
  solo:
    set: {head.dial: focus, hand.link: off}
    who: {focus: carrier, iris: nobody}
    off: [mon]
    unplugged: [V1]
    crew: {operator: head}
    needs: {runtime: 30 min}
marked: {P1: red, head.accessory: capped}
tied: [motor_f.bus_1, B2]
metered: {P2: {by: prep, on: 2026-05-02, says: "2 plus, 14.3 V"}}
also: [{part: house/pack, count: 4, why: day}]
requires: [{when: {stance: underslung}, set: {head.tap: on}, why: The lamp is needed, grade: dead}]
accepted: [{code: runtime:short, at: pack, setup: solo, why: Spare is swapped, by: prep lead, until: 2027-03-01, up_to: 45 min}]
"""
