"""Which column of a table is which: the heading words that prep rooms use."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rigmint.start.answers import Refusal
from rigmint.start.table import Row, Table

LEAD_WORDS = {
    "label": (
        "label",
        "lead",
        "cable",
        "lead no",
        "cable no",
        "lead label",
        "cable label",
        "tag",
        "no",
        "number",
        "id",
    ),
    "from": ("from", "source", "start", "side a", "end a", "a", "from port", "from device", "from item", "out of"),
    "to": ("to", "destination", "target", "end", "side b", "end b", "b", "to port", "to device", "to item", "into"),
    "length": ("length", "len", "lead length", "cable length", "long"),
    "part": ("part", "lead part", "cable part", "part id", "lead type", "cable type", "type"),
}
ITEM_WORDS = {
    "item": ("item", "name", "device", "kit", "what", "id"),
    "part": ("part", "part id", "model", "type", "catalogue", "catalog"),
    "asset": ("asset", "asset no", "asset number", "barcode", "serial", "serial no", "inventory"),
    "settings": ("settings", "setting", "set", "set to"),
}
_UNIT = re.compile(r"\s*[(\[]\s*(mm|cm|m|ft|in)\s*[)\]]\s*$|\s+in\s+(mm|cm|m|ft)\s*$|\s+(mm|cm|m|ft)\s*$")


@dataclass(frozen=True, slots=True)
class Columns:
    """Purpose to heading, and the unit that the heading of lengths names."""

    by_purpose: Mapping[str, str]
    unit: str | None

    def read(self, row: Row, purpose: str) -> str:
        """The cell of a row; empty where there is none."""
        heading = self.by_purpose.get(purpose)
        return row.cells.get(heading, "") if heading is not None else ""

    def list_rest(self, row: Row) -> list[tuple[str, str]]:
        """(heading, cell) of the columns that nothing is read from."""
        used = set(self.by_purpose.values())
        return [(heading, cell) for heading, cell in row.cells.items() if heading not in used]


def find_columns(table: Table, words: Mapping[str, Sequence[str]], needed: Sequence[str]) -> Columns:
    """The columns of a table by their headings. Raises Refusal where one that is needed is not there, or twice."""
    found: dict[str, str] = {}
    unit = None
    for heading in table.headings:
        name, named_unit = _split_unit(heading)
        purpose = next((key for key, spellings in words.items() if name in spellings), None)
        if purpose is None:
            continue
        if purpose in found:
            msg = f"{table.name} has two columns for `{purpose}`: `{found[purpose]}` and `{heading}`; rename one"
            raise Refusal(msg)
        found[purpose] = heading
        unit = named_unit if purpose == "length" else unit
    missing = [purpose for purpose in needed if purpose not in found]
    if missing:
        listed = ", ".join(f"`{heading}`" for heading in table.headings[:12])
        due = " and ".join(f"`{purpose}`" for purpose in missing)
        msg = f"{table.name} has no column headed {due}: its first row reads {listed}"
        raise Refusal(msg)
    return Columns(found, unit)


def _split_unit(heading: str) -> tuple[str, str | None]:
    folded = re.sub(r"[_.:#]+", " ", heading.casefold()).strip()
    match = _UNIT.search(folded)
    unit = next((one for one in match.groups() if one), None) if match else None
    name = folded[: match.start()] if match and folded[: match.start()].strip() else folded
    return " ".join(name.split()), unit
