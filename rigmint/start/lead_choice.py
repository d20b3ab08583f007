"""Which generic lead a prep room takes for two connectors, of the several that would fit."""

from __future__ import annotations

USUAL = {
    ("d-tap", "0b-2"): "lead-tap-to-2pin",
    ("d-tap", "coupler-8v"): "lead-tap-to-coupler",
    ("0b-2", "0b-2"): "lead-2pin",
    ("0b-2", "xlr4"): "lead-2pin-to-xlr4",
    ("xlr4", "xlr4"): "lead-xlr4",
    ("xlr4", "0b-2"): "lead-xlr4-to-2pin",
    ("3pin-24v", "3pin-24v"): "lead-24v",
    ("barrel-5.5-2.1", "coupler-8v"): "lead-barrel-to-coupler",
    ("usb-c", "usb-c"): "lead-usb-c",
    ("usb-a", "usb-c"): "lead-usb-a-to-c",
    ("bnc", "bnc"): "lead-sdi",
    ("hdmi-a", "hdmi-a"): "lead-hdmi",
    ("hdmi-a", "hdmi-c"): "lead-hdmi-a-to-c",
    ("hdmi-a", "hdmi-d"): "lead-hdmi-a-to-d",
    ("hdmi-d", "hdmi-c"): "lead-hdmi-d-to-c",
    ("jack-2.5", "jack-2.5"): "lead-run-jack",
    ("jack-3.5", "0s-3"): "lead-run-jack-to-3pin",
    ("0s-3", "0s-3"): "lead-run",
    ("xlr5", "xlr5"): "lead-line-5pin",
    ("0b-4", "0b-4"): "lead-range-finder",
    ("ring-terminal", "blade-50a"): "lead-ring-to-blade",
}
"""(connector at end a, connector at end b) to the part, without its `generic/`."""
SHORT = {("0b-2", "0b-2"): "lead-2pin-short"}
"""The same from a breakout, beside which sits what it feeds: less ohms there keep returns out of the signal leads."""

FROM_THE_GROUND = {
    ("3pin-24v", "3pin-24v"): "lead-24v-long",
    ("usb-c", "usb-c"): "lead-usb-c-long",
    ("xlr4", "xlr4"): "lead-xlr4-long",
}
"""The same, where one end is on the rig and the other is not: the lead that bridges two devices on one plate does not
reach the floor. A pair that is not here has one lead, which is long enough or has its length said."""


def choose_lead(source: str, target: str, *, leaves_rig: bool) -> str:
    """The usual lead from connector to connector. Raises KeyError for a pair that no block joins."""
    pair = source, target
    return FROM_THE_GROUND.get(pair, USUAL[pair]) if leaves_rig else USUAL[pair]
