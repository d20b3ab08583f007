"""A rig: items, leads, docks, links, and the setups in which it is flown. Immutable, all references resolved."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.rig.connector import Protocol
from rigmint.rig.device import Radio, Requirement
from rigmint.rig.electric import Port
from rigmint.rig.lead import LeadBody
from rigmint.rig.part import Part
from rigmint.rig.place import Position
from rigmint.rig.quantity import Quantity


@dataclass(frozen=True, slots=True, order=True)
class PortRef:
    """A port or a radio of an item."""

    item: str
    port: str

    @property
    def place(self) -> str:
        """`item.port`."""
        return f"{self.item}.{self.port}"


@dataclass(frozen=True, slots=True)
class Item:
    """A device in the kit."""

    name: str
    part: Part
    asset: str | None
    firmware: str | None
    rides: str
    states_rides: bool
    """Whether the rig or the part says on what it rides; else a default by kind stands in."""
    bond: bool
    watch: str | None
    """What a screen is for: operator, focus, watch; None where nothing says."""
    setups: tuple[str, ...] | None
    """The setups that it belongs to; None: all."""
    is_short: bool
    """Written as its part's id alone."""


@dataclass(frozen=True, slots=True)
class Lead:
    """A lead of the rig and where its ends are plugged; an end that is loose is absent from `plugged`."""

    label: str
    body: LeadBody
    part: Part | None
    plugged: Mapping[str, PortRef]
    """End to port."""
    loose: frozenset[str]
    length: float
    """m; the rig's own figure wins over the part's."""
    mark: str | None
    asset: str | None
    setups: tuple[str, ...] | None
    is_short: bool
    """Written in one line, `a.out > b.in`."""
    names_ends: bool
    """Written with `ends`, not with `from` and `to`."""
    assumed: frozenset[str]


@dataclass(frozen=True, slots=True)
class Dock:
    """A direct mating of two ports."""

    index: int
    first: PortRef
    second: PortRef
    setups: tuple[str, ...] | None


@dataclass(frozen=True, slots=True)
class Link:
    """A radio connection; the first radio is the hub."""

    name: str
    radios: tuple[PortRef, ...]
    distance: float | None
    """m."""
    channel: str | None
    setups: tuple[str, ...] | None

    @property
    def place(self) -> str:
        """`link:NAME`."""
        return f"link:{self.name}"


@dataclass(frozen=True, slots=True)
class AirUser:
    """What else is on the air: Hz."""

    says: str
    centre: float
    width: float


@dataclass(frozen=True, slots=True)
class Fitting:
    """A motor on a lens ring."""

    motor: str
    lens: str
    ring: str
    direction: str | None
    marked: str | None


@dataclass(frozen=True, slots=True)
class Needs:
    """What the job asks of the rig: s, m, s, K."""

    runtime: float | None
    distance: float | None
    day: float | None
    flies: bool
    temperature: float | None
    stays_up: tuple[str, ...]
    flows: Mapping[str, tuple[str, ...]]
    """Flow to the items at which it must arrive."""


@dataclass(frozen=True, slots=True)
class SettingState:
    """A setting's value in a setup; None: stated nowhere. `stated` is the level that states it."""

    value: str | None
    stated: str
    """default, item, rig, setup or nowhere."""


@dataclass(frozen=True, slots=True)
class Setup:
    """One way of flying the rig."""

    name: str
    says: str | None
    items: frozenset[str]
    off: frozenset[str]
    """Items that are there but switched off."""
    leads: frozenset[str]
    docks: frozenset[int]
    links: frozenset[str]
    settings: Mapping[tuple[str, str], SettingState]
    """(item, setting) to its state."""
    who: Mapping[str, tuple[str, ...]]
    """Axis as a full place (`lens.focus`) to the persons meant; `nobody` and `automatic` as words."""
    distances: Mapping[str, float]
    """Link to m, where the setup or the rig states it."""
    crew: Mapping[str, tuple[str, ...]]
    needs: Needs
    on: str | None
    stance: str | None
    where: str | None
    region: str | None

    def setting(self, item: str, name: str) -> str | None:
        """The value of a setting, None where it is unknown."""
        state = self.settings.get((item, name))
        return state.value if state is not None else None

    def is_unknown(self, item: str, name: str) -> bool:
        """Whether the setting exists and nobody stated it."""
        state = self.settings.get((item, name))
        return state is not None and state.value is None

    def holder(self, item: str) -> str | None:
        """The person in whose crew an item is."""
        return next((person for person, items in self.crew.items() if item in items), None)


@dataclass(frozen=True, slots=True)
class Spare:
    """In the case, not on the rig."""

    part: Part
    count: int
    why: str | None


@dataclass(frozen=True, slots=True)
class Metered:
    """A lead whose polarity was measured."""

    by: str | None
    on: str | None
    says: str | None


@dataclass(frozen=True, slots=True)
class Acceptance:
    """A finding that somebody signed for."""

    code: str
    at: str
    setup: str | None
    why: str
    by: str
    until: str | None
    up_to: Quantity | None
    place: str
    """Where the entry stands: `accepted.N` of the rig or `library.N`."""
    position: Position | None = None
    """Of an entry of the library, in its file."""


@dataclass(frozen=True, slots=True)
class Rig:
    """A whole rig, as read from its file."""

    file: str
    """Path as given, with `/`."""
    title: str
    says: str | None
    job: str | None
    job_file: str | None
    """The file that states the job: this one, or one that it starts from."""
    items: Mapping[str, Item]
    leads: Mapping[str, Lead]
    docks: tuple[Dock, ...]
    links: Mapping[str, Link]
    air: tuple[AirUser, ...]
    fitted: Mapping[str, Fitting]
    """Motor item to where it sits."""
    setups: Mapping[str, Setup]
    marked: Mapping[str, str]
    tied: frozenset[str]
    metered: Mapping[str, Metered]
    spares: tuple[Spare, ...]
    requires: tuple[Requirement, ...]
    accepted: tuple[Acceptance, ...]
    positions: Mapping[str, Position]
    """Place to its position in the file."""
    protocols: Mapping[str, Protocol]
    """Every protocol that the catalogue declares."""
    assumed: tuple[str, ...]
    """Figures for which a default stands in, as `place figure`."""

    def port(self, ref: PortRef) -> Port:
        """The port at a place."""
        return self.items[ref.item].part.ports[ref.port]

    def radio(self, ref: PortRef) -> Radio:
        """The radio at a place."""
        return self.items[ref.item].part.radios[ref.port]

    def position(self, place: str, setup: str | None = None) -> Position:
        """Where a place stands in the file: the setup's own statement first, else the nearest thing that holds it."""
        if setup is not None:
            own = self.positions.get(f"{setup}|{place}")
            if own is not None:
                return own
        while place not in self.positions:
            cut = max(place.rfind("."), place.rfind(":"))
            if cut < 0:
                return Position(1, 1)
            place = place[:cut]
        return self.positions[place]
