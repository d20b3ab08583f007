"""The items of a rig from tables: those that the table of items lists, and those that the table of leads speaks of."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field

from rigmint.rig.part import Part
from rigmint.start.columns import ITEM_WORDS, Columns, find_columns
from rigmint.start.part_search import PartNotFound, PartSearch
from rigmint.start.table import Row, Table, one_line
from rigmint.start.tokens import name_item, split_tokens

_SEPARATED = re.compile(r"([^.:]*[^.:\s][^.:]*)[.:]")
_SETTING = re.compile(r"\s*([A-Za-z0-9_ ]+?)\s*[=:]\s*(.+?)\s*")


@dataclass(frozen=True, slots=True)
class Unplaced:
    """What could not be placed: the table, the line, what stands there, and why."""

    table: str
    line: int
    text: str
    why: str

    def __str__(self) -> str:
        return f"{self.table} line {self.line}: {self.text}: {self.why}"


@dataclass(frozen=True, slots=True)
class KitItem:
    """An item of the rig. `remarks`: what its row says besides."""

    name: str
    part: Part
    asset: str | None
    settings: Mapping[str, str]
    remarks: tuple[str, ...]


@dataclass(slots=True)
class Kit:
    """Items by name; `spelled`: the words by which the tables call each."""

    items: dict[str, KitItem] = field(default_factory=dict)
    spelled: dict[tuple[str, ...], str] = field(default_factory=dict)
    unplaced: list[Unplaced] = field(default_factory=list)
    failed: dict[tuple[str, ...], str] = field(default_factory=dict)
    """Words by which an item is called that could not be placed, to why not."""

    def split_place(self, text: str) -> tuple[str, tuple[str, ...]] | None:
        """The item that a place begins with, and the words that are left for its port; the longest name wins."""
        tokens = split_tokens(text)
        for length in range(len(tokens), 0, -1):
            name = self.spelled.get(tokens[:length])
            if name is not None:
                return name, tokens[length:]
        return None

    def find_failed(self, text: str) -> str | None:
        """The item that a place begins with, where a table speaks of it and it could not be placed."""
        tokens = split_tokens(text)
        return next((" ".join(tokens[:n]) for n in range(len(tokens), 0, -1) if tokens[:n] in self.failed), None)


def read_kit(table: Table, search: PartSearch) -> Kit:
    """The items of a table of items. Raises Refusal where it has no column for items or for parts."""
    columns = find_columns(table, ITEM_WORDS, ("item", "part"))
    kit = Kit()
    for row in table.rows:
        _add_row(kit, table, columns, row, search)
    return kit


def guess_kit(places: Iterable[tuple[Table, Row, str]], search: PartSearch) -> Kit:
    """The items that a table of leads speaks of, where there is no table of items: each named by what stands before
    the port, and found in the catalogue by that name alone."""
    kit = Kit()
    listed = list(places)
    named = {split_tokens(match[1]) for _, _, place in listed if (match := _SEPARATED.match(place))}
    for table, row, place in listed:
        spelling = _find_item_words(place, named)
        tokens = split_tokens(spelling)
        if not tokens or tokens in kit.spelled or tokens in kit.failed:
            continue
        try:
            part = search.find_device(spelling)
        except PartNotFound as error:
            kit.failed[tokens] = f"{error}; list its part in a table of items, `--items`"
            kit.unplaced.append(Unplaced(table.name, row.line, f"item `{one_line(spelling)}`", kit.failed[tokens]))
            continue
        _place(kit, spelling, KitItem(name_item(spelling), part, None, {}, ()))
    return kit


def _find_item_words(place: str, named: Collection[tuple[str, ...]]) -> str:
    """What of a place is the item: all before a point or a colon, else the words that name one elsewhere in the table,
    else the first word."""
    match = _SEPARATED.match(place)
    if match:
        return match[1].strip()
    words = place.split()
    for length in range(len(words), 0, -1):
        if split_tokens(" ".join(words[:length])) in named:
            return " ".join(words[:length])
    return words[0].strip(",;/")


def _add_row(kit: Kit, table: Table, columns: Columns, row: Row, search: PartSearch) -> None:
    spelling, wanted = columns.read(row, "item"), columns.read(row, "part")
    name = name_item(spelling)
    why = None
    part = None
    if not name:
        why = "it names no item by a letter or a digit"
    elif name in kit.items:
        why = f"there is an item `{name}` already"
    elif not wanted:
        why = "it names no part"
    else:
        try:
            part = search.find_device(wanted)
        except PartNotFound as error:
            why = str(error)
    if part is None:
        kit.unplaced.append(Unplaced(table.name, row.line, row.text, one_line(why or "")))
        kit.failed.setdefault(split_tokens(spelling), one_line(why or ""))
        return
    settings, odd = _read_settings(columns.read(row, "settings"), part)
    for text, reason in odd:
        kit.unplaced.append(Unplaced(table.name, row.line, f"{name}: {one_line(text)}", reason))
    remarks = [f"{one_line(heading)}: {one_line(cell)}" for heading, cell in columns.list_rest(row)]
    if split_tokens(spelling) != split_tokens(name):
        remarks.insert(0, one_line(spelling))
    asset = columns.read(row, "asset") or None
    _place(kit, spelling, KitItem(name, part, one_line(asset) if asset else None, settings, tuple(remarks)))


def _place(kit: Kit, spelling: str, item: KitItem) -> None:
    kit.items[item.name] = item
    kit.spelled[split_tokens(spelling)] = item.name
    kit.spelled.setdefault(split_tokens(item.name), item.name)


def _read_settings(text: str, part: Part) -> tuple[dict[str, str], list[tuple[str, str]]]:
    """`axis=focus; mode: custom` as settings of the part; what is none of it comes back with why."""
    settings: dict[str, str] = {}
    odd: list[tuple[str, str]] = []
    for entry in re.split(r"[;,|\n]", text):
        if not entry.strip():
            continue
        match = _SETTING.fullmatch(entry)
        name = name_item(match[1]) if match else ""
        setting = part.settings.get(name)
        if match is None or setting is None:
            listed = ", ".join(part.settings) or "none"
            odd.append((entry.strip(), f"{part.id} has no such setting; it has {listed}"))
            continue
        value = match[2].strip("'\"")
        values = {known.casefold(): known for known in setting.values}
        if setting.values and value.casefold() not in values:
            odd.append((entry.strip(), f"`{name}` takes {', '.join(setting.values)}"))
            continue
        settings[name] = values.get(value.casefold(), value)
    return settings, odd
