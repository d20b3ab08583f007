"""Whole files of each kind that together use every key of the format."""

from __future__ import annotations

RIG = """
rigmint: 1
rig: Saltmarsh, two-up
says: Head on a slow boat, two people
job: Saltmarsh
like: ../known/two-up.rig.yaml
on: vehicle
stance: upright
region: eu
where: open
kit:
  battery: generic/battery-98wh-wedge
  plate: generic/plate-wedge-two-tap
  breakout: generic/breakout-four-2pin
  camera: {part: generic/camera-compact, set: {format: 1080p25}, asset: CAM-07, says: A camera}
  lens: generic/lens-anamorphic
  head: {part: generic/head-handheld, firmware: "2.1", notes: Back from service, house: {shelf: C4}}
  driver: {part: generic/motor-driver-three, rides: tilt}
  finder: generic/range-finder
  motor_f: {part: generic/lens-motor, set: {axis: focus}}
  motor_i: {part: generic/lens-motor, set: {axis: iris}}
  sender: {part: generic/sender-5ghz-long, rides: base, bond: true, firmware: 3}
  lamp: generic/light-on-board
  hand: generic/hand-unit-three-axis
  desk: generic/desk-wheels
  mon_op: {part: generic/monitor-receiver, set: {slot: a}, for: operator}
  mon_ac: {part: generic/monitor-receiver, set: {slot: b}, for: focus, in: [two_up]}
docks:
  - battery.mount > plate.battery
  - lens.mount > camera.mount
  - {from: desk.monitor_bracket, to: mon_op.bracket, in: [two_up, solo]}
leads:
  P1: {part: generic/lead-tap-to-2pin, from: plate.tap_1, to: breakout.in, length: 40 cm, mark: red sleeve}
  P2: breakout.out_1 > camera.dc_in
  D1: {part: generic/loom-head-y, ends: {a: driver.head, b: head.accessory, c: loose}, in: [two_up], asset: 0042}
  SDI-2: {from: camera.sdi, to: loose, notes: Runs to the desk, house: {drum: 3}}
  X1:
    from: plate.tap_2
    to: lamp.dc_in
    lead:
      ends: {a: {connector: d-tap, sex: plug, tag: lamp}, b: {connector: 0b-2, sex: plug}}
      conductors:
        - {from: a.1, to: b.2, gauge: 20 AWG, fuse: 5 A}
        - {from: a.2, to: b.1, area: 0.5 mm2, diode: 0.4 V}
        - from: a.1
          to: b.2
          regulator: {out: 5 V, max: 2 A, efficiency: 85 %, takes: 9 to 30 V, lifts: false, blocks: true, ground: b.1}
      carries: {usb-pd: [a, b]}
      loss: {at: 1.5 GHz, per_metre: 0.25 dB}
      length: 60 cm
      mass: 45 g
      mark: blue
links:
  picture: {between: [sender.radio, mon_op.radio, mon_ac.radio], distance: 300 m, channel: 52, in: [two_up]}
  lens_control: {between: [driver.radio, hand.radio], channel: 3b, says: Lens, notes: Keep off 11}
air: [{says: house wireless network, centre: 2437 MHz, width: 20 MHz}]
fitted: {motor_f: lens.focus, motor_i: {ring: lens.iris, direction: reversed, marked: normal}}
crew: {operator: [desk, mon_op], first_ac: hand, carrier: [head]}
needs:
  runtime: 60 min
  distance: 300 m
  day: 10 h
  flies: false
  temperature: -5 degC
  stays_up: [camera, head]
  picture: [mon_op]
  range: [hand]
  timecode: [camera]
  sync: [camera]
  tally: [mon_ac]
  lens_data: [camera]
settings: {head.dial: none}
setups:
  two_up:
    says: Operator has the head, first AC has the lens
    set: {desk.lens_control: off, head.mode: custom, head.speed: 3, head.follow_pan: off}
    who: {focus: first_ac, iris: first_ac, zoom: automatic, pan: operator, tilt: operator, roll: nobody,
          record: [operator, first_ac], lens.focus: first_ac}
    distance: {picture: 250 m}
    on: crane
    stance: underslung
    where: steel
    region: us
  solo:
    set: {desk.lens_control: on}
    who: {focus: operator, iris: nobody}
    out: [hand, lens_control]
    off: [finder]
    unplugged: [D1]
    crew: {operator: [desk, mon_op, head]}
    needs: {runtime: 45 min}
    notes: Tried on the prep day
    house: {approved: true}
marked: {P1: red, head.accessory: capped, "D1:b": blue}
tied: [motor_f.bus_1, camera.hdmi, P2, "D1:b"]
metered: {P2: {by: prep, on: 2026-05-02, says: "2 plus, 14.3 V"}}
also: [{part: generic/battery-98wh-wedge, count: 4, why: day}, {part: generic/light-on-board}]
requires:
  - {when: {stance: underslung, head.mode: [custom, pan_follow]}, set: {sender.flip: on}, why: upside down, grade: dead}
  - {when: {on: [crane, cable], kind: head}, alike: [[camera.rate, sync.rate]], why: one clock}
  - {unlike: [[mon_op.slot, mon_ac.slot]], why: one place each}
accepted:
  - {code: runtime:short, at: battery, setup: solo, why: Swapped at every reset, by: prep lead, until: 2027-03-01,
     up_to: 45 min}
  - {code: radio:crowded, at: "link:*", why: Known on this site, by: prep lead, until: 2026-12-31}
notes: Second boat has the spare
house: {customer: 4711}
"""

BARE_RIG = """
rigmint: 1
rig: Bench
kit: {}
"""

LIKE_RIG = """
rigmint: 1
rig: Saltmarsh, spare head
like: saltmarsh.rig.yaml
"""

DRIVER = """
rigmint_part: 1
id: generic/motor-driver-three
name: Lens motor driver, three motors
kind: motor_driver
like: generic/motor-driver
figures: common practice
mass: 160 g
rides: tilt
notes: Firmware 2 and later
house: {class: b}
ports:
  dc_in:
    says: DC IN
    connector: 0b-2
    sex: socket
    pins: {1: minus, 2: plus}
    rail: main
    role: in
    works: 11 to 17 V
    survives: -0.3 to 18 V
    max: 4 A
  head:
    connector: usb-c
    sex: female
    pins: {vbus: plus, gnd: minus, dp: d_plus, dm: trigger}
    rail: five
    role: out
    survives: 0 to 5.5 V
    speaks: [head-bus, usb-pd]
    levels:
      trigger: {gives: closure, takes: 3.3 V, as: pulse, survives: -0.3 to 5 V}
      d_plus: {gives: -5 V, as: serial}
    stage: tilt
    tag: head
    isolated: true
    offers: [5 V, 9 V, 15 V]
  charge: {connector: usb-c, sex: socket, wants: 15 V, tag: 2}
  tap: {connector: d-tap, sex: socket, pins: plus-first}
  rods: {connector: rods-15-light}
rails:
  main: {load: 3 W, peak: 500 mA, start: 25 W}
  five: {load: 12 ohm}
  aux: {}
bridges:
  - {from: main, to: five, by: regulator, out: 5 V, max: 3 A, efficiency: 90 %, takes: 9 to 36 V, blocks: true,
     lifts: true}
  - {from: main, to: aux, by: diode, drop: 0.4 V}
  - {from: main, to: aux, by: switch, resistance: 10 mohm, max: 2.2 A, when: {lens_control: on}}
  - {from: main, to: aux, by: wire, resistance: 5 mohm, fuse: {amps: 3 A, inside: true}}
  - {from: five, to: aux, by: wire, fuse: 2 A}
chassis: minus
settings:
  lens_control: {values: [on, off], forgets: true, default: on}
  axis: {values: [focus, iris, none]}
  dial_speed: {values: [1, 5], default: 1}
  name_shown: {}
controls:
  knob: {sends: absolute, axis: focus, turn: 330 deg}
  dial: {sends: rate, axis: {setting: axis}}
  stick: {sends: rate, axis: [pan, tilt]}
  rec: {sends: trigger, axis: record}
  assist: {sends: absolute, axis: focus, automatic: true, takes_over: never, when: {lens_control: [on, off]}}
moves:
  shaft: {axis: {setting: axis}, takes: [absolute, rate], steps: 1000, when: {lens_control: on}}
  second: {axis: stop}
makes:
  sensor: {picture: {setting: format}, sync: {setting: rate}}
  crystal: {timecode: true}
  bars: {picture: 1080psf23.98}
shows: {screen: {latency: 15 ms}, port_out: {}}
passes:
  - {from: [knob, dial], to: radio, axes: [focus, iris], when: {lens_control: on}}
  - {from: head, to: [shaft, second]}
  - {from: sensor, to: head, carries: picture, loss: 3 dB}
  - {from: head, to: radio, carries: [picture, timecode], latency: 30 ms, accepts: [1080p25, 1080p50]}
  - {from: rods, to: radio, axes: {setting: axis}, as: rate}
  - {from: head, to: tap, carries: picture, format: 1080p25}
  - {from: head, to: tap, carries: picture, format: {setting: format}, passive: true}
radios:
  radio:
    speaks: [lens-air]
    band: 2400 to 2483.5 MHz
    power: {eu: 20 dBm, us: 26 dBm}
    hears: -95 dBm
    reach: {eu: 100 m, us: 150 m}
    peers: 4
    slot: {setting: slot, shared: [watch]}
    gain: -2 dB
    channels: {3: {centre: 2420 MHz, width: 2 MHz, listens: 0 s}}
  second_radio: {speaks: [], slot: 1}
needs:
  - {next_to: motor_driver, when: {lens_control: on}}
  - {firmware: {motor_driver: ">=2.0"}, when: {axis: focus}}
requires:
  - {when: {flip: off, stance: underslung, on: crane, kind: [camera, sender]}, set: {flip: on}, why: upside down,
     grade: dead}
  - {when: {camera.rate: 25}, alike: [[rate, camera.rate]], unlike: [[slot, camera.slot]], why: one clock}
speeds: {1: 0.2, 5: 1}
"""

HEAD_BATTERY_LENS_AND_LEADS = """
parts:
  - rigmint_part: 1
    id: house/head-slow
    kind: head
    on_loss: hold
    follow:
      mode: {setting: mode}
      modes: {pan_follow: {pan: on}, custom: {pan: {setting: follow_pan}, tilt: off, roll: on}, 3: {}}
      cycle: [pan_follow, custom, 3]
      dead_band: {pan: {setting: pan_band}, tilt: {setting: tilt_band}, roll: {setting: roll_band}}
    joints: {pan: {endless: true, slip_ring: false}, roll: {travel: -35 to 35 deg}, tilt: {travel: -110 to 140 deg}}
    payload: {min: 0 kg, max: 4.5 kg}
    wakes: {moves: true, before: [axes unlocked, hands off]}
  - rigmint_part: 1
    id: house/battery-98
    kind: battery
    cells:
      pack: {rail: main, volts: 12.0 to 16.8 V, nominal: 14.4 V, resistance: 80 mohm, energy: 98 Wh, max: 10 A,
             trips: 15 A, charge: never, chemistry: li-ion-4s, curve: {1.0: 4.20 V, 0.5: 3.73 V, 0: 3.00 V}}
      vehicle: {volts: 13.8 V, trips: none, charge: 2 A, chemistry: other, spikes: 40 V, dips: 7 V}
  - rigmint_part: 1
    id: house/lens
    kind: lens
    rings:
      focus: {module: 0.8 mm, teeth: 140, turn: 300 deg, torque: 0.12 N*m, stops: true, stands: 8 oz*in}
      iris: {}
      zoom: {stops: false}
  - rigmint_part: 1
    id: house/motor
    like: generic/lens-motor
    settings: {calibration: {values: [automatic, manual]}}
    drive: {module: 32 DP, teeth: 40, torque: 0.6 N*m, speed: 900 deg/s, calibration: 0.3 N*m,
            calibrates: {when: {calibration: automatic}}}
  - rigmint_part: 1
    id: house/lead-regulated
    kind: lead
    ends: {a: {connector: d-tap, sex: plug}, b: {connector: usb-c, sex: plug, tag: head}}
    conductors:
      - from: a.1
        to: b.vbus
        regulator: {out: 5 V, max: 2 A, efficiency: 85 %, takes: 9 to 30 V, lifts: false, blocks: true, ground: b.gnd}
      - {from: a.2, to: b.gnd, gauge: 20 AWG, fuse: 5 A}
      - {from: a.2, to: b.shield, area: 0.5 mm2, diode: 0.4 V}
    carries: {run-closure: [a, b]}
    length: 45 cm
    loss: {at: 1.5 GHz, per_metre: 0.25 dB}
    mark: yellow sleeve
  - {rigmint_part: 1, id: house/lead-video, kind: lead, conductors: straight, carries: [sdi-3g],
     ends: {a: {connector: bnc, sex: plug}, b: {connector: bnc, sex: plug}}}
"""

LIBRARY = """
rigmint_library: 1
title: Kestrel Hire
parts: [parts]
packs: {need: [kestrel-house], without: [prep]}
rules:
  runtime:short: {at_least: 45 min, kinds: [battery, supply], twice: 2}
  tidy:unused-item: {grade: thin}
  windup:lead: off
requires:
  - {when: {kind: head}, set: {lens.stabiliser: [off, low]}, why: two stabilisers fight, grade: fight}
  - {when: {on: crane, stance: side}, alike: [[camera.rate, sync.rate]], unlike: [[mon_op.slot, mon_ac.slot]],
     why: ours}
accepted:
  - {code: misplug:burns, at: "generic/lens-motor.bus_*", why: red sleeves, by: prep lead, until: 2027-06-30,
     up_to: 17 V}
house: {rig: house/rig.schema.json, part: house/part.schema.json, checks: [house/checks.py]}
power: {change_at: 15 %, age: 85 %, cold: 60 %, peaks: 2, wire_temperature: 20 degC}
radio: {open: 50 %, street: 30 %, vehicle: 25 %, steel: 25 %}
labels: {tape: {five: blue, eight: green, twelve: yellow, twenty_four: red, forty_eight: orange, high: black, signal: white}}
fail_on: fight
"""

CONNECTORS = """
rigmint_connectors: 1
connectors:
  0b-2: {name: 2-pin circular push-pull, contacts: [1, 2], sexes: [plug, socket], latches: yes, amps: 10 A, volts: 60 V,
         contact: 5 mohm, figures: common practice,
         usual: {minus-first: {1: minus, 2: plus}, plus-first: {1: plus, 2: minus}}}
  d-tap: {name: Two-pin battery tap, contacts: [1, 2], latches: no, forces: {1: 2, 2: 1}, amps: 10 A}
  usb-c: {name: USB Type-C, contacts: [vbus, gnd, cc, dp, dm, tx, rx, sbu, shield], reversible: true, latches: false,
          first: [gnd, shield], amps: 5 A}
  barrel-5.5-2.1: {name: Barrel 5.5 by 2.1 mm, contacts: [centre, sleeve], almost: [barrel-5.5-2.5]}
  rods-15-light: {name: "15 mm rods, light spacing", contacts: []}
"""

PROTOCOLS = """
rigmint_protocols: 1
protocols:
  lens-bus: {name: Lens motor bus, carries: [focus, iris, zoom, range], wires: [d_plus, d_minus]}
  run-closure: {name: Record by contact closure, carries: [record], wires: [trigger, minus]}
  sdi-3g: {name: 3 Gbit/s serial digital, carries: [picture], rate: 2.97 Gbit/s, wires: [video, minus], figures: ST 424}
  lens-air: {name: Lens control by radio, carries: [focus, iris, zoom, lens_data]}
"""

COMPLETE_FILES = (
    ("rig", RIG),
    ("rig", BARE_RIG),
    ("rig", LIKE_RIG),
    ("part", DRIVER),
    ("part", HEAD_BATTERY_LENS_AND_LEADS),
    ("library", LIBRARY),
    ("connectors", CONNECTORS),
    ("protocols", PROTOCOLS),
)
