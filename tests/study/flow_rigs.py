"""Parts and rigs of the tests of flows: invented, and without power."""

from __future__ import annotations

SDI = "connector: bnc, sex: socket, pins: video"
PARTS = f"""
house/camera:
  kind: camera
  settings:
    format: {{values: [1080p25, 1080p50, 2160p25, 2160p50], default: 1080p25}}
    twin: {{values: [on, off], default: on}}
  ports:
    sdi_1: {{{SDI}, speaks: [sdi-3g, sdi-6g]}}
    sdi_2: {{{SDI}, speaks: [sdi-3g]}}
  makes: {{sensor: {{picture: {{setting: format}}}}, crystal: {{timecode: true}}}}
  shows: {{finder: {{latency: 10 ms}}}}
  passes:
    - {{from: sensor, to: [sdi_1, finder], carries: picture}}
    - {{from: sensor, to: sdi_2, carries: picture, when: {{twin: on}}}}
house/camera-unstated: {{like: house/camera, settings: {{format: {{default: null}}}}}}
house/monitor:
  kind: monitor
  settings: {{input: {{values: [sdi, hdmi], default: sdi}}}}
  ports: {{sdi_in: {{{SDI}, speaks: [sdi-3g, sdi-6g]}}, sdi_out: {{{SDI}, speaks: [sdi-3g, sdi-6g]}}}}
  shows: {{screen: {{latency: 15 ms}}, lamp: {{}}}}
  passes:
    - {{from: sdi_in, to: screen, carries: picture, when: {{input: sdi}}}}
    - {{from: sdi_in, to: sdi_out, carries: picture, passive: true}}
house/monitor-active: {{like: house/monitor, passes: [{{from: sdi_in, to: [screen, sdi_out], carries: picture}}]}}
house/scaler:
  kind: converter
  settings: {{out: {{values: [1080p25, 1080p50]}}}}
  ports: {{sdi_in: {{{SDI}, speaks: [sdi-3g, sdi-6g]}}, sdi_out: {{{SDI}, speaks: [sdi-3g]}}}}
  passes: [{{from: sdi_in, to: sdi_out, carries: picture, format: {{setting: out}}, latency: 20 ms}}]
house/sender:
  kind: sender
  ports: {{sdi_in: {{{SDI}, speaks: [sdi-3g]}}}}
  radios: {{radio: {{speaks: [picture-air-plain], peers: 1}}}}
  passes: [{{from: sdi_in, to: radio, carries: picture, latency: 30 ms, accepts: [1080p25, 1080i50]}}]
house/receiver:
  kind: receiver
  ports: {{sdi_out: {{{SDI}, speaks: [sdi-3g]}}}}
  radios: {{radio: {{speaks: [picture-air-plain]}}}}
  passes: [{{from: radio, to: sdi_out, carries: picture, latency: 12 ms}}]
house/module-camera:
  kind: camera
  ports: {{back: {{{SDI}, speaks: [sdi-12g, sdi-3g]}}}}
  makes: {{sensor: {{picture: 2160p50}}}}
  passes: [{{from: sensor, to: back, carries: picture}}]
house/module:
  kind: recorder
  ports: {{front: {{connector: bnc, sex: plug, pins: video, speaks: [sdi-3g]}}}}
  shows: {{disk: {{}}}}
  passes: [{{from: front, to: disk}}]
house/coax:
  kind: lead
  ends: {{a: {{connector: bnc, sex: plug}}, b: {{connector: bnc, sex: plug}}}}
  conductors: straight
  carries: [sdi-3g, sdi-6g, sdi-12g]
house/clock-lead: {{like: house/coax, carries: [ltc]}}
"""
STRAIGHT = """
kit: {camera: house/camera, monitor: house/monitor}
leads: {S1: {part: house/coax, from: camera.sdi_1, to: monitor.sdi_in}}
"""
CHAIN = """
kit: {camera: house/camera, first: house/monitor, second: house/monitor}
leads:
  S1: {part: house/coax, from: camera.sdi_1, to: first.sdi_in}
  S2: {part: house/coax, from: first.sdi_out, to: second.sdi_in}
"""
AIR = """
kit: {camera: house/camera, sender: house/sender, receiver: house/receiver, monitor: house/monitor}
leads:
  S1: {part: house/coax, from: camera.sdi_1, to: sender.sdi_in}
  S2: {part: house/coax, from: receiver.sdi_out, to: monitor.sdi_in}
links: {air: {between: [sender.radio, receiver.radio]}}
"""
SCALED = """
kit: {camera: house/camera, scaler: house/scaler, monitor: house/monitor}
leads:
  S1: {part: house/coax, from: camera.sdi_1, to: scaler.sdi_in}
  S2: {part: house/coax, from: scaler.sdi_out, to: monitor.sdi_in}
"""
