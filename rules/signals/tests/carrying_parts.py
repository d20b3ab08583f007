"""Parts of the tests of record, signals, radio and picture: an invented house's own, without power, so that each rig
stays short."""

from __future__ import annotations

PARTS = """
parts:
  - rigmint_part: 1
    id: house/camera
    name: Camera started by a contact closure
    kind: camera
    ports:
      remote: {connector: 0s-3, sex: socket, pins: trigger, speaks: [run-closure],
               levels: {trigger: {takes: closure, as: pulse, survives: -0.3 to 5.5 V}}}
      sdi: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g, sdi-6g]}
      sdi_hd: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g]}
      tc: {connector: 0b-5, sex: socket, pins: timecode-in, speaks: [ltc],
           levels: {timecode: {takes: 2 V, as: serial, survives: -0.3 to 5.5 V}}}
    settings:
      format: {values: [1080p25, 1080p50, 2160p25], default: 1080p25}
      tc: {values: [on, off], default: on}
    controls: {button: {sends: trigger, axis: record}}
    moves: {run: {axis: record, takes: [trigger]}}
    makes: {sensor: {picture: {setting: format}}}
    shows: {clock: {}}
    passes:
      - {from: [button, remote], to: run, axes: record}
      - {from: sensor, to: sdi, carries: picture}
      - {from: sensor, to: sdi_hd, carries: picture, format: 1080p25}
      - {from: tc, to: clock, carries: timecode, when: {tc: on}}

  - rigmint_part: 1
    id: house/camera-5v
    name: Camera started by a 5 V pulse
    kind: camera
    like: house/camera
    ports: {remote: {speaks: [run-pulse], levels: {trigger: {takes: 5 V, survives: -0.3 to 12 V}}}}

  - rigmint_part: 1
    id: house/camera-hold
    name: Camera that records while its contact is closed
    kind: camera
    like: house/camera
    ports: {remote: {speaks: [run-hold], levels: {trigger: {as: hold}}}}

  - rigmint_part: 1
    id: house/camera-hold-alike
    name: Camera that records while held, on the protocol of a pulse
    kind: camera
    like: house/camera
    ports: {remote: {levels: {trigger: {as: hold}}}}

  - rigmint_part: 1
    id: house/camera-serial
    name: Camera started by serial data on the same socket
    kind: camera
    like: house/camera
    ports: {remote: {speaks: [run-serial], pins: {1: minus, 3: serial}, levels: {trigger: null, serial: {takes: 3.3 V, as: serial, survives: -0.3 to 5.5 V}}}}

  - rigmint_part: 1
    id: house/camera-silent
    name: Camera whose input states nothing
    kind: camera
    like: house/camera
    ports: {remote: {levels: null}}

  - rigmint_part: 1
    id: house/driver
    name: Motor driver with record outputs, moves its own ring
    kind: motor_driver
    ports:
      run: {connector: 0s-3, sex: socket, pins: trigger, speaks: [run-closure],
            levels: {trigger: {gives: closure, as: pulse, survives: -0.3 to 12 V}}}
      run_5v: {connector: 0s-3, sex: socket, pins: trigger, speaks: [run-pulse],
               levels: {trigger: {gives: 5 V, as: pulse, survives: -0.3 to 12 V}}}
      run_12v: {connector: 0s-3, sex: socket, pins: trigger, speaks: [run-pulse],
                levels: {trigger: {gives: 12 V, as: pulse, survives: -0.3 to 18 V}}}
    moves: {shaft: {axis: [focus], takes: [absolute, rate]}}
    passes:
      - {from: radio, to: shaft, axes: focus}
      - {from: radio, to: [run, run_5v, run_12v], axes: record}
    radios:
      radio:
        speaks: [lens-air]
        band: 2400 to 2483.5 MHz
        reach: {eu: 300 m, us: 600 m}
        peers: 2
        channels:
          1: {centre: 2410 MHz, width: 2 MHz}
          2: {centre: 2420 MHz, width: 2 MHz}
          3: {centre: 2440 MHz, width: 2 MHz}

  - rigmint_part: 1
    id: house/hand
    name: Hand unit
    kind: hand_unit
    controls:
      knob: {sends: absolute, axis: focus}
      rec: {sends: trigger, axis: record}
    passes: [{from: [knob, rec], to: radio, axes: [focus, record]}]
    radios:
      radio:
        speaks: [lens-air]
        band: 2400 to 2483.5 MHz
        reach: {eu: 300 m, us: 600 m}
        peers: 1
        channels:
          1: {centre: 2410 MHz, width: 2 MHz}
          2: {centre: 2420 MHz, width: 2 MHz}
          3: {centre: 2440 MHz, width: 2 MHz}

  - rigmint_part: 1
    id: house/hand-budget
    name: Hand unit of which no reach is stated
    kind: hand_unit
    like: house/hand
    radios: {radio: {reach: null, power: {eu: 10 dBm}, hears: -90 dBm}}

  - rigmint_part: 1
    id: house/driver-budget
    name: Motor driver of which no reach is stated
    kind: motor_driver
    like: house/driver
    radios: {radio: {reach: null, power: {eu: 10 dBm}, hears: -90 dBm}}

  - rigmint_part: 1
    id: house/driver-silent
    name: Motor driver of whose radio nothing is stated
    kind: motor_driver
    like: house/driver
    radios: {radio: {reach: null}}

  - rigmint_part: 1
    id: house/hand-silent
    name: Hand unit of whose radio nothing is stated
    kind: hand_unit
    like: house/hand
    radios: {radio: {reach: null}}

  - rigmint_part: 1
    id: house/lens
    name: Lens with a focus ring
    kind: lens
    rings: {focus: {}}

  - rigmint_part: 1
    id: house/sender
    name: Picture sender, 3 Gbit/s
    kind: sender
    ports:
      sdi_in: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g, sdi-6g]}
      sdi_out: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g, sdi-6g]}
    passes:
      - {from: sdi_in, to: radio, carries: picture, latency: 20 ms, accepts: [1080p25, 1080p50]}
      - {from: sdi_in, to: sdi_out, carries: picture, passive: true}
    radios:
      radio:
        speaks: [picture-air]
        band: 5150 to 5850 MHz
        reach: {eu: 1200 m, us: 3000 m}
        peers: 3
        channels:
          36: {centre: 5180 MHz, width: 20 MHz}
          40: {centre: 5200 MHz, width: 20 MHz}

  - rigmint_part: 1
    id: house/sender-slow
    name: Picture sender with a slow encoder
    kind: sender
    like: house/sender
    passes:
      - {from: sdi_in, to: radio, carries: picture, latency: 60 ms}

  - rigmint_part: 1
    id: house/monitor-air
    name: Monitor with a receiver and slots
    kind: monitor
    settings: {slot: {values: [a, b, watch]}}
    shows: {screen: {latency: 15 ms}}
    passes: [{from: radio, to: screen, carries: picture, latency: 10 ms}]
    radios:
      radio:
        speaks: [picture-air]
        band: 5150 to 5850 MHz
        reach: {eu: 1200 m, us: 3000 m}
        peers: 1
        slot: {setting: slot, shared: [watch]}
        channels:
          36: {centre: 5180 MHz, width: 20 MHz}
          40: {centre: 5200 MHz, width: 20 MHz}

  - rigmint_part: 1
    id: house/monitor
    name: Monitor with two inputs and a passive loop
    kind: monitor
    ports:
      sdi_in: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g, sdi-6g]}
      sdi_2: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g, sdi-6g]}
      sdi_out: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g, sdi-6g]}
    settings: {input: {values: [one, two], default: one}}
    shows: {screen: {latency: 15 ms}}
    passes:
      - {from: sdi_in, to: screen, carries: picture, when: {input: one}}
      - {from: sdi_2, to: screen, carries: picture, when: {input: two}}
      - {from: sdi_in, to: sdi_out, carries: picture, passive: true}

  - rigmint_part: 1
    id: house/monitor-slow-input
    name: Monitor of 3 Gbit/s
    kind: monitor
    like: house/monitor
    ports: {sdi_in: {speaks: [sdi-3g]}}

  - rigmint_part: 1
    id: house/recorder
    name: Recorder
    kind: recorder
    ports: {sdi_in: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g, sdi-6g]}}
    shows: {disk: {}}
    passes: [{from: sdi_in, to: disk, carries: picture}]

  - rigmint_part: 1
    id: house/scaler
    name: Converter down to 1080p
    kind: converter
    ports:
      sdi_in: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g, sdi-6g]}
      sdi_out: {connector: bnc, sex: socket, pins: video, speaks: [sdi-3g]}
    settings: {out: {values: [1080p25, 1080p24], default: 1080p25}}
    passes: [{from: sdi_in, to: sdi_out, carries: picture, format: {setting: out}, latency: 20 ms}]

  - rigmint_part: 1
    id: house/clock
    name: Timecode box
    kind: timecode
    ports:
      tc: {connector: 0b-5, sex: socket, pins: timecode-out, speaks: [ltc],
           levels: {timecode: {gives: 2 V, as: serial, survives: -0.3 to 5.5 V}}}
    makes: {crystal: {timecode: true}}
    passes: [{from: crystal, to: tc, carries: timecode}]

  - rigmint_part: 1
    id: house/clock-loud
    name: Timecode box with a line output of 8 V
    kind: timecode
    like: house/clock
    ports: {tc: {levels: {timecode: {gives: 8 V, survives: -0.3 to 12 V}}}}

  - rigmint_part: 1
    id: house/head
    name: Head driven by radio
    kind: head
    moves: {pan_motor: {axis: pan, takes: [rate]}, halt: {axis: stop, takes: [trigger]}}
    passes: [{from: radio, to: [pan_motor, halt], axes: [pan, stop]}]
    radios: {radio: {speaks: [head-air], reach: {eu: 500 m}}}
    joints: {pan: {}}

  - rigmint_part: 1
    id: house/head-holds
    name: Head that holds when its link drops
    kind: head
    like: house/head
    on_loss: hold

  - rigmint_part: 1
    id: house/head-goes-on
    name: Head that goes on when its link drops
    kind: head
    like: house/head
    on_loss: continue

  - rigmint_part: 1
    id: house/desk
    name: Desk by radio
    kind: desk
    controls: {wheel: {sends: rate, axis: pan}, stop: {sends: trigger, axis: stop}}
    passes: [{from: [wheel, stop], to: radio, axes: [pan, stop]}]
    radios: {radio: {speaks: [head-air], reach: {eu: 500 m}}}

  - rigmint_part: 1
    id: house/lead-run
    name: Record lead, 3-pin to 3-pin
    kind: lead
    length: 40 cm
    ends: {a: {connector: 0s-3, sex: plug}, b: {connector: 0s-3, sex: plug}}
    conductors: [{from: a.1, to: b.1, gauge: 28 AWG}, {from: a.3, to: b.3, gauge: 28 AWG}]
    carries: [run-closure, run-pulse, run-hold, run-serial]

  - rigmint_part: 1
    id: house/lead-timecode
    name: Timecode lead
    kind: lead
    length: 40 cm
    ends: {a: {connector: 0b-5, sex: plug}, b: {connector: 0b-5, sex: plug}}
    conductors: [{from: a.1, to: b.1, gauge: 28 AWG}, {from: a.5, to: b.2, gauge: 28 AWG}]
    carries: [ltc]

  - rigmint_part: 1
    id: house/lead-timecode-cut
    name: Timecode lead without its signal wire
    kind: lead
    like: house/lead-timecode
    conductors: [{from: a.1, to: b.1, gauge: 28 AWG}]

  - rigmint_part: 1
    id: house/coax
    name: Coax lead
    kind: lead
    length: 1 m
    ends: {a: {connector: bnc, sex: plug}, b: {connector: bnc, sex: plug}}
    conductors: [{from: a.centre, to: b.centre, gauge: 24 AWG}, {from: a.shield, to: b.shield, gauge: 22 AWG}]
    carries: [sdi-3g, sdi-6g, sdi-12g]
    loss: {at: 742.5 MHz, per_metre: 0.2 dB}

  - rigmint_part: 1
    id: house/coax-plain
    name: Coax lead of unknown loss
    kind: lead
    like: house/coax
    loss: null
"""
