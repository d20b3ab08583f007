"""Pack `owner`: each axis has one hand on it, the one that is meant."""

from __future__ import annotations

from rigmint import Rule, hookimpl
from rigmint_owner import mixed, nobody, two, unintended, unstated

PACK_API = 1


@hookimpl
def rigmint_rules() -> tuple[Rule, ...]:
    """The rules of the pack."""
    return (mixed.RULE, two.RULE, unintended.RULE, nobody.RULE, unstated.RULE)
