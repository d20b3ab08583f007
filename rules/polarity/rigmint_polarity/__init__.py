"""Pack `polarity`: the pair the wrong way round, shorted, on a signal contact, or without a return."""

from __future__ import annotations

from rigmint import Rule, hookimpl
from rigmint_polarity import no_return, reversed_feed, shorted, signal_contact, unknown_pinout

PACK_API = 1


@hookimpl
def rigmint_rules() -> tuple[Rule, ...]:
    """The rules of the pack."""
    return (reversed_feed.RULE, shorted.RULE, signal_contact.RULE, no_return.RULE, unknown_pinout.RULE)
