"""What answers findings: marks, ties, meter readings, acceptances; and what is in the case."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from rigmint.library.scope import numbered
from rigmint.rig.place import Position
from rigmint.rig.rig import Acceptance, Metered


def build_metered(tree: Mapping[str, Any]) -> Mapping[str, Metered]:
    """Lead to its meter reading."""
    return {
        label: Metered((body or {}).get("by"), (body or {}).get("on"), (body or {}).get("says"))
        for label, body in tree.items()
    }


def build_acceptances(
    entries: Sequence[Mapping[str, Any] | None],
    origin: str,
    find_position: Callable[[int], Position] | None = None,
) -> tuple[Acceptance, ...]:
    """Findings that somebody signed for; `origin` is `accepted` for the rig's own, `library` for the house's, whose
    entries keep their position with them."""
    return tuple(
        Acceptance(
            code=entry["code"],
            at=entry["at"],
            setup=entry.get("setup"),
            why=entry["why"],
            by=entry["by"],
            until=entry.get("until"),
            up_to=entry.get("up_to"),
            place=f"{origin}.{index}",
            position=find_position(index) if find_position is not None else None,
        )
        for index, entry in numbered(entries)
    )


def find_impossible_dates(entries: Sequence[Mapping[str, Any] | None]) -> Iterator[tuple[int, str]]:
    """Index of each entry whose `until` is a day that no calendar has, such as 2027-02-30, and a sentence for it."""
    for index, entry in numbered(entries):
        until = entry.get("until")
        if until is None:
            continue
        try:
            datetime.date.fromisoformat(until)
        except ValueError:
            yield index, f"accepted.{index}.until: there is no day `{until}`"
