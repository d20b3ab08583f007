"""The rules of the families `record`, `signal`, `radio` and `picture`."""

from __future__ import annotations

from rigmint import Rule
from rigmint_signals import (
    control_dies_first,
    crowded,
    late,
    lead_too_long,
    loss,
    near_reach,
    not_accepted,
    out_of_reach,
    picture_nobody,
    record_kind,
    same_slot,
    signal_level,
    signal_nobody,
    too_fast,
    too_many,
)

RULES: tuple[Rule, ...] = (
    record_kind.RULE,
    signal_level.RULE,
    signal_nobody.RULE,
    out_of_reach.RULE,
    near_reach.RULE,
    control_dies_first.RULE,
    crowded.RULE,
    too_many.RULE,
    same_slot.RULE,
    loss.RULE,
    picture_nobody.RULE,
    too_fast.RULE,
    not_accepted.RULE,
    lead_too_long.RULE,
    late.RULE,
)
