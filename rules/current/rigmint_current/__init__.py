"""Pack `current`: amps, returns and how long it lasts. Families current, ground, runtime."""

from __future__ import annotations

from rigmint import Rule, hookimpl
from rigmint_current import inrush, over, runtime_short, short, swap_drops, through_shield, two_earths

PACK_API = 1


@hookimpl
def rigmint_rules() -> tuple[Rule, ...]:
    """The rules of the pack."""
    return (
        over.RULE,
        short.RULE,
        inrush.RULE,
        runtime_short.RULE,
        swap_drops.RULE,
        through_shield.RULE,
        two_earths.RULE,
    )
