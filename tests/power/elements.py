"""What a rig's wiring comes down to, on named nodes: the terms of a netlist. SI units."""

from __future__ import annotations

from dataclasses import dataclass, field

Place = tuple[str, str]
"""Item and port."""


@dataclass(frozen=True, slots=True)
class Wire:
    """Ohms between two nodes. `lead` and `conductor` where it is a lead's."""

    a: str
    b: str
    ohms: float
    lead: str | None = None
    conductor: int | None = None


@dataclass(frozen=True, slots=True)
class Mate:
    """A contact of a port (`device`) against what is plugged in."""

    other: str
    device: str
    ohms: float
    ports: tuple[tuple[Place, int], ...]
    """Ports whose feed contact it is, each with the sign of a current from `other` to `device` into the part."""


@dataclass(frozen=True, slots=True)
class Diode:
    """From anode to cathode."""

    anode: str
    cathode: str
    drop: float


@dataclass(frozen=True, slots=True)
class Load:
    """W, A or ohm by unit; a resistance under `low` volts. `peak` stands in for the amount at the change."""

    item: str
    rail: str
    plus: str
    minus: str
    unit: str
    amount: float
    peak: float
    low: float

    def watts_at(self, amount: float, volts: float) -> float:
        """W of an amount at these volts."""
        return {"W": amount, "A": amount * volts, "ohm": volts * volts / amount if amount else 0.0}[self.unit]


@dataclass(frozen=True, slots=True)
class Regulator:
    """`out` volts from input to output, both against ground."""

    input: str
    output: str
    ground: str
    out: float
    limit: float | None
    efficiency: float
    takes: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Source:
    """A cell, with its volts at the three points."""

    place: str
    plus: str
    minus: str
    volts: dict[str, float]
    ohms: float


@dataclass(slots=True)
class Wiring:
    """All of a rig in a setup. `ports`: of each port with a feed and a minus, the two nodes."""

    wires: list[Wire] = field(default_factory=list)
    mates: list[Mate] = field(default_factory=list)
    diodes: list[Diode] = field(default_factory=list)
    loads: list[Load] = field(default_factory=list)
    regulators: list[Regulator] = field(default_factory=list)
    sources: list[Source] = field(default_factory=list)
    ports: dict[Place, tuple[str, str]] = field(default_factory=dict)
    leads: dict[str, list[Place]] = field(default_factory=dict)
    """Label to the ports that it is plugged into."""
    joined: list[tuple[str, str]] = field(default_factory=list)
    """Nodes that are one."""
    tied: list[tuple[str, str]] = field(default_factory=list)
    """A node that may float, and what it then stands at."""


def reach_from(wiring: Wiring, start: str) -> set[str]:
    """The nodes that current from a plus comes to: along wires, diodes and regulators forward."""
    steps: dict[str, list[str]] = {}
    both_ways = list(wiring.joined) + [(wire.a, wire.b) for wire in wiring.wires]
    both_ways += [(mate.other, mate.device) for mate in wiring.mates]
    forward = [(diode.anode, diode.cathode) for diode in wiring.diodes]
    forward += [(one.input, one.output) for one in wiring.regulators]
    for a, b in [*both_ways, *((b, a) for a, b in both_ways), *forward]:
        steps.setdefault(a, []).append(b)
    reached, frontier = {start}, [start]
    while frontier:
        for node in steps.get(frontier.pop(), ()):
            if node not in reached:
                reached.add(node)
                frontier.append(node)
    return reached
