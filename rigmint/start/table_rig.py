"""A rig file from a table of leads, and a table of items where there is one."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path

from rigmint.library.catalogue import Catalogue
from rigmint.rig.connector import go_together
from rigmint.start.answers import Refusal
from rigmint.start.lead_match import LeadMatch
from rigmint.start.part_search import PartSearch
from rigmint.start.render import render_template
from rigmint.start.table import read_table
from rigmint.start.table_kit import Kit, KitItem, Unplaced, guess_kit, read_kit
from rigmint.start.table_leads import (
    LeadReader,
    TableDock,
    TableLead,
    TableLink,
    Wiring,
    find_lead_columns,
    find_port,
    list_places,
)
from rigmint.start.write_rig import quote, write_remark

_CAUGHT = "the only two in the kit that go together"


@dataclass(frozen=True, slots=True)
class TableRig:
    """The text of a rig file, and what of the tables it could not hold but as a comment. `says`: how they were read,
    where that had to be guessed."""

    text: str
    unplaced: tuple[Unplaced, ...]
    says: tuple[str, ...]


def write_table_rig(leads: Path, items: Path | None, title: str, catalogue: Catalogue) -> TableRig:
    """The rig of the tables. Raises Refusal for a table that cannot be read, or of which nothing can be placed."""
    search = PartSearch(catalogue)
    table = read_table(leads)
    columns = find_lead_columns(table)
    if not table.rows:
        msg = f"{leads} holds headings and no row below them"
        raise Refusal(msg)
    item_table = read_table(items) if items is not None else None
    kit = read_kit(item_table, search) if item_table is not None else guess_kit(list_places(table, columns), search)
    if not kit.items:
        listed = "\n".join(f"  {one}" for one in kit.unplaced[:10])
        msg = f"no item of the tables could be placed, so there is no rig to lay down\n{listed}"
        raise Refusal(msg)
    match = LeadMatch(catalogue)
    wiring = LeadReader(table, columns, kit, match, search).read()
    _add_sure_docks(kit, wiring, match)
    unplaced = (*kit.unplaced, *wiring.unplaced)
    text = render_template(
        "table_rig.yaml.j2",
        title=quote(title),
        kit=[_write_item(item) for item in kit.items.values()],
        docks=[_write_dock(dock) for dock in wiring.docks],
        leads=[_write_lead(lead) for lead in wiring.leads],
        links=[_write_link(link) for link in wiring.links],
        has_parts=any(lead.part is not None for lead in wiring.leads),
        has_strings=any(lead.part is None for lead in wiring.leads),
        unplaced=[str(one) for one in unplaced],
    )
    says = tuple(one.says for one in (table, item_table) if one is not None and one.says is not None)
    return TableRig(text, unplaced, says)


def _add_sure_docks(kit: Kit, wiring: Wiring, match: LeadMatch) -> None:
    """Mates that no row names and that leave no choice: one free plug and one free socket of a connector for which
    there are no leads, on two items."""
    free: dict[str, list[str]] = defaultdict(list)
    for item in kit.items.values():
        for port in item.part.ports.values():
            place = f"{item.name}.{port.name}"
            if place not in wiring.taken and not match.has_leads_for(port):
                free[port.connector.id].append(place)
    for places in free.values():
        if len(places) == 2 and _are_a_pair(kit, *places):
            first, second = sorted(places, key=lambda place: find_port(kit, place).sex.value)
            wiring.docks.append(TableDock(first, second, (_CAUGHT,)))


def _are_a_pair(kit: Kit, first: str, second: str) -> bool:
    is_one = first.partition(".")[0] == second.partition(".")[0]
    return not is_one and go_together(find_port(kit, first), find_port(kit, second))


def _write_item(item: KitItem) -> str:
    entries = [f"part: {item.part.id}"]
    if item.settings:
        entries.append(
            f"set: {{{', '.join(f'{name}: {_write_value(value)}' for name, value in item.settings.items())}}}"
        )
    if item.asset is not None:
        entries.append(f"asset: {quote(item.asset)}")
    value = f"{{{', '.join(entries)}}}" if len(entries) > 1 else item.part.id
    return write_remark(f"{item.name + ':':<11} {value}", "; ".join(item.remarks))


def _write_value(value: str) -> str:
    return value if value.replace("_", "").isalnum() else quote(value)


def _write_dock(dock: TableDock) -> str:
    return write_remark(f"- {dock.first} > {dock.second}", "; ".join(dock.remarks))


def _write_lead(lead: TableLead) -> str:
    entries = [f"from: {lead.source}", f"to: {lead.target}"]
    if lead.part is not None:
        entries.insert(0, f"part: {lead.part}")
    if lead.length is not None:
        entries.append(f"length: {lead.length}")
    value = f"{{{', '.join(entries)}}}" if len(entries) > 2 else f"{lead.source} > {lead.target}"
    return write_remark(f"{lead.label}: {value}", "; ".join(lead.remarks))


def _write_link(link: TableLink) -> str:
    distance = f", distance: {link.distance}" if link.distance is not None else ""
    return write_remark(f"{link.name}: {{between: [{', '.join(link.radios)}]{distance}}}", "; ".join(link.remarks))
