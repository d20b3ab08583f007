"""Pack `follow`: a head that somebody operates remotely is locked to them."""

from __future__ import annotations

from rigmint import Rule, hookimpl
from rigmint_follow import following_on, reachable

PACK_API = 1


@hookimpl
def rigmint_rules() -> tuple[Rule, ...]:
    """The rules of the pack."""
    return (following_on.RULE, reachable.RULE)
