"""Pack `voltage`: volts above and below what a port takes, and feeds that run backwards."""

from __future__ import annotations

from rigmint import Rule, hookimpl
from rigmint_voltage import above_window, collapse, into_output, over, shock, tied_sources, under, unpowered

PACK_API = 1


@hookimpl
def rigmint_rules() -> tuple[Rule, ...]:
    """The rules of the pack."""
    return (
        over.RULE,
        above_window.RULE,
        under.RULE,
        collapse.RULE,
        unpowered.RULE,
        shock.RULE,
        into_output.RULE,
        tied_sources.RULE,
    )
