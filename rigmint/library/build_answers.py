"""What answers findings: marks, ties, meter readings, acceptances; and what is in the case."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rigmint.library.scope import numbered
from rigmint.rig.rig import Acceptance, Metered


def build_metered(tree: Mapping[str, Any]) -> Mapping[str, Metered]:
    """Lead to its meter reading."""
    return {
        label: Metered((body or {}).get("by"), (body or {}).get("on"), (body or {}).get("says"))
        for label, body in tree.items()
    }


def build_acceptances(entries: Sequence[Mapping[str, Any] | None], origin: str) -> tuple[Acceptance, ...]:
    """Findings that somebody signed for; `origin` is `accepted` for the rig's own, `library` for the house's."""
    return tuple(
        Acceptance(
            code=entry["code"],
            at=entry["at"],
            setup=entry.get("setup"),
            why=entry["why"],
            by=entry["by"],
            until=entry.get("until"),
            up_to=entry.get("up_to"),
            place=f"{origin}.{index}" if origin == "accepted" else origin,
        )
        for index, entry in numbered(entries)
    )
