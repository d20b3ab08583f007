"""The leads of a rig from a table: each row a lead between two ports, a mate with no lead, or a radio link."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import count

from rigmint.rig.connector import go_together
from rigmint.rig.electric import Port
from rigmint.rig.part import Part
from rigmint.start.columns import LEAD_WORDS, Columns, find_columns
from rigmint.start.lead_match import LeadFit, LeadMatch, lay_lead
from rigmint.start.lengths import read_length
from rigmint.start.part_search import PartNotFound, PartSearch
from rigmint.start.table import Row, Table, one_line
from rigmint.start.table_kit import Kit, Unplaced
from rigmint.start.table_ports import PlaceNotFound, find_place
from rigmint.start.tokens import name_item, name_label


@dataclass(frozen=True, slots=True)
class TableLead:
    """A lead: its part where one is known, the ports of its ends a and b, its length as it is written."""

    label: str
    part: str | None
    source: str
    target: str
    length: str | None
    remarks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TableDock:
    """Two ports that mate with no lead between."""

    first: str
    second: str
    remarks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TableLink:
    """Radios of one link, the hub first."""

    name: str
    radios: tuple[str, ...]
    distance: str | None
    remarks: tuple[str, ...]


@dataclass(slots=True)
class Wiring:
    """What a table of leads says, and what of it could not be placed."""

    leads: list[TableLead] = field(default_factory=list)
    docks: list[TableDock] = field(default_factory=list)
    links: list[TableLink] = field(default_factory=list)
    unplaced: list[Unplaced] = field(default_factory=list)
    taken: set[str] = field(default_factory=set)
    """Ports that something is in."""


def find_lead_columns(table: Table) -> Columns:
    """The columns of a table of leads. Raises Refusal."""
    return find_columns(table, LEAD_WORDS, ("from", "to"))


def list_places(table: Table, columns: Columns) -> Iterator[tuple[Table, Row, str]]:
    """Every place that the table speaks of."""
    for row in table.rows:
        for purpose in ("from", "to"):
            if columns.read(row, purpose):
                yield table, row, columns.read(row, purpose)


class LeadReader:
    """Places the rows of one table."""

    def __init__(self, table: Table, columns: Columns, kit: Kit, match: LeadMatch, search: PartSearch) -> None:
        self._table = table
        self._columns = columns
        self._kit = kit
        self._search = search
        self._match = match
        self._used = {name.casefold() for name in kit.items}
        self._wiring = Wiring()

    def read(self) -> Wiring:
        """All rows, placed or named with why not."""
        for row in self._table.rows:
            try:
                self._read_row(row)
            except (PlaceNotFound, PartNotFound) as error:
                self._leave_out(row, str(error))
        return self._wiring

    def _leave_out(self, row: Row, why: str) -> None:
        self._wiring.unplaced.append(Unplaced(self._table.name, row.line, row.text, one_line(why)))

    def _read_row(self, row: Row) -> None:
        places: list[str] = []
        for purpose in ("from", "to"):
            text = self._columns.read(row, purpose)
            if not text:
                msg = f"it has nothing under `{purpose}`"
                raise PlaceNotFound(msg)
            places.append(find_place(self._kit, text, self._wiring.taken | set(places)))
        first, second = places
        if first == second:
            msg = f"both its ends are in {first}"
            raise PlaceNotFound(msg)
        remarks = tuple(f"{one_line(heading)}: {one_line(cell)}" for heading, cell in self._columns.list_rest(row))
        radios = [self._is_radio(place) for place in places]
        if all(radios):
            self._add_link(row, first, second, remarks)
        elif any(radios):
            msg = f"{first if radios[0] else second} is a radio, and {second if radios[0] else first} is none"
            raise PlaceNotFound(msg)
        elif self._is_dock(row, first, second):
            self._wiring.docks.append(TableDock(first, second, remarks))
            self._wiring.taken |= {first, second}
        else:
            self._add_lead(row, first, second, remarks)

    def _is_radio(self, place: str) -> bool:
        item, _, name = place.partition(".")
        return name in self._kit.items[item].part.radios

    def _is_dock(self, row: Row, first: str, second: str) -> bool:
        """Whether two ports go into each other and no lead is meant: none is made for them, or none is named."""
        ports = [find_port(self._kit, place) for place in (first, second)]
        if not go_together(*ports):
            return False
        is_named = any(self._columns.read(row, purpose) for purpose in ("label", "length", "part"))
        return not is_named or not all(self._match.has_leads_for(port) for port in ports)

    def _add_lead(self, row: Row, first: str, second: str, remarks: tuple[str, ...]) -> None:
        label, notes = self._find_label(row)
        written, metres, more = self._read_length(row)
        ports = find_port(self._kit, first), find_port(self._kit, second)
        wanted = self._columns.read(row, "part")
        fit: LeadFit | None
        if wanted:
            part = self._search.find_lead(wanted)
            fit = lay_lead(part, *ports) or LeadFit(_with_two_ends(part), False)
        else:
            fit = self._match.find(*ports, metres)
        source, target = (second, first) if fit is not None and fit.is_turned else (first, second)
        part_id = fit.part.id if fit is not None else None
        self._wiring.leads.append(TableLead(label, part_id, source, target, written, (*notes, *more, *remarks)))
        self._wiring.taken |= {first, second}

    def _add_link(self, row: Row, first: str, second: str, remarks: tuple[str, ...]) -> None:
        """A link of its own; a row that names the same link and the same hub adds a radio to it."""
        links = self._wiring.links
        name = name_item(self._columns.read(row, "label")) or f"radio_{len(links) + 1}"
        written, _, more = self._read_length(row)
        index = next((index for index, link in enumerate(links) if link.name == name), None)
        if index is None:
            links.append(TableLink(name, (first, second), written, (*more, *remarks)))
            return
        link = links[index]
        if link.radios[0] != first or second in link.radios or written not in (None, link.distance):
            msg = f"there is a link `{name}` already, whose hub is {link.radios[0]}"
            raise PlaceNotFound(msg)
        links[index] = replace(link, radios=(*link.radios, second), remarks=(*link.remarks, *more, *remarks))

    def _find_label(self, row: Row) -> tuple[str, tuple[str, ...]]:
        """The label, which no other lead and no item has, and what to say of it. Raises PlaceNotFound for one that is
        taken: two leads with one label are a fault of the leads, not of the table."""
        text = self._columns.read(row, "label")
        label = name_label(text)
        notes: tuple[str, ...] = ()
        if not label:
            label = next(name for number in count(1) if (name := f"L{number}").casefold() not in self._used)
            notes = (f"line {row.line} has no label" if not text else f"labelled {one_line(text)}",)
        elif label != text:
            notes = (f"labelled {one_line(text)}",)
        if label.casefold() in self._used:
            msg = f"the label `{label}` is that of an item or of another lead"
            raise PlaceNotFound(msg)
        self._used.add(label.casefold())
        return label, notes

    def _read_length(self, row: Row) -> tuple[str | None, float | None, tuple[str, ...]]:
        """The length as it is written in a rig file, and in m; what is none becomes a remark."""
        text = self._columns.read(row, "length")
        if not text:
            return None, None, ()
        found = read_length(text, self._columns.unit)
        if found is None:
            return None, None, (f"length {one_line(text)}: no length with its unit",)
        return *found, ()


def find_port(kit: Kit, place: str) -> Port:
    """The port of a place that is one."""
    item, _, name = place.partition(".")
    return kit.items[item].part.ports[name]


def _with_two_ends(part: Part) -> Part:
    """The part, where it can be written with `from` and `to`. Raises PartNotFound."""
    if part.lead is None or set(part.lead.ends) != {"a", "b"}:
        msg = f"{part.id} has other ends than a and b: write it by hand with `ends`"
        raise PartNotFound(msg)
    return part
