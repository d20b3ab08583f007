"""The rules of family `fit`."""

from __future__ import annotations

from rigmint import Rule
from rigmint_signals import (
    chain_order,
    firmware,
    loose_live_end,
    no_mate,
    no_wire,
    port_taken,
    required,
    unlatched,
    wrong_port,
    wrong_way_round,
)

RULES: tuple[Rule, ...] = (
    no_mate.RULE,
    port_taken.RULE,
    wrong_way_round.RULE,
    wrong_port.RULE,
    no_wire.RULE,
    chain_order.RULE,
    firmware.RULE,
    loose_live_end.RULE,
    unlatched.RULE,
    required.RULE,
)
