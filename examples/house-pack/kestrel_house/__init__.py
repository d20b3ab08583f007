"""What Kestrel Hire asks of every rig that leaves the house."""

from __future__ import annotations

from kestrel_house import few_batteries, no_asset, unmarked_feed
from rigmint import Rule, hookimpl

PACK_API = 1
"""The version of rigmint's pack contract for which this pack was written."""


@hookimpl
def rigmint_rules() -> tuple[Rule, ...]:
    """The rules of the house."""
    return (no_asset.RULE, few_batteries.RULE, unmarked_feed.RULE)
