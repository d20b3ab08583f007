"""Pack `follow`: a head that somebody operates remotely is locked to them, and its leads do not wind up."""

from __future__ import annotations

from rigmint import Rule, hookimpl
from rigmint_follow import following_on, reachable, windup

PACK_API = 1


@hookimpl
def rigmint_rules() -> tuple[Rule, ...]:
    """The rules of the pack."""
    return (following_on.RULE, reachable.RULE, windup.RULE)
