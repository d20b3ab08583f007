"""What may be typed where the cursor stands."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from rigmint.editor.cursor import Cursor
from rigmint.editor.known import Known
from rigmint.editor.schema_walk import find_place


class Sort(Enum):
    """What an offer is."""

    KEY = "key"
    NAME = "name"
    VALUE = "value"


@dataclass(frozen=True, slots=True)
class Offer:
    """Something to type in the place of the word before the cursor."""

    text: str
    sort: Sort
    title: str = ""
    says: str = ""


def list_offers(kind: str, cursor: Cursor, known: Known) -> list[Offer]:
    """The offers at a cursor, in the order in which the format has them. `kind`: of file, as the schemas are named."""
    place = find_place(kind, cursor.keys)
    if cursor.is_key:
        offers = [Offer(f"{key.name}: ", Sort.KEY, key.title, key.says) for key in place.keys]
        named = known.list_names(place.key_names, cursor.keys, cursor.word) if place.key_names is not None else ()
        offers += [Offer(name if name.endswith(".") else f"{name}: ", Sort.NAME) for name in named]
    else:
        offers = [Offer(word, Sort.VALUE) for word in place.words]
        if kind == "rig":
            offers += [Offer(value, Sort.VALUE) for value in known.list_values(cursor.keys)]
        for name in sorted(place.names):
            offers += [
                Offer(one, Sort.NAME, *_describe_part(name, one, known))
                for one in known.list_names(name, cursor.keys, cursor.word)
            ]
    return [offer for offer in dict.fromkeys(offers) if offer.text.startswith(cursor.word)]


def _describe_part(name: str, part_id: str, known: Known) -> tuple[str, str]:
    part = known.catalogue.part(part_id) if name == "part" else None
    return (part.name, part.kind.replace("_", " ")) if part is not None else ("", "")
