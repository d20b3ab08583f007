"""A rig while it is put together from generic parts: what the blocks add to, and what the writer reads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from rigmint.library.catalogue import Catalogue
from rigmint.rig.electric import Port
from rigmint.rig.part import Part
from rigmint.start.answers import HIGH_PLACES, MOVING_PLACES, Answers, Refusal
from rigmint.start.lead_choice import choose_lead

AWAY = "away"
_USB_SUPPLY = "generic/supply-mains-usb"
BOND_FROM = 0.1
"""kg from which an item on the head has a bond of its own (common practice)."""


@dataclass(frozen=True, slots=True)
class DraftItem:
    """An item: its part, where it rides where that is not its part's default, its settings."""

    name: str
    part: Part
    group: str
    rides: str | None
    settings: Mapping[str, str]
    watch: str | None
    remark: str | None

    @property
    def place(self) -> str:
        """On what it rides."""
        return self.rides or self.part.rides


@dataclass(frozen=True, slots=True)
class DraftLead:
    """A lead: end to port. `length` in m where it is not its part's own."""

    label: str
    part: str
    ends: Mapping[str, str]
    group: str
    length: float | None
    remark: str | None


@dataclass(frozen=True, slots=True)
class DraftLink:
    """A radio link; the first radio is the hub."""

    name: str
    radios: tuple[str, ...]
    channel: int
    distance: float


@dataclass(slots=True)
class Draft:
    """Gathers items, docks, leads and links, and what is said of people and settings."""

    answers: Answers
    catalogue: Catalogue
    items: dict[str, DraftItem] = field(default_factory=dict)
    docks: list[tuple[str, str]] = field(default_factory=list)
    leads: list[DraftLead] = field(default_factory=list)
    links: list[DraftLink] = field(default_factory=list)
    fitted: dict[str, str] = field(default_factory=dict)
    crew: dict[str, list[str]] = field(default_factory=dict)
    settings: dict[str, str] = field(default_factory=dict)
    who: dict[str, list[str]] = field(default_factory=dict)
    spares: list[tuple[str, int]] = field(default_factory=list)

    def add(
        self,
        group: str,
        name: str,
        part: str,
        *,
        rides: str | None = None,
        watch: str | None = None,
        remark: str | None = None,
        **settings: str,
    ) -> str:
        """An item of a generic part; its name is given back."""
        found = self.catalogue.part(f"generic/{part}")
        if found is None or name in self.items:
            msg = f"the catalogue has no part generic/{part}, or {name} is there already"
            raise ValueError(msg)
        place = rides if rides != found.rides else None
        self.items[name] = DraftItem(name, found, group, place, settings, watch, remark)
        return name

    def port(self, place: str) -> Port:
        """The port of a place `item.port`."""
        item, _, name = place.partition(".")
        return self.items[item].part.ports[name]

    def leaves_rig(self, *places: str) -> bool:
        """Whether of these places `item.port` some are on the rig and some are not."""
        return len({self.items[place.partition(".")[0]].place == AWAY for place in places}) > 1

    def dock(self, first: str, second: str) -> None:
        """Mate two ports directly."""
        self.docks.append((first, second))

    def lead(
        self,
        group: str,
        letter: str,
        source: str,
        target: str,
        *,
        part: str | None = None,
        length: float | None = None,
        remark: str | None = None,
    ) -> None:
        """A lead from port to port; without a part, the usual one for the two connectors. Its label is the letter and
        the next number."""
        ports = self.port(source), self.port(target)
        pair = ports[0].connector.id, ports[1].connector.id
        chosen = part or choose_lead(*pair, leaves_rig=self.leaves_rig(source, target))
        self._add_lead(group, letter, chosen, {"from": source, "to": target}, length, remark)

    def loom(self, group: str, letter: str, part: str, ends: Mapping[str, str], *, remark: str | None = None) -> None:
        """A lead of more than two ends."""
        self._add_lead(group, letter, part, ends, None, remark)

    def _add_lead(
        self, group: str, letter: str, part: str, ends: Mapping[str, str], length: float | None, remark: str | None
    ) -> None:
        number = 1 + sum(lead.label.startswith(letter) for lead in self.leads)
        self.leads.append(DraftLead(f"{letter}{number}", f"generic/{part}", ends, group, length, remark))

    def link(self, name: str, radios: tuple[str, ...], channel: int) -> None:
        """A radio link over the distance of the job. Raises Refusal where it is beyond what a radio of it reaches."""
        distance, region = self.answers.distance, self.answers.region
        for place in radios:
            item, _, radio = place.partition(".")
            part = self.items[item].part
            reach = part.radios[radio].reach.get(region)
            if reach is not None and distance > reach:
                msg = (
                    f"{distance:g} m is further than {part.id} reaches in region {region}, which is {reach:g} m by its"
                    " maker's figure and less on set: say a shorter `--distance`."
                )
                raise Refusal(msg)
        self.links.append(DraftLink(name, radios, channel, distance))

    def give(self, person: str, *items: str) -> None:
        """Items into somebody's hands."""
        held = self.crew.setdefault(person, [])
        held += [item for item in items if item not in held]

    def own(self, axis: str, person: str) -> None:
        """An axis or record for somebody, beside those who have it already."""
        owners = self.who.setdefault(axis, [])
        if person not in owners:
            owners.append(person)

    def is_bonded(self, item: DraftItem) -> bool:
        """Whether it must have a safety bond of its own: it rides on a rig that can hit somebody, and is heavy."""
        if self.answers.on not in HIGH_PLACES or item.place == AWAY or item.part.kind == "carrier":
            return False
        return item.part.mass is None or item.part.mass > BOND_FROM or item.part.kind == "head"

    def list_loose_plugs(self) -> list[str]:
        """Ports whose plugs do not latch, of items that ride on a rig that moves: what has to be tied."""
        if self.answers.on not in MOVING_PLACES:
            return []
        places = [place for lead in self.leads for place in lead.ends.values()]
        places += [first for first, _ in self.docks]
        loose = [place for place in places if self._is_loose(place)]
        return sorted(dict.fromkeys(loose), key=loose.index)

    def list_taped_leads(self) -> list[str]:
        """Labels of the leads that bring 5 V from mains supplies and power banks, where both plugs of such a lead fit
        other devices' outputs and a mains supply does not bear to be fed: tape of one colour keeps them apart."""
        if not any(item.part.id == _USB_SUPPLY for item in self.items.values()):
            return []
        return [lead.label for lead in self.leads if "from" in lead.ends and self._brings_five(lead.ends["from"])]

    def _brings_five(self, place: str) -> bool:
        part = self.items[place.partition(".")[0]].part
        return bool(part.cells) and self.port(place).connector.id.startswith("usb-")

    def _is_loose(self, place: str) -> bool:
        connector = self.port(place).connector
        item = self.items[place.partition(".")[0]]
        return connector.latches is False and not connector.is_mechanical and item.place != AWAY
