"""A run that was kept: looked for before anything else is imported."""

from __future__ import annotations

from rigmint import TYPE_CHECKING
from rigmint.lint.cache_store import CacheStore
from rigmint.lint.inputs import do_inputs_hold

if TYPE_CHECKING:
    from typing import Any


def find_run(store: CacheStore, key: str, today: str) -> tuple[str, int] | None:
    """The text and the status of a run that would come to the same now; None where there is none."""
    value: Any = store.find(key)
    try:
        after, until = value["after"], value["until"]
        holds = (after is None or after < today) and (until is None or today <= until)
        if holds and do_inputs_hold(value["inputs"]):
            return str(value["text"]), int(value["status"])
    except (TypeError, ValueError, KeyError):
        return None
    return None
