"""Pack `signals`: what plugs where, record, picture, radio and other flows."""

from __future__ import annotations

from rigmint import Rule, hookimpl
from rigmint_signals import carrying, fitting

PACK_API = 1


@hookimpl
def rigmint_rules() -> tuple[Rule, ...]:
    """The rules of the pack."""
    return (*fitting.RULES, *carrying.RULES)
