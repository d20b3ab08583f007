"""Pack `prep`: what is settled before the cases are shut: what flies, what is in the kit for nothing, what is promised
twice."""

from __future__ import annotations

from rigmint import Rule, hookimpl
from rigmint_prep import air_battery, asset_twice, idle_control, misplug_burns, unused_item

PACK_API = 1


@hookimpl
def rigmint_rules() -> tuple[Rule, ...]:
    """The rules of the pack."""
    return (air_battery.RULE, asset_twice.RULE, idle_control.RULE, misplug_burns.RULE, unused_item.RULE)
