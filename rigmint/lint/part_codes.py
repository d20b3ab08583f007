"""The codes of `rigmint parts check`: what is hardly meant so in a part file, though the format allows it."""

from __future__ import annotations

from rigmint.words import Grade

PART_FAMILY = "part"

PART_CODES: tuple[tuple[str, Grade, str, str], ...] = (
    (
        "part:over-rating",
        Grade.BURN,
        "A port gives more volts than its connector is rated for, or is to carry more amps than its contacts.",
        "Look the figures up again; a connector of the house's own can be declared with its own rating. In a rig the"
        " makers' ratings hold.",
    ),
    (
        "part:lead-short",
        Grade.BURN,
        "A lead joins contacts that are plus and minus in every pin-out that its connectors are met with.",
        "Write the conductors as they are soldered, contact by contact, with a meter on the lead.",
    ),
    (
        "part:windows",
        Grade.DEAD,
        "Windows of volts contradict each other, or the volts that come to the same rail.",
        "State `works` and `survives` as the data sheet does; what works must be survived.",
    ),
    (
        "part:figures",
        Grade.DEAD,
        "Two figures of one thing cannot both be true.",
        "Look both up again, and mind the unit.",
    ),
    (
        "part:rail-unfed",
        Grade.DEAD,
        "Nothing feeds a rail: no cell, no bridge, no port that takes power.",
        "Write the `bridges:` entry, the cell or the port from which it gets its volts; take the rail out where there"
        " is none.",
    ),
    (
        "part:no-wire",
        Grade.DEAD,
        "A port speaks a protocol for which its pin-out has no wire.",
        "Name the signal's contact under `pins:`, or take the protocol out of `speaks:`.",
    ),
    (
        "part:regulator",
        Grade.THIN,
        "A regulator is fed outside of what it takes, or gives less than its own rail draws.",
        "Write `takes:`, `out:` and `max:` from the data sheet; one that steps up says `lifts: true`.",
    ),
    (
        "part:load",
        Grade.THIN,
        "A device draws more than its own input may carry.",
        "Look up `load` of the rails, and `max` and `works` of the input.",
    ),
    (
        "part:no-pin-out",
        Grade.THIN,
        "A port carries power and does not state its pin-out, or states half of it.",
        "Write `pins:`, by contact or by the name of a usual pin-out, from the data sheet or by meter.",
    ),
    (
        "part:pin-out",
        Grade.THIN,
        "A pin-out, or what a lead joins, is unlike every one that the connector is usually met with.",
        "Meter it. If it is so, add the pin-out to `usual:` in a connector file of the house, and tag the socket.",
    ),
    (
        "part:usb-power",
        Grade.THIN,
        "USB power delivery is offered or wanted by a port that cannot negotiate it.",
        "Write `speaks: [usb-pd]` with a contact `cc`, or leave `offers:` and `wants:` out.",
    ),
    (
        "part:cell",
        Grade.THIN,
        "A battery or a supply without a cell gives nothing.",
        "Write the cell with `volts`, `energy`, `max` and `trips`, from the label on the pack.",
    ),
    (
        "part:control-nowhere",
        Grade.THIN,
        "A control acts on an axis that leads from it to no mover and no port that carries it.",
        "Write a `passes:` entry from the control, to a mover of that axis or to a port or radio whose protocol"
        " carries it.",
    ),
    (
        "part:pass-nowhere",
        Grade.THIN,
        "An entry of `passes:` hands on nothing: what comes from its source cannot go to its target.",
        "Look at `axes:` or `carries:` of the entry, and at what both ends speak.",
    ),
    (
        "part:mute-port",
        Grade.THIN,
        "A port or a radio speaks a protocol, and no entry of `passes:` leads to it or from it.",
        "Write how its signals go on inside the part, under `passes:`.",
    ),
    (
        "part:head",
        Grade.THIN,
        "A head without buttons of its own.",
        "Write its `controls:`, and `passes:` from them.",
    ),
    (
        "part:calibration",
        Grade.THIN,
        "A lens motor, or a driver of bare motors, does not say whether and how hard it seeks the stops of a ring.",
        "Write `calibration:` in N*m and `calibrates:` under `drive:`; `calibrates: never` where it does not.",
    ),
    (
        "part:mass",
        Grade.TIDY,
        "What rides on a rig has no mass.",
        "Weigh it, and write `mass:`.",
    ),
)
"""Code, grade, title, how to put it right; worst grade first."""
