"""Pack `mechanics`: motors on lens rings, and the weight that heads and arms carry."""

from __future__ import annotations

from rigmint import Rule, hookimpl
from rigmint_mechanics import (
    dial_speed,
    no_bond,
    no_mesh,
    no_stops,
    over,
    slow,
    too_strong,
    turned_round,
    under,
    weak,
)

PACK_API = 1


@hookimpl
def rigmint_rules() -> tuple[Rule, ...]:
    """The rules of the pack."""
    return (
        dial_speed.RULE,
        no_bond.RULE,
        no_mesh.RULE,
        no_stops.RULE,
        over.RULE,
        slow.RULE,
        too_strong.RULE,
        turned_round.RULE,
        under.RULE,
        weak.RULE,
    )
