"""The pin-level network: every contact that is there, what joins it to what, and the sources and one-way elements.

Pin-level on purpose: a crossed pair, a lead soldered for another pin-out, or a return that runs only through a
picture shield shows itself here and nowhere else.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from enum import Enum

from rigmint.rig.electric import Bridge, Cell, Draw, Rail, RegulatorSpec
from rigmint.rig.lead import Conductor
from rigmint.rig.rig import PortRef

BOND_OHMS = 0.005
"""Between the grounds of two metal bodies docked to each other."""


@dataclass(frozen=True, slots=True)
class Pin:
    """A node. `group` is a port of an item, an end of a lead, or empty for an item's rails and ground."""

    owner: str
    group: str
    contact: str
    is_lead: bool = False

    @property
    def place(self) -> str:
        """The place that a report names."""
        if self.is_lead:
            return f"{self.owner}:{self.group}"
        return f"{self.owner}.{self.group}" if self.group else self.owner


GROUND = "ground"
"""Contact of an item's own ground; rails are contacts named after them with the prefix below."""
RAIL = "rail "
EARTH = Pin("the earth", "", GROUND)
"""Its owner is no name that an item can have."""


class JoinKind(Enum):
    """What joins two pins."""

    INSIDE = "inside"
    """A port's contact to its part's rail or ground: no resistance."""
    MATE = "mate"
    WIRE = "wire"
    """A conductor of a lead."""
    BRIDGE = "bridge"
    """A switch or a wire between rails."""
    BOND = "bond"
    """Metal to metal, or earth."""


@dataclass(frozen=True, slots=True)
class Join:
    """Two pins that conduct both ways. `owner` is the item or lead that it belongs to."""

    first: int
    second: int
    kind: JoinKind
    owner: str
    ohms: float = 0.0
    conductor: Conductor | None = None
    bridge: Bridge | None = None


@dataclass(frozen=True, slots=True)
class OneWay:
    """A diode: current flows from anode to cathode."""

    anode: int
    cathode: int
    drop: float
    owner: str
    ohms: float = 0.0
    bridge: Bridge | None = None
    conductor: Conductor | None = None


@dataclass(frozen=True, slots=True)
class Regulator:
    """A regulator of a part or in a lead; `out` is the volts it gives, after any negotiation."""

    source: int
    output: int
    ground: int
    spec: RegulatorSpec
    out: float
    owner: str
    bridge: Bridge | None = None
    conductor: Conductor | None = None


@dataclass(frozen=True, slots=True)
class Source:
    """A battery or a supply. A negotiating supply gives `fixed` volts; others follow their cell."""

    plus: int
    minus: int
    item: str
    cell: Cell
    fixed: float | None = None

    @property
    def place(self) -> str:
        """`item.cell`."""
        return f"{self.item}.{self.cell.name}"

    @property
    def highest(self) -> float:
        """The most volts that it can give."""
        if self.fixed is not None:
            return self.fixed
        return self.cell.spikes if self.cell.spikes is not None else self.cell.volts.high

    @property
    def lowest(self) -> float:
        """The volts that it gives when it is empty."""
        return self.fixed if self.fixed is not None else self.cell.volts.low

    @property
    def nominal(self) -> float:
        """V at its nominal."""
        return self.fixed if self.fixed is not None else self.cell.nominal


@dataclass(frozen=True, slots=True)
class Load:
    """What an item's rail draws: a rail that draws nothing is no load."""

    rail_pin: int
    ground: int
    item: str
    rail: Rail
    draw: Draw

    @property
    def key(self) -> tuple[str, str]:
        """(item, rail): two items of one part share the rail's description, so that alone does not tell them apart."""
        return self.item, self.rail.name


@dataclass(frozen=True, slots=True)
class Mate:
    """A port and what is plugged into it: the end of a lead, or another port."""

    port: PortRef
    lead: str | None
    end: str | None
    other: PortRef | None


@dataclass(frozen=True, slots=True)
class PinNetwork:
    """All of it, for what is there in a setup. Pins are numbered; `index` finds a number."""

    pins: tuple[Pin, ...]
    index: Mapping[Pin, int]
    joins: tuple[Join, ...]
    diodes: tuple[OneWay, ...]
    regulators: tuple[Regulator, ...]
    sources: tuple[Source, ...]
    loads: tuple[Load, ...]
    mates: tuple[Mate, ...]
    misfits: tuple[Mate, ...]
    """Ends and ports that are meant for each other and do not go together: open."""

    def list_items(self, names: Collection[str]) -> list[str]:
        """Those of `names` that have a pin here, sorted."""
        return sorted({pin.owner for pin in self.pins if not pin.is_lead}.intersection(names))

    def port_pins(self, ref: PortRef, contacts: tuple[str, ...]) -> tuple[int, ...]:
        """The numbers of a port's contacts."""
        return tuple(self.index[Pin(ref.item, ref.port, contact)] for contact in contacts)

    def ground(self, item: str) -> int:
        """The number of an item's ground."""
        return self.index[Pin(item, "", GROUND)]

    def rail(self, item: str, rail: str) -> int:
        """The number of an item's rail."""
        return self.index[Pin(item, "", RAIL + rail)]

    def minus_of(self, ref: PortRef, isolated: bool) -> int:
        """The node that a port's minus contacts join: its own where the port is isolated."""
        return self.index[Pin(ref.item, ref.port, GROUND)] if isolated else self.ground(ref.item)


def take_out_lead(network: PinNetwork, label: str) -> PinNetwork:
    """The network with one lead taken out."""
    return replace(
        network,
        joins=tuple(join for join in network.joins if join.owner != label or not _is_of_lead(network, join)),
        diodes=tuple(diode for diode in network.diodes if diode.owner != label),
        regulators=tuple(regulator for regulator in network.regulators if regulator.owner != label),
        mates=tuple(mate for mate in network.mates if mate.lead != label),
        misfits=tuple(mate for mate in network.misfits if mate.lead != label),
    )


def open_conductor(network: PinNetwork, label: str, index: int | None) -> PinNetwork:
    """The network with one conductor of a lead open."""

    def stays(element: Join | OneWay | Regulator) -> bool:
        return element.conductor is None or element.owner != label or element.conductor.index != index

    return replace(
        network,
        joins=tuple(filter(stays, network.joins)),
        diodes=tuple(filter(stays, network.diodes)),
        regulators=tuple(filter(stays, network.regulators)),
    )


def _is_of_lead(network: PinNetwork, join: Join) -> bool:
    return network.pins[join.first].is_lead or network.pins[join.second].is_lead
