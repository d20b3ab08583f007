"""Pack `owner`: each axis has one hand on it, the one that is meant."""

from __future__ import annotations

from rigmint import Rule, hookimpl
from rigmint_owner import mixed, no_stop, nobody, two, unintended, unstated, wrong_ring

PACK_API = 1


@hookimpl
def rigmint_rules() -> tuple[Rule, ...]:
    """The rules of the pack."""
    return (
        no_stop.RULE,
        mixed.RULE,
        two.RULE,
        wrong_ring.RULE,
        unintended.RULE,
        nobody.RULE,
        unstated.RULE,
    )
